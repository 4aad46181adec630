// Buying baskets by themselves, from the offers that were found for the pool.
#include <algorithm>
#include <atomic>
#include <cmath>
#include <exception>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <thread>

#include "quote/pool_covers.h"
#include "teetally/base/stopwatch.h"
#include "teetally/purchase/buy_with.h"
#include "teetally/quote/pool.h"

namespace teetally {
namespace {

constexpr double kLeastSeconds = 0.01;        // for one basket, however many there are
constexpr double kEnoughSeconds = 0.5;        // for most: with less for each, little would be proven for anybody
constexpr std::size_t kMostCompared = 5'000;  // baskets that one is compared with

// The order of one basket, and what others may learn from it.
struct OrderAlone {
  Purchase purchase;
  Money least_uncut;  // as in FoundPurchase
  bool in_time = true;
};

OrderAlone order_alone(const OfferBook& book, const BuyLimits& limits, const std::vector<const OrderAlone*>& like) {
  OrderAlone order;
  if (book.takeoff.needs.empty()) {
    order.purchase.outcome = Outcome::bought;
    order.purchase.proof.proven = true;
    return order;
  }
  const Stopwatch watch;
  Beforehand known;
  known.name_shortfalls = false;
  for (const OrderAlone* other : like) {
    known.orders.push_back(&other->purchase);
    known.at_least = std::max(known.at_least, other->least_uncut);
  }
  FoundPurchase found = buy_with(book, limits, known);
  order.purchase = std::move(found.purchase);
  order.purchase.supplies = {};  // only what is ordered is of use to others
  order.purchase.leftovers = {};
  order.purchase.coils = {};
  order.least_uncut = found.least_uncut;
  order.in_time = watch.seconds() < limits.seconds && !is_set(limits.stop);
  return order;
}

Alone alone_of(const OrderAlone& order) {
  const Purchase& purchase = order.purchase;
  if (purchase.outcome != Outcome::bought) return {{}, {}, purchase.outcome};
  const Money least = purchase.proof.proven ? purchase.total : std::max(purchase.proof.lower_bound, order.least_uncut);
  return {purchase.total, std::min(purchase.total, least), Outcome::bought};
}

// A price list of its own says at least what a basket costs.
void raise_by_list(const OfferBook& book, const BuyLimits& limits, Alone& alone) {
  if (alone.outcome != Outcome::bought || alone.least == alone.cost) return;
  const PriceList prices = price_list(book, limits, alone.cost);
  Money listed;
  for (std::size_t n = 0; n < book.takeoff.needs.size(); ++n) {
    listed += listed_value(prices, {{static_cast<int>(n), book.takeoff.needs[n].amount, {}}});
  }
  alone.least = std::min(alone.cost, std::max(alone.least, listed - prices.rounding));
}

Alone bought_alone(const OfferBook& book, const BuyLimits& limits) {
  Alone alone = alone_of(order_alone(book, limits, {}));
  raise_by_list(book, limits, alone);
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

namespace {

// Every different basket bought by itself. Of baskets that come to the same (Covers) one is searched for; the others
// are first tried with its order, which is the cheapest for them too unless their tubing cannot be cut from it. What
// one basket costs at least, any that wants no less of each need costs at least.
class EachAlone {
 public:
  EachAlone(const OfferBook& pool, const std::vector<Basket>& baskets, const BuyLimits& limits, int threads)
      : pool_(pool), baskets_(baskets), limits_(limits), threads_(threads) {
    Covers covers(pool);
    std::map<std::vector<std::int64_t>, std::size_t> first;
    for (std::size_t b = 0; b < baskets.size(); ++b) {
      covers_.push_back(covers.of(baskets[b]));
      const auto [found, is_new] = first.emplace(covers_[b], b);
      like_.push_back(found->second);
      (is_new ? firsts_ : others_).push_back(b);
    }
    orders_.resize(baskets.size());
  }

  std::vector<Alone> run() {
    buy(firsts_);
    buy(others_);
    buy_again();
    std::vector<Alone> alone(baskets_.size());
    on_threads(threads_, baskets_.size(), [&](std::size_t b) {
      if (!orders_[b]) return;  // what is not known by now stays unknown
      alone[b] = alone_of(*orders_[b]);
      if (alone[b].outcome != Outcome::bought || alone[b].least == alone[b].cost) return;
      alone[b].least = std::min(alone[b].cost, std::max(alone[b].least, least_by_others(b)));
      if (!is_set(limits_.stop) && watch_.seconds() < limits_.seconds) raise_by_list(book_of(b), limits_, alone[b]);
    });
    return alone;
  }

 private:
  OfferBook book_of(std::size_t b) const { return book_for(pool_, {baskets_[b]}, {1}); }

  // The time that is left is shared evenly, but in parts that are of use; those who come too late get an order only.
  void buy(const std::vector<std::size_t>& which) {
    on_threads(threads_, which.size(), [&](std::size_t i) {
      if (is_set(limits_.stop)) return;
      const std::size_t b = which[i], first = like_[b];
      BuyLimits own = limits_;
      const double rounds = std::ceil(static_cast<double>(which.size() - i) / threads_);
      const double left = limits_.seconds - watch_.seconds();
      own.seconds = std::max({kLeastSeconds, std::min(left, kEnoughSeconds), left / rounds});
      std::vector<const OrderAlone*> like;
      if (orders_[b]) like.push_back(&*orders_[b]);
      if (first != b && orders_[first]) like.push_back(&*orders_[first]);
      OrderAlone order = order_alone(book_of(b), own, like);
      if (!orders_[b] || order.purchase.outcome == Outcome::bought) orders_[b] = std::move(order);
    });
  }

  // Searches that ran out of their share of the time get what others left of theirs.
  void buy_again() {
    std::vector<std::size_t> open;
    for (std::size_t b = 0; b < baskets_.size(); ++b) {
      if (orders_[b] && !orders_[b]->in_time && !orders_[b]->purchase.proof.proven) open.push_back(b);
    }
    if (watch_.seconds() + kLeastSeconds * static_cast<double>(open.size()) < limits_.seconds) buy(open);
  }

  // The dearest of what less is known to cost at least.
  Money least_by_others(std::size_t b) const {
    Money least;
    if (firsts_.size() > kMostCompared) return least;
    for (const std::size_t other : firsts_) {
      if (!orders_[other] || orders_[other]->least_uncut <= least) continue;
      const bool wants_less = std::equal(covers_[other].begin(), covers_[other].end(), covers_[b].begin(),
                                         [](std::int64_t less, std::int64_t more) { return less <= more; });
      if (wants_less) least = orders_[other]->least_uncut;
    }
    return least;
  }

  const OfferBook& pool_;
  const std::vector<Basket>& baskets_;
  const BuyLimits& limits_;
  int threads_;
  Stopwatch watch_;
  std::vector<std::vector<std::int64_t>> covers_;  // by basket, as all that follow
  std::vector<std::size_t> like_;                  // the first that comes to the same
  std::vector<std::size_t> firsts_, others_;       // baskets
  std::vector<std::optional<OrderAlone>> orders_;
};

}  // namespace

std::vector<Alone> buy_alone(const OfferBook& pool, const std::vector<Basket>& baskets, const BuyLimits& limits,
                             int threads) {
  std::map<std::vector<std::int64_t>, std::size_t> known;  // equal baskets cost the same
  std::vector<std::size_t> number;
  std::vector<Basket> different;
  for (const Basket& basket : baskets) {
    const auto [found, is_new] = known.emplace(contents_of(basket), different.size());
    number.push_back(found->second);
    if (is_new) different.push_back(basket);
  }
  const std::vector<Alone> found = EachAlone(pool, different, limits, threads).run();
  std::vector<Alone> alone;
  for (const std::size_t n : number) alone.push_back(found[n]);
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
