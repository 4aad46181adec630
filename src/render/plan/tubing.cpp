#include "render/plan/tubing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "render/page/symbols.h"
#include "render/phrases.h"

namespace teetally {
namespace {

constexpr double kShortestLabelled = 16;  // a stretch shorter on the sheet than this says no length
constexpr double kThinnest = 1.4, kThickest = 9;
constexpr double kRunSize = 11, kStretchSize = 9.5;

const Leg& leg_at(const Garden& garden, int leg) { return garden.legs[static_cast<std::size_t>(leg)]; }

Stroke stroke_of(const Garden& garden, const Leg& leg, const GroundView& view) {
  return {view.spot(garden.nodes[static_cast<std::size_t>(leg.from)].at),
          view.spot(garden.nodes[static_cast<std::size_t>(leg.to)].at)};
}

PlanSpot middle_of(const Stroke& stroke) {
  return {(stroke.from.x + stroke.to.x) / 2, (stroke.from.y + stroke.to.y) / 2};
}

bool is_supply(LegRole role) { return role == LegRole::supply || role == LegRole::header || role == LegRole::riser; }

double greatest_flow(const SizedGarden& sized) {
  double most = 0;
  for (const double flow : sized.leg_flow_m3_per_s) most = std::max(most, flow);
  return most;
}

// Lengths are read along lines of one width; in the other layers the wider line carries more.
double width_of(const SizedGarden& sized, std::size_t leg, PlanLayer layer) {
  const Leg& one = sized.garden.legs[leg];
  if (layer == PlanLayer::lengths) return usual_width(one.role);
  const double most = greatest_flow(sized);
  const double part = most > 0 && leg < sized.leg_flow_m3_per_s.size() ? sized.leg_flow_m3_per_s[leg] / most : 0;
  return kThinnest + (kThickest - kThinnest) * std::sqrt(std::max(0.0, part));
}

// In-line outlets as dots where they are far enough apart to be told apart.
std::string outlet_dots(const Run& run, const Stroke& stroke, const GroundView& view) {
  const double apart = view.span(run.emitter_spacing);
  if (!run.emitters || apart < 5) return {};
  return line_element(stroke, fmt::format("stroke=\"{}\" stroke-width=\"3.6\" stroke-linecap=\"round\" "
                                          "stroke-dasharray=\"0 {}\" stroke-dashoffset=\"-{}\"",
                                          plan_ink::kRow, sheet_number(apart), sheet_number(apart / 2)));
}

// The leg of the run that is longest on the sheet: where its label has most room.
int longest_leg(const SizedGarden& sized, int run, const GroundView& view) {
  int best = -1;
  double most = -1;
  for (std::size_t i = 0; i < sized.garden.legs.size(); ++i) {
    const Leg& leg = sized.garden.legs[i];
    if (leg.run != run) continue;
    const double length = length_of(stroke_of(sized.garden, leg, view));
    if (length <= most) continue;
    most = length;
    best = static_cast<int>(i);
  }
  return best;
}

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) {
    if (!word.empty()) out += (out.empty() ? "" : ", ") + word;
  }
  return out;
}

std::string number_of(const PlanSubject& subject, int need) {
  return need < 0 ? "" : subject.takeoff.needs[static_cast<std::size_t>(need)].id;
}

Label run_label(const PlanSubject& subject, const GroundView& view, int run, std::string text) {
  const int leg = longest_leg(subject.sized, run, view);
  const PlanSpot spot =
      leg < 0 ? PlanSpot{} : middle_of(stroke_of(subject.sized.garden, leg_at(subject.sized.garden, leg), view));
  return {{std::move(text)},
          kRunSize,
          spot,
          4,
          false,
          180,
          fmt::format("font-weight=\"600\" fill=\"{}\"", plan_ink::kSupply)};
}

}  // namespace

double usual_width(LegRole role) {
  switch (role) {
    case LegRole::supply:
      return 3.4;
    case LegRole::header:
    case LegRole::riser:
      return 2.6;
    case LegRole::row:
    case LegRole::tape:
      return 1.5;
    case LegRole::feeder:
      return 1.2;
  }
  return 1;
}

std::string tubing_look(LegRole role, double width) {
  const bool supply = is_supply(role);
  std::string look = fmt::format("stroke=\"{}\" stroke-width=\"{}\" stroke-linecap=\"round\"",
                                 supply ? plan_ink::kSupply : plan_ink::kRow, sheet_number(width));
  if (role == LegRole::feeder) look += " stroke-dasharray=\"2 3\"";
  if (role == LegRole::tape) look += " stroke-dasharray=\"9 4\"";
  return look;
}

std::string tubing_elements(const PlanSubject& subject, const GroundView& view, PlanLayer layer) {
  const Garden& garden = subject.sized.garden;
  std::string below, above;
  for (std::size_t i = 0; i < garden.legs.size(); ++i) {
    const Leg& leg = garden.legs[i];
    const Run& run = garden.runs[static_cast<std::size_t>(leg.run)];
    const Stroke stroke = stroke_of(garden, leg, view);
    const double width = width_of(subject.sized, i, layer);
    std::string& out = is_supply(leg.role) ? above : below;
    out += line_element(stroke, tubing_look(leg.role, width));
    if (run.existing) {  // hollow: it is there already
      out += line_element(stroke, fmt::format("stroke=\"{}\" stroke-width=\"{}\" stroke-linecap=\"round\"",
                                              plan_ink::kPaper, sheet_number(width * 0.45)));
    }
    if (leg.role == LegRole::row) out += outlet_dots(run, stroke, view);
  }
  return "<g fill=\"none\">\n" + below + above + "</g>\n";
}

std::vector<Stroke> tubing_strokes(const PlanSubject& subject, const GroundView& view) {
  std::vector<Stroke> strokes;
  for (const Leg& leg : subject.sized.garden.legs) strokes.push_back(stroke_of(subject.sized.garden, leg, view));
  return strokes;
}

std::vector<Label> run_labels(const PlanSubject& subject, const PlanNumbers& numbers, const GroundView& view) {
  const Garden& garden = subject.sized.garden;
  std::vector<Label> labels;
  for (std::size_t i = 0; i < garden.runs.size(); ++i) {
    const Run& run = garden.runs[i];
    if (run.role != LegRole::supply && run.role != LegRole::header) continue;
    const std::string name = run.role == LegRole::supply ? run.name : "";
    const int leg = longest_leg(subject.sized, static_cast<int>(i), view);
    if (leg < 0) continue;
    const bool is_short = length_of(stroke_of(garden, leg_at(garden, leg), view)) < kShortestLabelled;
    if (is_short && name.empty()) continue;
    std::string text =
        is_short ? name
                 : joined({name, run.size, run.existing ? "there already" : number_of(subject, numbers.of_run(run))});
    labels.push_back(run_label(subject, view, static_cast<int>(i), std::move(text)));
    if (run.role == LegRole::header) labels.back().element = run.element;
  }
  return labels;
}

std::vector<Label> stretch_labels(const PlanSubject& subject, const GroundView& view, PlanLayer layer,
                                  UnitSystem units) {
  const SizedGarden& sized = subject.sized;
  std::vector<Label> labels;
  for (const Piece& piece : sized.garden.pieces) {
    int longest = -1;
    double most = kShortestLabelled;
    for (const int leg : piece.legs) {
      const double length = length_of(stroke_of(sized.garden, leg_at(sized.garden, leg), view));
      if (length < most || !is_supply(leg_at(sized.garden, leg).role)) continue;
      most = length;
      longest = leg;
    }
    if (longest < 0) continue;
    const Leg& leg = leg_at(sized.garden, longest);
    const auto at = static_cast<std::size_t>(longest);
    const std::string text = layer == PlanLayer::lengths ? short_length(piece.length, units)
                             : layer == PlanLayer::flow
                                 ? flow_phrase(sized.leg_flow_m3_per_s[at], units)
                                 : pressure_phrase(sized.node_pa[static_cast<std::size_t>(leg.to)], units);
    const Stroke stroke = stroke_of(sized.garden, leg, view);
    const PlanSpot spot = layer == PlanLayer::pressure ? stroke.to : middle_of(stroke);
    labels.push_back({{text}, kStretchSize, spot, 4, false, 30, fmt::format("fill=\"{}\"", plan_ink::kInk)});
  }
  return labels;
}

}  // namespace teetally
