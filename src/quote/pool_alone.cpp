// Buying baskets by themselves, from the offers that were found for the pool.
#include <algorithm>
#include <atomic>
#include <cmath>
#include <exception>
#include <functional>
#include <map>
#include <mutex>
#include <thread>

#include "teetally/base/stopwatch.h"
#include "teetally/quote/pool.h"

namespace teetally {
namespace {

constexpr double kLeastSeconds = 0.01;  // for one basket, however many there are

Alone bought_alone(const OfferBook& book, const BuyLimits& limits) {
  if (book.takeoff.needs.empty()) return {{}, {}, Outcome::bought};
  const Purchase purchase = buy(book, limits);
  Alone alone{purchase.total, purchase.proof.proven ? purchase.total : purchase.proof.lower_bound, purchase.outcome};
  if (purchase.proof.proven || purchase.outcome != Outcome::bought) return alone;
  const PriceList prices = price_list(book, limits, purchase.total);
  Money listed;
  for (std::size_t n = 0; n < book.takeoff.needs.size(); ++n) {
    listed += listed_value(prices, {{static_cast<int>(n), book.takeoff.needs[n].amount, {}}});
  }
  alone.least = std::min(alone.cost, std::max(alone.least, listed - prices.rounding));
  return alone;
}

// Work 0, 1, ... on so many threads. What a thread throws is thrown again here, once all have stopped.
void on_threads(int threads, std::size_t count, const std::function<void(std::size_t)>& work) {
  std::atomic<std::size_t> next{0};
  std::exception_ptr failure;
  std::mutex failing;
  const auto run = [&] {
    try {
      for (std::size_t i = next++; i < count; i = next++) work(i);
    } catch (...) {
      const std::lock_guard<std::mutex> lock(failing);
      failure = std::current_exception();
      next = count;
    }
  };
  std::vector<std::thread> others;
  for (int t = 1; t < threads; ++t) others.emplace_back(run);
  run();
  for (std::thread& other : others) other.join();
  if (failure) std::rethrow_exception(failure);
}

// Equal baskets have equal contents.
std::vector<std::int64_t> contents_of(const Basket& basket) {
  std::vector<std::int64_t> contents;
  for (const Portion& portion : basket) {
    contents.insert(contents.end(), {portion.need, portion.amount, -static_cast<std::int64_t>(portion.pieces.size())});
    for (const NeededPiece& piece : portion.pieces) {
      contents.push_back(piece.length.tenths_mm * 4 + (piece.may_join ? 2 : 0) + (piece.any_cut ? 1 : 0));
    }
  }
  return contents;
}

}  // namespace

namespace {

// What these baskets want of each of the pool's needs, and which of them a book for them keeps.
struct Wanted {
  std::vector<Need> needs;
  std::vector<bool> kept;
};
Wanted wanted_of(const OfferBook& pool, const std::vector<Basket>& baskets, const std::vector<std::int64_t>& times) {
  std::vector<Need> wanted(pool.takeoff.needs.size());
  std::vector<bool> kept(wanted.size(), false);
  for (std::size_t b = 0; b < baskets.size(); ++b) {
    for (const Portion& portion : baskets[b]) {
      Need& need = wanted[portion.need];
      need.amount += portion.amount * times[b];
      kept[portion.need] = need.amount > 0;
      for (std::int64_t copy = 0; copy < times[b]; ++copy) {
        need.pieces.insert(need.pieces.end(), portion.pieces.begin(), portion.pieces.end());
      }
    }
  }
  // Couplings that joins may ask for stay, even where nothing else does.
  for (std::size_t n = 0; n < pool.coupling_need.size(); ++n) {
    if (pool.coupling_need[n] >= 0 && kept[n]) kept[pool.coupling_need[n]] = true;
  }
  return {std::move(wanted), std::move(kept)};
}

}  // namespace

OfferBook book_for(const OfferBook& pool, const std::vector<Basket>& baskets, const std::vector<std::int64_t>& times) {
  auto [wanted, kept] = wanted_of(pool, baskets, times);
  OfferBook book;
  book.catalogs = pool.catalogs;
  book.items = pool.items;
  book.systems = pool.systems;
  book.takeoff.name = pool.takeoff.name;
  book.takeoff.systems = pool.takeoff.systems;
  book.takeoff.cutting = pool.takeoff.cutting;
  std::vector<int> number(wanted.size(), -1);
  for (std::size_t n = 0; n < wanted.size(); ++n) {
    if (!kept[n]) continue;
    number[n] = static_cast<int>(book.takeoff.needs.size());
    const Need& from = pool.takeoff.needs[n];
    Need& need = wanted[n];
    need.id = from.id;
    need.part = from.part;
    need.systems = from.systems;
    need.by_length = from.by_length;
    book.takeoff.needs.push_back(std::move(need));
  }
  for (std::size_t n = 0; n < wanted.size(); ++n) {
    if (!kept[n]) continue;
    const int coupling = n < pool.coupling_need.size() ? pool.coupling_need[n] : -1;
    book.coupling_need.push_back(coupling < 0 ? -1 : number[coupling]);
  }
  for (const Serving& serving : pool.servings) {
    if (number[serving.need] < 0) continue;
    book.servings.push_back(serving);
    book.servings.back().need = number[serving.need];
  }
  return book;
}

std::vector<Alone> buy_alone(const OfferBook& pool, const std::vector<Basket>& baskets, const BuyLimits& limits,
                             int threads) {
  std::map<std::vector<std::int64_t>, std::size_t> known;  // equal baskets cost the same
  std::vector<std::size_t> first_like(baskets.size()), different;
  for (std::size_t b = 0; b < baskets.size(); ++b) {
    const auto [found, is_new] = known.emplace(contents_of(baskets[b]), b);
    first_like[b] = found->second;
    if (is_new) different.push_back(b);
  }
  std::vector<Alone> alone(baskets.size());
  const Stopwatch watch;
  on_threads(threads, different.size(), [&](std::size_t d) {
    if (is_set(limits.stop)) return;  // what is not known by then stays unknown
    const std::size_t b = different[d];
    BuyLimits own = limits;
    const double rounds = std::ceil(static_cast<double>(different.size() - d) / threads);
    own.seconds = std::max(kLeastSeconds, (limits.seconds - watch.seconds()) / rounds);
    alone[b] = bought_alone(book_for(pool, {baskets[b]}, {1}), own);
  });
  for (std::size_t b = 0; b < baskets.size(); ++b) alone[b] = alone[first_like[b]];
  return alone;
}

std::optional<GroupCosts> buy_as_groups(const OfferBook& pool, const std::vector<Basket>& baskets,
                                        const std::vector<Sharer>& sharers, const BuyLimits& limits, int threads) {
  const auto members = static_cast<int>(sharers.size());
  if (members < 1 || members > kMostGrouped) return std::nullopt;
  std::vector<std::size_t> order_of_group{0};  // by group: index into `orders`
  std::vector<std::vector<std::int64_t>> orders{std::vector<std::int64_t>(baskets.size(), 0)};
  std::map<std::vector<std::int64_t>, std::size_t> known;  // groups of equal baskets cost the same
  for (std::uint32_t group = 1; group < 1U << members; ++group) {
    std::vector<std::int64_t> times(baskets.size(), 0);
    for (int i = 0; i < members; ++i) {
      if ((group >> i & 1U) != 0) ++times[sharers[static_cast<std::size_t>(i)].basket];
    }
    const auto [found, is_new] = known.emplace(times, orders.size());
    if (is_new) orders.push_back(std::move(times));
    order_of_group.push_back(found->second);
  }
  std::vector<Alone> costs(orders.size());
  const Stopwatch watch;
  on_threads(threads, orders.size(), [&](std::size_t o) {
    BuyLimits own = limits;
    own.seconds = limits.seconds - watch.seconds();
    if (own.seconds > 0) costs[o] = bought_alone(book_for(pool, baskets, orders[o]), own);
  });
  GroupCosts groups{members, {}};
  for (const std::size_t order : order_of_group) {
    const Alone& cost = costs[order];
    if (cost.outcome != Outcome::bought || cost.cost != cost.least) return std::nullopt;
    groups.cost.push_back(static_cast<double>(cost.cost.minor));
  }
  return groups;
}

}  // namespace teetally
