#include "teetally/quote/hand_out.h"

#include <algorithm>
#include <map>
#include <set>

#include "quote/pack_streams.h"

namespace teetally {
namespace {

constexpr std::size_t kMostCompared = 1500;  // baskets; more are packed by what they hold

// A line for each plot and shared part, by basket.
struct Lines {
  std::vector<int> basket;  // by line
  std::vector<std::vector<int>> of_basket;
};
Lines lines_of(const PoolResult& result) {
  Lines lines;
  lines.of_basket.resize(result.baskets.size());
  for (const auto* list : {&result.plots, &result.shared}) {
    for (const PlotShare& share : *list) {
      lines.of_basket[share.basket].push_back(static_cast<int>(lines.basket.size()));
      lines.basket.push_back(share.basket);
    }
  }
  return lines;
}

// What serves each need, in order; a plot takes from the first that is not used up.
struct Sources {
  std::vector<std::vector<std::pair<std::pair<int, int>, std::int64_t>>> of_need;  // item, amount
  explicit Sources(const PoolResult& result) : of_need(result.book.takeoff.needs.size()) {
    for (const Supply& supply : result.purchase.supplies) {
      const BookItem& item = result.book.items[supply.item];
      if (result.book.takeoff.needs[supply.need].by_length) continue;
      of_need[supply.need].push_back({{item.catalog, item.item}, supply.amount});
    }
  }
};

// Next comes the basket that opens the fewest items not yet begun; of equals the one that shares most with what is
// open.
std::vector<int> basket_order(const PoolResult& result, const Sources& sources) {
  std::vector<std::set<int>> needs(result.baskets.size());
  for (std::size_t b = 0; b < needs.size(); ++b) {
    for (const Portion& portion : result.baskets[b]) {
      if (!sources.of_need[portion.need].empty()) needs[b].insert(portion.need);
    }
  }
  std::vector<int> order(needs.size());
  for (std::size_t b = 0; b < order.size(); ++b) order[b] = static_cast<int>(b);
  if (needs.size() > kMostCompared) {
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return needs[a] < needs[b]; });
    return order;
  }
  std::set<int> open;
  for (std::size_t at = 0; at < order.size(); ++at) {
    std::size_t best = at;
    std::pair<std::int64_t, std::int64_t> least{INT64_MAX, 0};
    for (std::size_t k = at; k < order.size(); ++k) {
      const std::set<int>& own = needs[order[k]];
      const auto shared = std::count_if(own.begin(), own.end(), [&](int need) { return open.contains(need); });
      const std::pair<std::int64_t, std::int64_t> rank{static_cast<std::int64_t>(own.size()) - shared, -shared};
      if (rank < least) least = rank, best = k;
    }
    std::rotate(order.begin() + static_cast<std::ptrdiff_t>(at), order.begin() + static_cast<std::ptrdiff_t>(best),
                order.begin() + static_cast<std::ptrdiff_t>(best) + 1);
    open.insert(needs[order[at]].begin(), needs[order[at]].end());
  }
  return order;
}

// Cuts by line: pieces of a need stand basket by basket, plot by plot.
class Cuts {
 public:
  Cuts(const PoolResult& result, const Lines& lines) : result_(result), of_line_(lines.basket.size()) {
    line_of_piece_.resize(result.book.takeoff.needs.size());
    for (std::size_t b = 0; b < result.baskets.size(); ++b) {
      for (const int line : lines.of_basket[b]) {
        for (const Portion& portion : result.baskets[b]) {
          line_of_piece_[portion.need].insert(line_of_piece_[portion.need].end(), portion.pieces.size(), line);
        }
      }
    }
    for (std::size_t c = 0; c < result.purchase.coils.size(); ++c) add_coil(static_cast<int>(c));
  }

  const std::vector<Pick>& of(int line) const { return of_line_[line]; }
  const std::vector<Pick>& stock() const { return stock_; }
  int line_of(int need, int piece) const { return line_of_piece_[need][piece]; }

 private:
  void add_coil(int c) {
    const CutCoil& coil = result_.purchase.coils[c];
    for (std::size_t k = 0; k < coil.cuts.size(); ++k) {
      const CoilCut& cut = coil.cuts[k];
      of_line_[line_of(cut.need, cut.piece)].push_back(
          {coil.catalog, coil.item, cut.length.tenths_mm, -1, c, static_cast<int>(k), cut.need, cut.piece});
    }
    if (coil.left.tenths_mm > 0) stock_.push_back({coil.catalog, coil.item, coil.left.tenths_mm, -1, c, -1, -1, -1});
  }

  const PoolResult& result_;
  std::vector<std::vector<int>> line_of_piece_;  // by need and piece
  std::vector<std::vector<Pick>> of_line_;
  std::vector<Pick> stock_;
};

// Hands out in the order of the lines given; answers how many packs were open at most.
class Packing {
 public:
  Packing(const PoolResult& result, const Lines& lines, const Cuts& cuts)
      : result_(result), lines_(lines), cuts_(cuts), sources_(result), streams_(result), extra_(lines.basket.size()) {
    for (const JoinReason& join : result.purchase.joins) {
      extra_[cuts.line_of(join.tubing_need, join.piece)][join.need] += join.amount;
    }
  }

  const Sources& sources() const { return sources_; }

  void pack(int line) {
    PlotPicks plot{line, cuts_.of(line)};
    std::map<int, std::int64_t> wanted = extra_[line];
    for (const Portion& portion : result_.baskets[lines_.basket[line]]) {
      if (!result_.book.takeoff.needs[portion.need].by_length) wanted[portion.need] += portion.amount;
    }
    for (const auto& [need, amount] : wanted) take(need, amount, plot);
    most_open = std::max(most_open, streams_.open());
    sequence.push_back(std::move(plot));
  }

  void share_leftovers() {
    for (const auto& item : streams_.items()) {
      std::vector<std::int64_t> used;
      std::int64_t all = 0;
      for (const PlotPicks& plot : sequence) {
        std::int64_t own = 0;
        for (const Pick& pick : plot.picks) {
          own += std::pair{pick.catalog, pick.item} == item && pick.coil < 0 ? pick.amount : 0;
        }
        used.push_back(own);
        all += own;
      }
      if (all == 0 || streams_.left(item) == 0) continue;
      const std::vector<std::int64_t> parts = apportion(streams_.left(item), used);
      for (std::size_t p = 0; p < parts.size(); ++p) {
        for (Pick& pick : streams_.take(item, parts[p])) sequence[p].picks.push_back(pick);
      }
    }
  }

  std::vector<Pick> rest() {
    std::vector<Pick> rest;
    for (const auto& item : streams_.items()) {
      for (Pick& pick : streams_.take(item, streams_.left(item))) rest.push_back(pick);
    }
    return rest;
  }

  const std::vector<PackThere>& packs() const { return streams_.packs(); }
  std::vector<PlotPicks> sequence;
  int most_open = 0;

 private:
  void take(int need, std::int64_t amount, PlotPicks& plot) {
    for (auto& [item, left] : sources_.of_need[need]) {
      const std::int64_t taken = std::min(left, amount);
      if (taken <= 0) continue;
      for (Pick& pick : streams_.take(item, taken)) plot.picks.push_back(pick);
      left -= taken;
      amount -= taken;
    }
  }

  const PoolResult& result_;
  const Lines& lines_;
  const Cuts& cuts_;
  Sources sources_;
  PackStreams streams_;
  std::vector<std::map<int, std::int64_t>> extra_;  // by line: couplings for joins
};

}  // namespace

void name_pieces(PoolResult& result) {
  const Lines lines = lines_of(result);
  const Cuts cuts(result, lines);
  for (std::size_t n = 0; n < result.book.takeoff.needs.size(); ++n) {
    std::vector<NeededPiece>& pieces = result.book.takeoff.needs[n].pieces;
    for (std::size_t p = 0; p < pieces.size(); ++p) {
      const auto line = static_cast<std::size_t>(cuts.line_of(static_cast<int>(n), static_cast<int>(p)));
      const bool shared = line >= result.plots.size();
      const PlotShare& share = shared ? result.shared[line - result.plots.size()] : result.plots[line];
      const std::string name = (shared ? "" : "plot ") + result.pool.plots[share.plot].name;
      pieces[p].where = pieces[p].where.empty() ? name : name + ": " + pieces[p].where;
    }
  }
}

HandOut hand_out(const PoolResult& result) {
  const Lines lines = lines_of(result);
  const Cuts cuts(result, lines);
  Packing as_listed(result, lines, cuts), packing(result, lines, cuts);
  for (std::size_t line = 0; line < lines.basket.size(); ++line) as_listed.pack(static_cast<int>(line));
  for (const int basket : basket_order(result, packing.sources())) {
    for (const int line : lines.of_basket[basket]) packing.pack(line);
  }
  HandOut out;
  const bool better = packing.most_open <= as_listed.most_open;
  Packing& chosen = better ? packing : as_listed;
  out.most_open = chosen.most_open;
  out.most_open_as_listed = as_listed.most_open;
  if (result.pool.leftovers == LeftoverRule::by_use) chosen.share_leftovers();
  out.stock = cuts.stock();
  for (Pick& pick : chosen.rest()) out.stock.push_back(pick);
  out.packs = chosen.packs();
  out.sequence = std::move(chosen.sequence);
  return out;
}

}  // namespace teetally
