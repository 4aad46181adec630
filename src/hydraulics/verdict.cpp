#include "hydraulics/verdict.h"

#include <algorithm>

#include "hydraulics/wording.h"

namespace teetally::hydraulics {
namespace {

struct Finding {
  Verdict verdict = Verdict::works;
  std::string text;
};

class Judge {
 public:
  Judge(const ZoneHydraulics& zone, const ZoneFlow& flow, const Garden& garden, const Settings& settings,
        UnitSystem units)
      : zone_(zone), flow_(flow), garden_(garden), settings_(settings), units_(units) {}

  std::vector<Finding> findings() {
    if (nothing_to_judge()) return std::move(findings_);
    about_demand();
    about_pressure();
    about_regulator();
    about_outlets();
    about_range();
    about_evenness();
    const double fastest = zone_.fastest_m_per_s;
    if (fastest > settings_.most_velocity) {
      add(Verdict::tight, "water runs at " + velocity_text(fastest, units_) + " in the fastest line, more than the " +
                              velocity_text(settings_.most_velocity, units_) + " wanted");
    }
    return std::move(findings_);
  }

 private:
  void add(Verdict verdict, std::string text) { findings_.push_back({verdict, std::move(text)}); }
  std::string flow_of(double q) const { return flow_text(q, units_); }

  bool nothing_to_judge() {
    for (const int element : flow_.zone.unreached) {
      add(Verdict::will_not_work, garden_.elements[element].name + " is not joined to the tap");
    }
    if (flow_.shares.empty()) {
      add(Verdict::unknown, "nothing here gives water");
      return true;
    }
    if (!flow_.solution.converged) {
      add(Verdict::unknown, "its pressures could not be computed");
      return true;
    }
    return false;
  }

  void about_demand() {
    const double needs = zone_.demand_m3_per_s, tested = zone_.tested_m3_per_s, available = zone_.available_m3_per_s;
    if (tested <= 0) {
      add(Verdict::unknown, "needs " + flow_of(needs) + ", and no bucket test says what the tap gives");
    } else if (needs > tested) {
      add(Verdict::will_not_work,
          "needs " + flow_of(needs) + ", the tap gave " + flow_of(tested) + ", short by " + flow_of(needs - tested));
    } else if (needs > available) {
      add(Verdict::tight, "needs " + flow_of(needs) + " of " + flow_of(tested) + " tested, more than the " +
                              flow_of(available) + " that keep " + percent_text(settings_.margin) + " in reserve");
    }
  }

  void about_pressure() {
    if (!flow_.supply_limits) return;
    add(Verdict::tight, "the tap leaves " + pressure_text(zone_.start_pa, units_) + " where the tubing starts, " +
                            pressure_text(static_cast<double>(zone_.regulator.pa), units_) + " wanted");
  }

  // Only where the practice states the range of the regulator's own sheet.
  void about_regulator() {
    const double demand = zone_.demand_m3_per_s, least = settings_.regulator_least, most = settings_.regulator_most;
    if (least > 0 && demand < least) {
      add(Verdict::tight,
          "needs " + flow_of(demand) + ", and the regulator holds its setting only from " + flow_of(least) + " up");
    } else if (most > 0 && demand > most) {
      add(Verdict::tight,
          "needs " + flow_of(demand) + ", and the regulator holds its setting only up to " + flow_of(most));
    }
  }

  // The outlet that gets the least of its rated flow, by name.
  std::string worst_place(std::size_t i) const {
    const Spot& spot = flow_.zone.spots[i];
    if (spot.run >= 0) return garden_.runs[spot.run].name;
    return spot.element >= 0 ? garden_.elements[spot.element].name : "an outlet";
  }

  void about_outlets() {
    std::size_t worst = 0, starved = 0;
    bool below_range = false;
    for (std::size_t i = 0; i < flow_.shares.size(); ++i) {
      const double part = flow_.shares[i].part;
      if (part < flow_.shares[worst].part - 1e-9) worst = i;  // of equals the first
      if (part < 0.5) ++starved;
      below_range = below_range || (flow_.zone.network.outlets[i].law.compensating && part < 1 - 1e-9);
    }
    const double least = flow_.shares[worst].part;
    if (least <= 0) {
      add(Verdict::will_not_work, "no water reaches " + worst_place(worst));
    } else if (starved > 0) {
      add(Verdict::will_not_work, worst_place(worst) + " gets " + percent_text(least) + " of its rated flow");
    } else if (below_range) {
      add(Verdict::will_not_work, worst_place(worst) + " gets less pressure than its compensating emitters need");
    }
  }

  const EmitterLaw& law_of(const Spot& spot) const {
    return spot.run >= 0 ? *garden_.runs[spot.run].emitters : *garden_.devices[spot.device].outlet;
  }

  // Compensating outlets hold their flow only up to a pressure.
  void about_range() {
    const Network& network = flow_.zone.network;
    std::size_t worst = flow_.shares.size();
    double over = 0;
    for (std::size_t i = 0; i < flow_.shares.size(); ++i) {
      const EmitterLaw& law = law_of(flow_.zone.spots[i]);
      if (!law.compensating || law.most.pa <= 0) continue;
      const double excess = pressure_at(network.outlets[i].node) - static_cast<double>(law.most.pa);
      if (excess > over) worst = i, over = excess;
    }
    if (worst == flow_.shares.size()) return;
    const double most = static_cast<double>(law_of(flow_.zone.spots[worst]).most.pa);
    add(Verdict::tight, worst_place(worst) + " gets " + pressure_text(most + over, units_) + ", more than the " +
                            pressure_text(most, units_) + " its emitters are made for");
  }

  double pressure_at(int node) const {
    return (flow_.solution.heads[node] - flow_.zone.network.nodes[node].elevation) * settings_.water.pa_per_m();
  }

  void about_evenness() {
    const double variation = flow_.evenness.variation;
    if (variation <= settings_.most_variation) return;
    add(variation > 2 * settings_.most_variation ? Verdict::will_not_work : Verdict::tight,
        "outlets differ by " + percent_text(variation) + ", more than the " + percent_text(settings_.most_variation) +
            " wanted");
  }

  const ZoneHydraulics& zone_;
  const ZoneFlow& flow_;
  const Garden& garden_;
  const Settings& settings_;
  UnitSystem units_;
  std::vector<Finding> findings_;
};

std::string when_it_works(const ZoneHydraulics& zone, const ZoneFlow& flow, const Garden& garden, UnitSystem units) {
  std::string words = "works: needs " + flow_text(zone.demand_m3_per_s, units) + " of " +
                      flow_text(zone.tested_m3_per_s, units) + " tested; outlets differ by " +
                      percent_text(flow.evenness.variation);
  if (!garden.source.static_pressure) {
    words += "; taken for granted that the tap keeps " + pressure_text(static_cast<double>(zone.regulator.pa), units) +
             " at the regulator, as no static pressure is given";
  }
  return words;
}

}  // namespace

void judge(ZoneHydraulics& zone, const ZoneFlow& flow, const Garden& garden, const Settings& settings,
           UnitSystem units) {
  std::vector<Finding> findings = Judge(zone, flow, garden, settings, units).findings();
  std::stable_sort(findings.begin(), findings.end(),
                   [](const Finding& a, const Finding& b) { return rank(a.verdict) > rank(b.verdict); });
  zone.verdict = findings.empty() ? Verdict::works : findings.front().verdict;
  if (findings.empty()) {
    zone.words = when_it_works(zone, flow, garden, units);
    return;
  }
  zone.words = to_text(zone.verdict) + ": ";
  for (std::size_t i = 0; i < findings.size(); ++i) zone.words += (i > 0 ? "; " : "") + findings[i].text;
}

int rank(Verdict verdict) {
  switch (verdict) {
    case Verdict::works:
      return 0;
    case Verdict::tight:
      return 1;
    case Verdict::unknown:
      return 2;
    case Verdict::will_not_work:
      return 3;
  }
  return 3;
}

Verdict worse(Verdict a, Verdict b) { return rank(a) >= rank(b) ? a : b; }

}  // namespace teetally::hydraulics

namespace teetally {

std::string to_text(Verdict verdict) {
  switch (verdict) {
    case Verdict::works:
      return "works";
    case Verdict::tight:
      return "tight";
    case Verdict::will_not_work:
      return "will not work";
    case Verdict::unknown:
      return "unknown";
  }
  return "unknown";
}

}  // namespace teetally
