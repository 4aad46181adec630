#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numeric>
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

// Attributes that the part there does not state.
std::vector<std::string> unstated(const PartSpec& wanted, const PartSpec& there) {
  std::vector<std::string> names;
  for (const auto& [name, value] : wanted.attributes) {
    if (!there.attributes.contains(name)) names.push_back(name);
  }
  return names;
}

PartSpec as_far_as_stated(PartSpec wanted, const PartSpec& there) {
  std::erase_if(wanted.attributes, [&](const auto& entry) { return !there.attributes.contains(entry.first); });
  return wanted;
}

// As for what a site has: needs whose every attribute is stated and matches come first, then those of which the part
// there does not say all. False when it serves none.
bool use_part(Takeoff& takeoff, const PartThere& there, const std::string& plot, const Vocabulary& vocabulary,
              UnitSystem units) {
  std::int64_t left = there.length.tenths_mm > 0 ? there.length.tenths_mm : there.count;
  bool matched = false;
  for (const bool all_stated : {true, false}) {
    for (Need& need : takeoff.needs) {
      if (need.part.kind != there.part.kind) continue;
      const std::vector<std::string> silent = unstated(need.part, there.part);
      if (silent.empty() != all_stated) continue;
      if (mismatch(as_far_as_stated(need.part, there.part), there.part, vocabulary, units)) continue;
      matched = true;
      const std::int64_t amount = std::min(left, need.amount);
      if (amount <= 0) continue;
      take_off_part(need, amount, "plot " + quoted(plot), "the plot has it", there.place);
      left -= amount;
      if (silent.empty()) continue;
      takeoff.cautions.push_back(fmt::format("The {} of plot {} does not state its {}; check that it suits: {}.",
                                             need.part.kind, quoted(plot), listed(silent), to_text(need.part, units)));
    }
  }
  return matched;
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
Length coil_needed(const std::vector<NeededPiece>& pieces, const std::vector<Length>& coils) {
  Length longest;
  for (const NeededPiece& piece : pieces) {
    if (!piece.may_join && !piece.any_cut) longest = std::max(longest, piece.length);
  }
  if (longest == Length{}) return longest;
  const auto coil = std::lower_bound(coils.begin(), coils.end(), longest);
  return coil == coils.end() ? longest : *coil;
}

// Tubing that the site has goes to the longest pieces it holds whole, and to totals.
void cut_from_site(std::vector<NeededPiece>& pieces, Length site) {
  std::vector<std::size_t> order(pieces.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return pieces[b].length < pieces[a].length; });
  for (const std::size_t p : order) {
    NeededPiece& piece = pieces[p];
    if (!piece.any_cut && site < piece.length) continue;
    const Length taken = std::min(site, piece.length);
    piece.length = piece.length - taken;
    site = site - taken;
  }
}

// The pieces that a need of one takeoff is cut into, with their part of its allowance, less what the site has.
std::vector<NeededPiece> pieces_of(const Need& need) {
  std::vector<NeededPiece> pieces = need.pieces;
  std::int64_t gross = need.amount;
  for (const Reason& reason : need.reasons) gross -= reason.reason_class == ReasonClass::on_site ? reason.amount : 0;
  std::vector<std::int64_t> lengths;
  for (const NeededPiece& piece : pieces) lengths.push_back(piece.length.tenths_mm);
  lengths = apportion(gross, lengths);
  for (std::size_t p = 0; p < pieces.size(); ++p) pieces[p].length = {lengths[p]};
  for (const Reason& reason : need.reasons) {
    if (reason.reason_class == ReasonClass::on_site) cut_from_site(pieces, Length{-reason.amount});
  }
  std::erase_if(pieces, [](const NeededPiece& piece) { return piece.length <= Length{}; });
  return pieces;
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
  Pooling(bool families_apart, const std::vector<Catalog>& catalogs, PoolPieces pieces)
      : families_apart_(families_apart), pieces_(pieces), coils_(coils_on_offer(catalogs)) {}

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
    std::map<int, Portion> portions;
    for (const Need& need : part.takeoff->needs) {
      std::vector<int> systems;
      for (const int s : need.systems) {
        systems.push_back(s < 0 ? s : system_of(part.takeoff->systems[s], pooled_.baskets.size()));
      }
      Portion own = portion_of(need);
      if (own.amount <= 0) continue;
      own.need = need_for(need, std::move(systems), own, part);
      Portion& all = portions.try_emplace(own.need, Portion{own.need, 0, {}}).first->second;
      all.amount += own.amount;
      all.pieces.insert(all.pieces.end(), own.pieces.begin(), own.pieces.end());
    }
    Basket& basket = pooled_.baskets.emplace_back();
    for (auto& [need, portion] : portions) basket.push_back(std::move(portion));
    add_pieces(basket, part);
    merge_texts(*part.takeoff);
  }

  static Portion portion_of(const Need& need) {
    if (!need.by_length || need.pieces.empty()) return {-1, need.amount, {}};
    Portion portion{-1, 0, pieces_of(need)};
    for (const NeededPiece& piece : portion.pieces) portion.amount += piece.length.tenths_mm;
    return portion;
  }

  int need_for(const Need& need, std::vector<int> systems, const Portion& portion, const PoolPart& part) {
    const Length coil = coil_needed(portion.pieces, coils_);
    const auto [found, is_new] = needs_.emplace(Key{need.part, systems, coil}, pooled_.takeoff.needs.size());
    if (is_new) {
      Need& made = pooled_.takeoff.needs.emplace_back();
      made.part = need.part;
      made.systems = std::move(systems);
      made.by_length = need.by_length;
      made.place = need.place;
    }
    Need& pooled = pooled_.takeoff.needs[found->second];
    pooled.amount += portion.amount * part.times;
    Reason reason;
    reason.element = part.who;
    reason.rule = "asked for";
    reason.amount = portion.amount * part.times;
    reason.place = need.place;
    pooled.reasons.push_back(std::move(reason));
    return static_cast<int>(found->second);
  }

  void add_pieces(const Basket& basket, const PoolPart& part) {
    const std::int64_t copies = pieces_ == PoolPieces::once ? 1 : part.times;
    for (std::int64_t copy = 0; copy < copies; ++copy) {
      for (const Portion& portion : basket) {
        std::vector<NeededPiece>& pieces = pooled_.takeoff.needs[portion.need].pieces;
        pieces.insert(pieces.end(), portion.pieces.begin(), portion.pieces.end());
      }
    }
  }

  void merge_texts(const Takeoff& takeoff) {
    pooled_.takeoff.cutting = takeoff.cutting;
    for (const std::string& caution : takeoff.cautions) {
      if (said_.insert(caution).second) pooled_.takeoff.cautions.push_back(caution);
    }
  }

  bool families_apart_;
  PoolPieces pieces_;
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
  for (const PartThere& there : works.has) {
    if (use_part(takeoff, there, plot, vocabulary, units)) continue;
    diagnostics.warning(
        "quote/has-matches-nothing", there.place,
        fmt::format("{} of plot {} serves no need of its design", quoted(to_text(there.part, units)), quoted(plot)));
  }
  move_covered(takeoff);
}

Pooled pool_takeoffs(const std::string& name, const std::vector<PoolPart>& parts, bool families_apart,
                     const std::vector<Catalog>& catalogs, PoolPieces pieces) {
  return Pooling(families_apart, catalogs, pieces).pool(name, parts);
}

}  // namespace teetally
