#include "hydraulics/tubing.h"

#include <map>
#include <set>

namespace teetally::hydraulics {
namespace {

// Loss coefficients of the EPANET 2.2 User Manual, chapter 3, "Minor loss coefficients for selected fittings".
constexpr double kElbow = 0.9;  // short radius
constexpr double kTeeRun = 0.6;
constexpr double kTeeBranch = 1.8;
constexpr double kOpenGateValve = 0.2;
constexpr double kOpenGlobeValve = 10;  // nearest in the table to a solenoid zone valve
constexpr double kEntrance = 0.5;       // bounds a sudden contraction of any ratio: reducers

std::optional<double> measured(const std::string& name) {
  const auto diameter = parse_diameter(name, {});
  if (!diameter || diameter->tenths_um <= 0) return std::nullopt;
  return in_metres(*diameter);
}

bool enters_after(const Garden& garden, int leg, int node) { return garden.legs[leg].from == node; }

void add_turns(const Garden& garden, const Fitting& fitting, double k, std::vector<double>& losses) {
  for (const int leg : fitting.legs) {
    if (enters_after(garden, leg, fitting.node)) losses[leg] += k;
  }
}

// The first two legs are the run. Water that comes in by the branch turns into both ends of the run.
void add_tee(const Garden& garden, const Fitting& fitting, std::vector<double>& losses) {
  if (fitting.legs.size() != 3) return;
  const bool from_branch = !enters_after(garden, fitting.legs[2], fitting.node);
  for (int i = 0; i < 3; ++i) {
    const int leg = fitting.legs[i];
    if (!enters_after(garden, leg, fitting.node)) continue;
    losses[leg] += i == 2 || from_branch ? kTeeBranch : kTeeRun;
  }
}

void add_fitting(const Garden& garden, const Fitting& fitting, double barb_loss, std::vector<double>& losses) {
  switch (fitting.joint) {
    case Joint::elbow:
      return add_turns(garden, fitting, kElbow, losses);
    case Joint::tee:
      return add_tee(garden, fitting, losses);
    case Joint::cross:
      return add_turns(garden, fitting, kTeeBranch, losses);
    case Joint::take_off:
    case Joint::tape_start:
      if (!fitting.legs.empty()) losses[fitting.legs[0]] += barb_loss;
      return;
    case Joint::straight:
      if (fitting.legs.size() == 2 && garden.legs[fitting.legs[0]].size != garden.legs[fitting.legs[1]].size) {
        add_turns(garden, fitting, kEntrance, losses);
      }
      return;
    case Joint::end_closure:
    case Joint::flush_cap:
    case Joint::head:
      return;
  }
}

}  // namespace

const NominalSize* find_size(const Practice& practice, const std::string& name) {
  for (const NominalSize& size : practice.sizes) {
    if (size.name == name) return &size;
  }
  return nullptr;
}

double inside_of(const Practice& practice, const std::string& name) {
  const NominalSize* size = find_size(practice, name);
  if (size && size->inside.tenths_um > 0) return in_metres(size->inside);
  return measured(name).value_or(0.0127);
}

void check_sizes(const Garden& garden, const Practice& practice, Diagnostics& diagnostics) {
  std::set<std::string> told;
  for (const Run& run : garden.runs) {
    if (run.size.empty() || find_size(practice, run.size) || !told.insert(run.size).second) continue;
    const std::string used = measured(run.size) ? "its name as a measure" : "half an inch";
    Diagnostic& warning =
        diagnostics.warning("hydraulics/unknown-size", run.place,
                            "no inside diameter is known for " + quoted(run.size) + "; computed with " + used);
    warning.help = "add the size with its inside diameter to the practice file";
  }
}

std::vector<double> insides_of_legs(const Garden& garden, const Practice& practice) {
  std::map<std::string, double> known;
  std::vector<double> insides;
  for (const Leg& leg : garden.legs) {
    const auto [at, fresh] = known.try_emplace(leg.size, 0.0);
    if (fresh) at->second = inside_of(practice, leg.size);
    insides.push_back(at->second);
  }
  return insides;
}

std::vector<double> fitting_losses(const Garden& garden, double barb_loss) {
  std::vector<double> losses(garden.legs.size(), 0.0);
  for (const Fitting& fitting : garden.fittings) add_fitting(garden, fitting, barb_loss, losses);
  for (const Device& device : garden.devices) {
    if (device.outlet || device.node < 0) continue;
    const double k = device.part.kind == "zone valve"       ? kOpenGlobeValve
                     : device.part.kind == "shut-off valve" ? kOpenGateValve
                                                            : 0;
    if (k <= 0) continue;
    for (std::size_t leg = 0; leg < garden.legs.size(); ++leg) {
      if (garden.legs[leg].from == device.node) losses[leg] += k;
    }
  }
  return losses;
}

}  // namespace teetally::hydraulics
