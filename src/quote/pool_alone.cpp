// Buying baskets by themselves, from the offers that were found for the pool.
#include <algorithm>
#include <atomic>
#include <exception>
#include <map>
#include <mutex>
#include <thread>

#include "teetally/base/stopwatch.h"
#include "teetally/quote/pool.h"

namespace teetally {
namespace {

// Bounds what is not settled by what is sure: nothing costs less than its listed value.
Alone bought_alone(const OfferBook& book, const BuyLimits& limits) {
  if (book.takeoff.needs.empty()) return {{}, {}, Outcome::bought};
  const Purchase purchase = buy(book, limits);
  return {purchase.total, purchase.proof.proven ? purchase.total : purchase.proof.lower_bound, purchase.outcome};
}

}  // namespace

OfferBook book_for(const OfferBook& pool, const std::vector<Basket>& baskets, const std::vector<std::int64_t>& times) {
  std::vector<std::int64_t> amounts(pool.takeoff.needs.size(), 0);
  for (std::size_t b = 0; b < baskets.size(); ++b) {
    for (const Portion& portion : baskets[b]) amounts[portion.need] += portion.amount * times[b];
  }
  OfferBook book;
  book.catalogs = pool.catalogs;
  book.items = pool.items;
  book.systems = pool.systems;
  book.takeoff.name = pool.takeoff.name;
  book.takeoff.systems = pool.takeoff.systems;
  std::vector<int> number(amounts.size(), -1);
  for (std::size_t n = 0; n < amounts.size(); ++n) {
    if (amounts[n] == 0) continue;
    number[n] = static_cast<int>(book.takeoff.needs.size());
    const Need& from = pool.takeoff.needs[n];
    Need need;
    need.id = from.id;
    need.part = from.part;
    need.systems = from.systems;
    need.by_length = from.by_length;
    need.amount = amounts[n];
    need.pieces = from.pieces;
    book.takeoff.needs.push_back(std::move(need));
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
  std::vector<Alone> alone(baskets.size());
  std::atomic<std::size_t> next{0};
  std::exception_ptr failure;
  std::mutex failing;
  const Stopwatch watch;
  const auto work = [&] {
    for (std::size_t b = next++; b < baskets.size(); b = next++) {
      try {
        BuyLimits own = limits;
        own.seconds = std::max(0.01, limits.seconds - watch.seconds());
        if (watch.seconds() < limits.seconds) alone[b] = bought_alone(book_for(pool, {baskets[b]}, {1}), own);
      } catch (...) {
        const std::lock_guard<std::mutex> lock(failing);
        failure = std::current_exception();
        return;
      }
    }
  };
  std::vector<std::thread> others;
  for (int t = 1; t < threads; ++t) others.emplace_back(work);
  work();
  for (std::thread& other : others) other.join();
  if (failure) std::rethrow_exception(failure);
  return alone;
}

std::optional<GroupCosts> buy_as_groups(const OfferBook& pool, const std::vector<Basket>& baskets,
                                        const std::vector<Sharer>& sharers, const BuyLimits& limits) {
  const auto members = static_cast<int>(sharers.size());
  if (members < 1 || members > kMostGrouped) return std::nullopt;
  GroupCosts groups{members, {0}};
  std::map<std::vector<std::int64_t>, double> known;  // groups of equal baskets cost the same
  const Stopwatch watch;
  for (std::uint32_t group = 1; group < 1U << members; ++group) {
    std::vector<std::int64_t> times(baskets.size(), 0);
    for (int i = 0; i < members; ++i) {
      if ((group >> i & 1U) != 0) ++times[sharers[static_cast<std::size_t>(i)].basket];
    }
    if (const auto found = known.find(times); found != known.end()) {
      groups.cost.push_back(found->second);
      continue;
    }
    if (watch.seconds() > limits.seconds) return std::nullopt;
    const Alone cost = bought_alone(book_for(pool, baskets, times), limits);
    if (cost.outcome != Outcome::bought || cost.cost != cost.least) return std::nullopt;
    groups.cost.push_back(static_cast<double>(cost.cost.minor));
    known.emplace(std::move(times), groups.cost.back());
  }
  return groups;
}

}  // namespace teetally
