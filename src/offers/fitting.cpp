#include "offers/fitting.h"

#include <algorithm>
#include <map>
#include <set>

namespace teetally {

namespace {

Diameter measured(const Grip& grip, const FitFamily& family) {
  return grip.by == Grip::By::inside ? family.inside : family.outside;
}

const std::vector<FitFamily>& families_of(const std::vector<SystemFamilies>& systems, int system) {
  static const std::vector<FitFamily> kNone;
  return system < 0 ? kNone : systems[static_cast<std::size_t>(system)].families;
}

// The way round in which end `i` of the need is held by grip `order[i]`; nothing when some system is left
// without a family.
std::optional<Way> way_round(const Need& need, const Item& item, const std::vector<std::size_t>& order,
                             const std::vector<SystemFamilies>& systems) {
  std::map<int, std::vector<int>> accepted;
  for (std::size_t end = 0; end < order.size(); ++end) {
    const int system = need.systems[end];
    const auto& families = families_of(systems, system);
    if (families.empty()) continue;
    const bool is_first = accepted.count(system) == 0;
    std::vector<int> both;
    for (int f = 0; f < static_cast<int>(families.size()); ++f) {
      if (!accepts(grip_at(item, order[end]), families[static_cast<std::size_t>(f)])) continue;
      const auto& before = accepted[system];
      if (is_first || std::find(before.begin(), before.end(), f) != before.end()) both.push_back(f);
    }
    if (both.empty()) return std::nullopt;
    accepted[system] = std::move(both);
  }
  Way way;
  for (auto& [system, families] : accepted) way.push_back({system, std::move(families)});
  return way;
}

bool demands_no_more(const Way& a, const Way& b) {
  for (std::size_t i = 0; i < a.size(); ++i) {
    const auto& wide = a[i].families;
    const auto& narrow = b[i].families;
    if (!std::includes(wide.begin(), wide.end(), narrow.begin(), narrow.end())) return false;
  }
  return true;
}

// A way that another one makes superfluous is not kept.
void keep(std::vector<Way>& ways, Way way) {
  for (const Way& other : ways) {
    if (demands_no_more(other, way)) return;
  }
  std::erase_if(ways, [&](const Way& other) { return demands_no_more(way, other); });
  ways.push_back(std::move(way));
}

// Turning a fitting round matters only when its grips differ and equal ends go to different systems.
bool turning_matters(const Need& need, const Item& item, const std::vector<std::string>& ends) {
  if (item.grips.size() < 2) return false;
  for (std::size_t a = 0; a < ends.size(); ++a) {
    for (std::size_t b = a + 1; b < ends.size(); ++b) {
      if (ends[a] == ends[b] && need.systems[a] != need.systems[b]) return true;
    }
  }
  return false;
}

bool interchanges_equal_ends(const std::vector<std::size_t>& order, const std::vector<std::string>& ends) {
  for (std::size_t i = 0; i < order.size(); ++i) {
    if (ends[order[i]] != ends[i]) return false;
  }
  return true;
}

std::string join_or(const std::set<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " or ") + word;
  return text;
}

std::string ranges_text(const Grip& grip, UnitSystem units) {
  std::string text;
  for (const Grip::Range& range : grip.ranges) {
    if (!text.empty()) text += " or ";
    text += to_text(range.low, units);
    if (range.high != range.low) text += " to " + to_text(range.high, units);
  }
  return text + (grip.by == Grip::By::inside ? " inside" : " outside");
}

}  // namespace

bool accepts(const Grip& grip, const FitFamily& family) {
  const Diameter diameter = measured(grip, family);
  return std::any_of(grip.ranges.begin(), grip.ranges.end(),
                     [&](const Grip::Range& range) { return range.low <= diameter && diameter <= range.high; });
}

const Grip& grip_at(const Item& item, std::size_t end) {
  return item.grips.size() == 1 ? item.grips.front() : item.grips[end];
}

std::vector<Way> ways_to_fit(const Need& need, const Item& item, const std::vector<std::string>& ends,
                             const std::vector<SystemFamilies>& systems) {
  if (need.systems.size() != ends.size() || item.grips.empty()) return {Way{}};
  std::vector<std::size_t> order(ends.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::vector<Way> ways;
  const bool turn = turning_matters(need, item, ends);
  do {
    if (!interchanges_equal_ends(order, ends)) continue;
    if (auto way = way_round(need, item, order, systems)) keep(ways, std::move(*way));
  } while (turn && std::next_permutation(order.begin(), order.end()));
  return ways;
}

std::string why_no_fit(const Need& need, const Item& item, const Takeoff& takeoff,
                       const std::vector<SystemFamilies>& systems, UnitSystem units) {
  for (std::size_t end = 0; end < need.systems.size(); ++end) {
    const int system = need.systems[end];
    const auto& families = families_of(systems, system);
    const Grip& grip = grip_at(item, end);
    const auto fits = [&](const FitFamily& family) { return accepts(grip, family); };
    if (families.empty() || std::any_of(families.begin(), families.end(), fits)) continue;
    std::set<std::string> on_offer;
    for (const FitFamily& family : families) on_offer.insert(to_text(measured(grip, family), units));
    return "grips " + ranges_text(grip, units) + "; the " + takeoff.systems[static_cast<std::size_t>(system)].name +
           " tubing on offer has " + join_or(on_offer);
  }
  return "its ends grip different tubings, and no tubing on offer suits them all";
}

}  // namespace teetally
