#include "render/plan/labels.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace teetally {
namespace {

constexpr double kRings[] = {0, 6, 13, 21, 30, 40, 52, 66, 82, 100, 124, 150, 180};
constexpr double kNeedsLeader = 6;    // farther away the eye needs a line to follow
constexpr double kCoveredLine = 0.9;  // cost of a sheet unit of covered line, in units of distance
constexpr double kCrossedLabel = 60;  // cost of a leader through another label
constexpr double kCrossedLeader = 25;
constexpr double kLineHeight = 1.2;   // of a line of text, in parts of its size
constexpr double kOverTheSpot = -8;   // a bed's name belongs inside its bed
constexpr double kCoveredRow = 0.12;  // there it may cover rows

// Directions as one would try them by hand: upper right first.
constexpr PlanSpot kDirections[] = {{1, -1}, {1, 1}, {-1, -1}, {-1, 1}, {1, 0}, {-1, 0}, {0, -1}, {0, 1}};

struct Candidate {
  Box box;
  double ring = 0;
};

Box around(const Label& label, PlanSpot middle) {
  double half_width = 0;
  for (const std::string& line : label.lines) half_width = std::max(half_width, text_width(line, label.size) / 2 + 1);
  const double half_height = label.size * (kLineHeight * static_cast<double>(label.lines.size()) / 2);
  return {middle.x - half_width, middle.y - half_height, middle.x + half_width, middle.y + half_height};
}

std::vector<Candidate> candidates(const Label& label) {
  std::vector<Candidate> all;
  const Box own = around(label, label.spot);
  if (label.over) all.push_back({own, kOverTheSpot});
  for (const double ring : kRings) {
    if (ring > label.farthest) break;
    for (const PlanSpot to : kDirections) {
      const bool slanted = to.x != 0 && to.y != 0;
      const double reach = (label.clear + ring) * (slanted ? 0.8 : 1.0);
      all.push_back({around(label, {label.spot.x + to.x * (reach + own.width() / 2),
                                    label.spot.y + to.y * (reach + own.height() / 2)}),
                     ring});
    }
  }
  return all;
}

// The nearest point of the box, from which the leader runs to the spot's edge.
Stroke leader_to(const Box& box, const Label& label) {
  const PlanSpot end = {std::clamp(label.spot.x, box.left, box.right), std::clamp(label.spot.y, box.top, box.bottom)};
  const double whole = distance(end, label.spot);
  const double part = whole > 0 ? std::min(1.0, label.clear * 0.6 / whole) : 0;
  return {{label.spot.x + (end.x - label.spot.x) * part, label.spot.y + (end.y - label.spot.y) * part}, end};
}

Box around_spot(const Label& label) {
  const PlanSpot at = label.spot;
  return {at.x - label.clear, at.y - label.clear, at.x + label.clear, at.y + label.clear};
}

// Whether two lines cross: each has its ends on both sides of the other.
bool cross(const Stroke& a, const Stroke& b) {
  const auto side = [](const Stroke& line, PlanSpot at) {
    return (line.to.x - line.from.x) * (at.y - line.from.y) - (line.to.y - line.from.y) * (at.x - line.from.x);
  };
  return side(a, b.from) * side(a, b.to) < 0 && side(b, a.from) * side(b, a.to) < 0;
}

class Placer {
 public:
  explicit Placer(const LabelRoom& room) : room_(room) {}

  void place(const Label& label) {
    const Candidate* best = nullptr;
    double least = 0;
    const std::vector<Candidate> all = candidates(label);
    for (const Candidate& candidate : all) {
      if (best != nullptr && candidate.ring >= least) break;  // no farther one can cost less
      const auto cost = cost_of(label, candidate);
      if (cost && (best == nullptr || *cost < least)) {
        best = &candidate;
        least = *cost;
      }
    }
    if (best == nullptr) {
      plan_.without_room.push_back(label);
      return;
    }
    PlacedLabel placed{label, best->box, {}};
    if (best->ring >= kNeedsLeader) placed.leader = leader_to(best->box, label);
    plan_.placed.push_back(std::move(placed));
  }

  LabelPlan take() { return std::move(plan_); }

 private:
  bool is_free(const Box& box) const {
    if (!holds(room_.sheet, box)) return false;
    for (const Box& symbol : room_.symbols) {
      if (overlap(box, symbol)) return false;
    }
    return std::none_of(plan_.placed.begin(), plan_.placed.end(), [&](const PlacedLabel& other) {
      return overlap(box, other.box) || (other.leader && length_inside(*other.leader, box) > 0);
    });
  }

  std::optional<double> cost_of(const Label& label, const Candidate& candidate) const {
    if (!is_free(candidate.box)) return std::nullopt;
    double cost = candidate.ring;
    const double covered = candidate.ring < 0 ? kCoveredRow : kCoveredLine;
    for (const Stroke& stroke : room_.strokes) cost += covered * length_inside(stroke, candidate.box);
    if (candidate.ring < kNeedsLeader) return cost;
    const Stroke leader = leader_to(candidate.box, label);
    for (const PlacedLabel& other : plan_.placed) {
      if (length_inside(leader, other.box) > 0) cost += kCrossedLabel;
      if (other.leader && cross(leader, *other.leader)) cost += kCrossedLeader;
    }
    for (const Box& symbol : room_.symbols) {
      if (!overlap(symbol, around_spot(label)) && length_inside(leader, symbol) > 0) cost += kCrossedLeader;
    }
    return cost;
  }

  const LabelRoom& room_;
  LabelPlan plan_;
};

}  // namespace

LabelPlan place_labels(const std::vector<Label>& labels, const LabelRoom& room) {
  Placer placer(room);
  for (const Label& label : labels) placer.place(label);
  return placer.take();
}

std::string label_element(const PlacedLabel& placed) {
  const Label& label = placed.label;
  const std::string look =
      fmt::format("font-size=\"{}\"{}{}", sheet_number(label.size), label.look.empty() ? "" : " ", label.look);
  PlanSpot at = {placed.box.middle().x, placed.box.top + label.size * 0.95};
  std::string out;
  for (const std::string& line : label.lines) {
    out += text_element(at, line, look);
    at.y += label.size * kLineHeight;
  }
  return out;
}

}  // namespace teetally
