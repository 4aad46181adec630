// The pooled order, what every different plot would cost alone, and everybody's share.
#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <thread>

#include "tool/interrupt.h"
#include "tool/pool_steps.h"

namespace teetally {
namespace {

constexpr double kSecondsAfterStop = 5;  // for the plots alone, when somebody waits for the answer

// Plots that need nothing are bought nothing for.
Purchase bought(const OfferBook& book, const BuyLimits& limits) {
  if (!book.takeoff.needs.empty()) return buy(book, limits);
  Purchase nothing;
  nothing.outcome = Outcome::bought;
  nothing.proof.proven = true;
  return nothing;
}

// What the plots would cost alone is without what the pool has on hand: nobody alone could use it.
OfferBook without_on_hand(OfferBook book) {
  std::erase_if(book.servings, [&](const Serving& serving) {
    return book.catalogs[static_cast<std::size_t>(book.items[static_cast<std::size_t>(serving.item)].catalog)]->id ==
           kOnHandId;
  });
  return book;
}

// No order costs less than the price list says (which leaves out parts on hand). Of a search that was stopped early
// this is often all that is known.
void raise_bound_by_list(const Session& session, PoolResult& result) {
  Proof& proof = result.purchase.proof;
  if (result.purchase.outcome != Outcome::bought || proof.proven || session.request.from_stock) return;
  const PriceList prices = price_list(result.book, session.request.limits, result.purchase.total);
  Basket all;
  for (std::size_t n = 0; n < result.book.takeoff.needs.size(); ++n) {
    all.push_back({static_cast<int>(n), result.book.takeoff.needs[n].amount, {}});
  }
  const Money least = listed_value(prices, all) - prices.rounding;
  if (least <= proof.lower_bound) return;
  proof.lower_bound = std::min(least, proof.cost);
  proof.rests_on += "; its bound is that of the pool's price list";
}

// Sets its flag after a while.
class Alarm {
 public:
  explicit Alarm(double seconds)
      : thread_([this, seconds](const std::stop_token& done) {
          std::mutex nobody;
          std::unique_lock<std::mutex> lock(nobody);
          std::condition_variable_any never;
          never.wait_for(lock, done, std::chrono::duration<double>(seconds), [] { return false; });
          over_ = true;
        }) {}
  StopFlag flag() const { return &over_; }

 private:
  std::atomic<bool> over_{false};
  std::jthread thread_;  // ends before the flag does
};

// Once the order was stopped, what the plots would cost alone is looked for briefly.
std::vector<Alone> bought_alone(const Session& session, const PoolResult& result, int cores) {
  BuyLimits limits = session.request.limits;
  std::optional<Alarm> alarm;
  if (interrupted()) {
    limits.stop = alarm.emplace(kSecondsAfterStop).flag();
    limits.seconds = std::min(limits.seconds, kSecondsAfterStop);
  }
  if (!session.request.from_stock) return buy_alone(result.book, result.baskets, limits, cores);
  return buy_alone(without_on_hand(result.book), result.baskets, limits, cores);
}

void note_unknown(Session& session, const PoolResult& result) {
  const auto unknown = std::count_if(result.plots.begin(), result.plots.end(), [&](const PlotShare& share) {
    return result.alone[static_cast<std::size_t>(share.basket)].outcome == Outcome::out_of_time;
  });
  if (!interrupted() || unknown == 0) return;
  session.diagnostics.warning(
      "tool/stopped", {}, "stopped: what " + counted(unknown, "plot") + " would pay alone is not known, and marked ?");
}

}  // namespace

std::optional<PoolResult> buy_pool_order(Session& session) {
  auto result = gather_pool(session);
  if (!result) return std::nullopt;
  const BuyLimits& limits = session.request.limits;
  result->purchase = timed(session, "purchase", [&] { return bought(result->book, limits); });
  raise_bound_by_list(session, *result);
  note_size(session, counted(result->purchase.proof.nodes, "node"));
  note_stop(session, result->purchase);
  return result;
}

std::optional<PoolResult> buy_pool(Session& session) {
  auto result = buy_pool_order(session);
  if (!result || result->purchase.outcome != Outcome::bought) return result;
  const BuyLimits& limits = session.request.limits;
  const int cores = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
  result->alone = timed(session, "alone", [&] { return bought_alone(session, *result, cores); });
  note_size(session, counted(static_cast<std::int64_t>(result->baskets.size()), "basket"));
  note_unknown(session, *result);
  timed(session, "shares", [&] { return share_pool(*result, session.request.share_rule, limits, cores), 0; });
  return result;
}

}  // namespace teetally
