#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "teetally/quote/pool.h"

namespace teetally {
namespace {

void take_off_part(Need& need, std::int64_t amount, std::string element, std::string rule, const Place& place) {
  Reason reason;
  reason.reason_class = ReasonClass::on_site;
  reason.element = std::move(element);
  reason.rule = std::move(rule);
  reason.amount = -amount;
  reason.place = place;
  need.amount -= amount;
  need.reasons.push_back(std::move(reason));
}

void move_covered(Takeoff& takeoff) {
  const auto covered = std::stable_partition(takeoff.needs.begin(), takeoff.needs.end(),
                                             [](const Need& need) { return need.amount > 0; });
  takeoff.covered.insert(takeoff.covered.end(), std::make_move_iterator(covered),
                         std::make_move_iterator(takeoff.needs.end()));
  takeoff.needs.erase(covered, takeoff.needs.end());
}

// Longest piece that may not be joined, as the shortest coil on offer that holds it: pieces that the same coils
// can give need not be told apart.
Length coil_needed(const Need& need, const std::vector<Length>& coils) {
  Length longest;
  for (const NeededPiece& piece : need.pieces) {
    if (!piece.may_join) longest = std::max(longest, piece.length);
  }
  if (longest == Length{}) return longest;
  const auto coil = std::lower_bound(coils.begin(), coils.end(), longest);
  return coil == coils.end() ? longest : *coil;
}

std::vector<Length> coils_on_offer(const std::vector<Catalog>& catalogs) {
  std::set<Length> coils;
  for (const Catalog& catalog : catalogs) {
    for (const Item& item : catalog.items) {
      for (const Pack& pack : item.packs) coils.insert(pack.length);
    }
    for (const Bundle& bundle : catalog.bundles) {
      for (const BundleContent& content : bundle.contents) coils.insert(content.length);
    }
  }
  return {coils.begin(), coils.end()};
}

class Pooling {
 public:
  Pooling(bool families_apart, const std::vector<Catalog>& catalogs)
      : families_apart_(families_apart), coils_(coils_on_offer(catalogs)) {}

  Pooled pool(const std::string& name, const std::vector<PoolPart>& parts) {
    for (const PoolPart& part : parts) add(part);
    pooled_.takeoff.name = name;
    for (std::size_t n = 0; n < pooled_.takeoff.needs.size(); ++n) {
      pooled_.takeoff.needs[n].id = fmt::format("N{:02}", n + 1);
    }
    return std::move(pooled_);
  }

 private:
  using Key = std::tuple<PartSpec, std::vector<int>, Length>;

  int system_of(const TubingSystem& system, std::size_t part) {
    const std::string name = families_apart_ ? fmt::format("{} of basket {}", system.name, part + 1) : system.name;
    const auto [found, is_new] = systems_.emplace(std::pair{name, system.size}, pooled_.takeoff.systems.size());
    if (is_new) pooled_.takeoff.systems.push_back({name, system.size});
    return static_cast<int>(found->second);
  }

  void add(const PoolPart& part) {
    std::map<int, std::int64_t> amounts;
    for (const Need& need : part.takeoff->needs) {
      std::vector<int> systems;
      for (const int s : need.systems) {
        systems.push_back(s < 0 ? s : system_of(part.takeoff->systems[s], pooled_.baskets.size()));
      }
      amounts[add_need(need, std::move(systems), part)] += need.amount;
    }
    Basket& basket = pooled_.baskets.emplace_back();
    for (const auto& [need, amount] : amounts) basket.push_back({need, amount});
    merge_texts(*part.takeoff);
  }

  int add_need(const Need& need, std::vector<int> systems, const PoolPart& part) {
    const Length coil = coil_needed(need, coils_);
    const auto [found, is_new] = needs_.emplace(Key{need.part, systems, coil}, pooled_.takeoff.needs.size());
    if (is_new) {
      Need& made = pooled_.takeoff.needs.emplace_back();
      made.part = need.part;
      made.systems = std::move(systems);
      made.by_length = need.by_length;
      made.place = need.place;
    }
    Need& pooled = pooled_.takeoff.needs[found->second];
    pooled.amount += need.amount * part.times;
    Reason reason;
    reason.element = part.who;
    reason.rule = "asked for";
    reason.amount = need.amount * part.times;
    reason.place = need.place;
    pooled.reasons.push_back(std::move(reason));
    keep_longest(pooled, need);
    return static_cast<int>(found->second);
  }

  // Of the pieces only the longest that may not be joined decides anything here.
  static void keep_longest(Need& pooled, const Need& need) {
    for (const NeededPiece& piece : need.pieces) {
      if (piece.may_join) continue;
      if (pooled.pieces.empty()) pooled.pieces.push_back(piece);
      if (pooled.pieces[0].length < piece.length) pooled.pieces[0] = piece;
    }
  }

  void merge_texts(const Takeoff& takeoff) {
    for (const std::string& caution : takeoff.cautions) {
      if (said_.insert(caution).second) pooled_.takeoff.cautions.push_back(caution);
    }
  }

  bool families_apart_;
  std::vector<Length> coils_;
  Pooled pooled_;
  std::map<std::pair<std::string, std::string>, std::size_t> systems_;
  std::map<Key, std::size_t> needs_;
  std::set<std::string> said_;
};

}  // namespace

void adapt_takeoff(Takeoff& takeoff, const PlotWorks& works, const std::string& plot, const Vocabulary& vocabulary,
                   UnitSystem units, Diagnostics& diagnostics) {
  for (const std::string& kind : works.without) {
    for (Need& need : takeoff.needs) {
      if (need.part.kind == kind && need.amount > 0) {
        take_off_part(need, need.amount, "plot " + quoted(plot), "the plot does without", {});
      }
    }
  }
  for (const OwnedPart& owned : works.has) {
    std::int64_t left = owned.length.tenths_mm > 0 ? owned.length.tenths_mm : owned.count;
    bool matched = false;
    for (Need& need : takeoff.needs) {
      if (need.part.kind != owned.part.kind || mismatch(need.part, owned.part, vocabulary, units)) continue;
      matched = true;
      const std::int64_t amount = std::min(left, need.amount);
      if (amount <= 0) continue;
      take_off_part(need, amount, "plot " + quoted(plot), "the plot has it", owned.place);
      left -= amount;
    }
    if (matched) continue;
    diagnostics.warning(
        "quote/has-matches-nothing", owned.place,
        fmt::format("{} of plot {} serves no need of its design", quoted(to_text(owned.part, units)), quoted(plot)));
  }
  move_covered(takeoff);
}

Pooled pool_takeoffs(const std::string& name, const std::vector<PoolPart>& parts, bool families_apart,
                     const std::vector<Catalog>& catalogs) {
  return Pooling(families_apart, catalogs).pool(name, parts);
}

}  // namespace teetally
