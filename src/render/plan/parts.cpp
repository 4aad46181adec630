#include "render/plan/parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "render/page/symbols.h"

namespace teetally {
namespace {

constexpr double kSharedSpot = 8;  // nearer than this two shapes would cover one another
constexpr double kNumberSize = 10;

std::string_view kind_of(const Fitting& fitting, const Garden& garden) {
  switch (fitting.joint) {
    case Joint::end_closure:
      return "end closure";
    case Joint::flush_cap:
      return "flush cap";
    case Joint::elbow:
      return "elbow";
    case Joint::straight: {
      const auto size = [&](std::size_t i) { return garden.legs[static_cast<std::size_t>(fitting.legs[i])].size; };
      return size(0) == size(1) ? "coupling" : "reducer";
    }
    case Joint::tee:
      return "tee";
    case Joint::cross:
      return "cross";
    case Joint::take_off:
      return "barbed connector";
    case Joint::tape_start:
      return "tape connector";
    case Joint::head:
      break;
  }
  return "tap";
}

// Parts of beds and the like come in many alike and are told about once; those of a line each tell where to cut.
bool told_together(const PlanSubject& subject, const PlanPart& part) {
  if (part.element < 0) return false;
  const std::string& kind = subject.sized.garden.elements[static_cast<std::size_t>(part.element)].kind;
  return kind != "line" && kind != "source";
}

struct Cluster {
  PlanSpot spot;
  std::map<int, std::int64_t> counts;  // by need
  int element = -1;                    // where all of it is told together and of one element
};

void add_to(std::vector<Cluster>& clusters, PlanSpot spot, int need, std::int64_t count, int element) {
  for (Cluster& cluster : clusters) {
    if (distance(cluster.spot, spot) > kSharedSpot) continue;
    cluster.counts[need] += count;
    if (cluster.element != element) cluster.element = -1;
    return;
  }
  clusters.push_back({spot, {{need, count}}, element});
}

std::string text_of(const Cluster& cluster, const Takeoff& takeoff) {
  std::string text;
  for (const auto& [need, count] : cluster.counts) {
    if (!text.empty()) text += ", ";
    if (count > 1) text += fmt::format("{} ", count);
    text += takeoff.needs[static_cast<std::size_t>(need)].id;
  }
  return text;
}

}  // namespace

std::vector<PlanPart> parts_on_plan(const PlanSubject& subject, const PlanNumbers& numbers, const GroundView& view) {
  const Garden& garden = subject.sized.garden;
  const auto spot = [&](int node) { return view.spot(garden.nodes[static_cast<std::size_t>(node)].at); };
  std::vector<PlanPart> parts;
  for (const Fitting& fitting : garden.fittings) {
    if (fitting.joint == Joint::head) continue;
    parts.push_back(
        {std::string(kind_of(fitting, garden)), spot(fitting.node), numbers.of_fitting(fitting), fitting.element});
  }
  for (const Device& device : garden.devices) {
    parts.push_back({device.part.kind, spot(device.node), numbers.of_device(device), device.element, device.count});
  }
  return parts;
}

std::vector<PlanPart> drawn_parts(const std::vector<PlanPart>& parts) {
  std::vector<PlanPart> order = parts;
  std::stable_sort(order.begin(), order.end(),
                   [](const PlanPart& a, const PlanPart& b) { return symbol_rank(a.kind) < symbol_rank(b.kind); });
  std::vector<PlanPart> drawn;
  for (const PlanPart& part : order) {
    const bool covered = std::any_of(drawn.begin(), drawn.end(), [&](const PlanPart& other) {
      return distance(part.spot, other.spot) < kSharedSpot / 2;
    });
    if (!covered) drawn.push_back(part);
  }
  return drawn;
}

std::vector<Label> part_labels(const PlanSubject& subject, const std::vector<PlanPart>& parts) {
  std::vector<Cluster> clusters;
  std::map<std::pair<int, int>, std::vector<const PlanPart*>> together;  // by element and need
  for (const PlanPart& part : parts) {
    if (part.need < 0) continue;
    if (told_together(subject, part)) {
      together[{part.element, part.need}].push_back(&part);
    } else {
      add_to(clusters, part.spot, part.need, part.count, -1);
    }
  }
  for (const auto& [key, alike] : together) {
    std::int64_t count = 0;
    for (const PlanPart* part : alike) count += part->count;
    add_to(clusters, alike[alike.size() / 2]->spot, key.second, count, key.first);
  }
  std::vector<Label> labels;
  for (const Cluster& cluster : clusters) {
    labels.push_back({{text_of(cluster, subject.takeoff)},
                      kNumberSize,
                      cluster.spot,
                      kSymbolReach,
                      false,
                      180,
                      fmt::format("fill=\"{}\"", plan_ink::kNumber),
                      cluster.element});
  }
  return labels;
}

}  // namespace teetally
