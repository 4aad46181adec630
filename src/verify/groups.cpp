#include "verify/groups.h"

#include <algorithm>
#include <map>
#include <numeric>

namespace teetally {
namespace {

constexpr std::int64_t kMostStates = 20'000;       // of one demand
constexpr std::int64_t kMostSharedStates = 6'000;  // of several
constexpr std::size_t kMostDims = 8;
constexpr std::int64_t kMostListed = 4'000;  // counts tried one by one

using ItemKey = std::pair<int, int>;  // supplier, item

std::int64_t ceil_div(std::int64_t a, std::int64_t b) { return (a + b - 1) / b; }

// Of a relaxed kind while several families are open: a serving holds if it can for one of them.
bool may_hold(const StatedServing& serving, const CaseSpans& spans) {
  return std::all_of(serving.conditions.begin(), serving.conditions.end(), [&](const StatedCondition& condition) {
    const Span& open = spans.families[static_cast<std::size_t>(condition.system)];
    return std::any_of(condition.families.begin(), condition.families.end(),
                       [&](int family) { return family >= open.from && family <= open.to; });
  });
}

struct Target {
  int group = -1;
  unsigned dims = 0;
};

// Which needs each item serves, the groups these make, and the demands in each: needs served by the same items are one.
class Grouping {
 public:
  Grouping(const Market& market, const CaseSpans& spans, const std::vector<bool>& bought_from) : market_(market) {
    const std::size_t needs = market.question.needs.size();
    std::vector<std::vector<ItemKey>> items_of(needs);
    for (const StatedServing& serving : market.question.servings) {
      if (market.asked[static_cast<std::size_t>(serving.need)] <= 0) continue;
      if (!bought_from[static_cast<std::size_t>(serving.supplier)] || !may_hold(serving, spans)) continue;
      needs_of_[{serving.supplier, serving.item}].push_back(serving.need);
      items_of[static_cast<std::size_t>(serving.need)].push_back({serving.supplier, serving.item});
    }
    for (std::vector<ItemKey>& items : items_of) {
      std::sort(items.begin(), items.end());
      items.erase(std::unique(items.begin(), items.end()), items.end());
    }
    join(items_of);
  }

  bool all_served() const { return all_served_; }
  std::vector<CoverGroup> take_groups() { return std::move(groups_); }

  Target target(int supplier, int item) const {
    const auto found = needs_of_.find({supplier, item});
    Target target;
    if (found == needs_of_.end()) return target;
    for (const int need : found->second) {
      target.group = group_of_[static_cast<std::size_t>(need)];
      target.dims |= bit_of_[static_cast<std::size_t>(need)];
    }
    return target;
  }
  CoverGroup& group(int g) { return groups_[static_cast<std::size_t>(g)]; }

 private:
  int root(int need) {
    while (parent_[static_cast<std::size_t>(need)] != need) need = parent_[static_cast<std::size_t>(need)];
    return need;
  }

  void join(const std::vector<std::vector<ItemKey>>& items_of) {
    parent_.resize(items_of.size());
    std::iota(parent_.begin(), parent_.end(), 0);
    for (const auto& [item, needs] : needs_of_) {
      for (const int need : needs) {
        const int top = root(need);
        parent_[static_cast<std::size_t>(top)] = root(needs.front());
      }
    }
    std::map<int, std::map<std::vector<ItemKey>, std::vector<int>>> by_root;
    for (std::size_t n = 0; n < items_of.size(); ++n) {
      if (market_.asked[n] <= 0) continue;
      all_served_ = all_served_ && !items_of[n].empty();
      by_root[root(static_cast<int>(n))][items_of[n]].push_back(static_cast<int>(n));
    }
    group_of_.assign(items_of.size(), -1);
    bit_of_.assign(items_of.size(), 0);
    for (const auto& [top, demands] : by_root) add_group(demands);
  }

  // Too many demands are put together: then any of the items may serve all of them, which is never dearer.
  void add_group(const std::map<std::vector<ItemKey>, std::vector<int>>& demands) {
    CoverGroup& group = groups_.emplace_back();
    const bool together = demands.size() > kMostDims;
    if (together) group.demand.push_back(0);
    for (const auto& [items, needs] : demands) {
      if (!together) group.demand.push_back(0);
      for (const int need : needs) {
        group.demand.back() += market_.asked[static_cast<std::size_t>(need)];
        group.needs.push_back(need);
        group_of_[static_cast<std::size_t>(need)] = static_cast<int>(groups_.size()) - 1;
        bit_of_[static_cast<std::size_t>(need)] = 1U << (group.demand.size() - 1);
      }
    }
  }

  const Market& market_;
  std::map<ItemKey, std::vector<int>> needs_of_;
  std::vector<int> parent_, group_of_;
  std::vector<unsigned> bit_of_;
  std::vector<CoverGroup> groups_;
  bool all_served_ = true;
};

std::int64_t total_demand(const CoverGroup& group) {
  return std::accumulate(group.demand.begin(), group.demand.end(), std::int64_t{0});
}

std::int64_t count_states(const CoverGroup& group, std::int64_t unit) {
  std::int64_t states = 1;
  for (const std::int64_t demand : group.demand) {
    states *= ceil_div(demand, unit) + 1;
    if (states > kMostStates) break;
  }
  return states;
}

// Counts demands in a unit. Contents are rounded up to it, and so are demands: a cover in true lengths is one in units.
// Where that would round demands that can share a pack, the unit divides them too.
void measure(CoverGroup& group) {
  std::int64_t unit = 0;
  for (const CoverOffer& offer : group.offers) unit = std::gcd(unit, offer.units);
  if (group.demand.size() > 1) {
    for (const std::int64_t demand : group.demand) unit = std::gcd(unit, demand);
  }
  unit = std::max<std::int64_t>(unit, 1);
  if (group.demand.size() > 1 && count_states(group, unit) > kMostSharedStates) {
    group.demand = {total_demand(group)};
    for (CoverOffer& offer : group.offers) offer.dims = 1;
  }
  if (group.demand.size() == 1 && group.demand[0] / unit > kMostStates) unit = ceil_div(group.demand[0], kMostStates);
  for (std::int64_t& demand : group.demand) demand = ceil_div(demand, unit);
  for (CoverOffer& offer : group.offers) offer.units = ceil_div(offer.units, unit);
  group.states = 1;
  for (const std::int64_t demand : group.demand) group.states *= demand + 1;
}

void list_costs(CoverOffer& offer, std::int64_t most, const Pack& pack) {
  offer.runs.clear();
  for (std::int64_t n = 0; n <= most; ++n) {
    const bool sold = n == 0 || n * offer.lot >= pack.minimum;
    offer.costs.push_back(sold ? price_of(pack, n * offer.lot).minor : -1);
  }
}

// Lots in runs without an end: a run may go on where a lower price has begun, which only ever asks for more, or where a
// higher one has, which asks for less; so no count is dearer than it is. Where stock ends before the demand does,
// or the case limits counts, every count has its own price.
bool price_pack(CoverOffer& offer, const Pack& pack, const Span& span, std::int64_t demand) {
  const std::int64_t most = std::min(span.to, pack.stock.value_or(kMostOfAll)) / offer.lot;
  offer.least = ceil_div(std::max<std::int64_t>(span.from, 0), offer.lot);
  std::int64_t enough = std::max(ceil_div(demand, offer.units), offer.least);
  for (const PriceBreak& step : pack.prices) {
    const std::int64_t first = ceil_div(std::max(step.from, pack.minimum), offer.lot);
    offer.runs.push_back({first, price_of(pack, first * offer.lot).minor, step.price.minor * offer.lot});
    enough = std::max(enough, first);
  }
  if (offer.least > most) return false;
  if ((most >= enough && offer.least == 0) || std::min(most, enough) > kMostListed) {
    // Listing would take too long: the limits are let go, but for forbidding the offer.
    if (most < enough) offer.least = 0;
    return most > 0 || offer.least > 0;
  }
  list_costs(offer, std::min(most, enough), pack);
  return true;
}

void add_packs(const Market& market, const CaseSpans& spans, const std::vector<bool>& bought_from, Grouping& grouping) {
  for (std::size_t i = 0; i < market.packs.size(); ++i) {
    const MarketPack& at = market.packs[i];
    if (!bought_from[static_cast<std::size_t>(at.supplier)]) continue;
    const Target target = grouping.target(at.supplier, at.item);
    if (target.group < 0) continue;
    const Item& item = market.catalog(at.supplier).items[static_cast<std::size_t>(at.item)];
    const Pack& pack = item.packs[static_cast<std::size_t>(at.pack)];
    CoverOffer offer;
    offer.pack = static_cast<int>(i);
    offer.supplier = at.supplier;
    offer.dims = target.dims;
    offer.lot = pack.multiple;
    offer.units = at.useful * pack.multiple;
    CoverGroup& group = grouping.group(target.group);
    if (offer.units > 0 && price_pack(offer, pack, spans.packs[i], total_demand(group))) {
      group.offers.push_back(std::move(offer));
    }
  }
}

// What bundles bring, at prices that are shares.
void add_contents(const Market& market, std::size_t b, const Span& span, Grouping& grouping) {
  const Bundle& bundle = market.bundle(b);
  const int supplier = market.bundles[b].supplier;
  int share = 0;
  for (const BundleContent& content : bundle.contents) {
    for (std::size_t c = 0; c <= content.swaps.size(); ++c, ++share) {
      const Target target = grouping.target(supplier, c == 0 ? content.item : content.swaps[c - 1].item);
      if (target.group < 0) continue;
      CoverOffer offer;
      offer.bundle = static_cast<int>(b);
      offer.share = share;
      offer.supplier = supplier;
      offer.dims = target.dims;
      offer.units = market.bundles[b].useful[static_cast<std::size_t>(share)];
      if (offer.units <= 0) continue;
      CoverGroup& group = grouping.group(target.group);
      offer.always = is_always_taken(market, b, content);
      const std::int64_t enough = ceil_div(total_demand(group), offer.units);
      const std::int64_t least = offer.always ? std::max<std::int64_t>(span.from, 0) : 0;
      offer.most = span.to;
      if (span.to < std::max(enough, least) && span.to <= kMostListed) {
        offer.least = least;
      } else {
        offer.runs.push_back({1, 0, 0});
        offer.least = std::min(least, enough);
      }
      group.offers.push_back(std::move(offer));
    }
  }
}

}  // namespace

std::optional<std::vector<CoverGroup>> cover_groups(const Market& market, const CaseSpans& spans,
                                                    const std::vector<bool>& bought_from) {
  Grouping grouping(market, spans, bought_from);
  if (!grouping.all_served()) return std::nullopt;
  for (std::size_t b = 0; b < market.bundles.size(); ++b) {
    if (spans.bundles[b].to > 0) add_contents(market, b, spans.bundles[b], grouping);
  }
  add_packs(market, spans, bought_from, grouping);
  std::vector<CoverGroup> groups = grouping.take_groups();
  for (CoverGroup& group : groups) measure(group);
  return groups;
}

}  // namespace teetally
