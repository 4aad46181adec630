// The pooled order, what every different plot would cost alone, and everybody's share.
#include <algorithm>
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

// Once stopped, what is left to do is done briefly, and cannot be stopped but by ending it all.
BuyLimits limits_now(const BuyLimits& limits) {
  BuyLimits now = limits;
  if (interrupted()) {
    now.stop = nullptr;
    now.seconds = std::min(now.seconds, kSecondsAfterStop);
  }
  return now;
}

}  // namespace

std::optional<PoolResult> buy_pool(Session& session) {
  auto result = gather_pool(session);
  if (!result) return std::nullopt;
  const BuyLimits& limits = session.request.limits;
  const int cores = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
  result->purchase = timed(session, "purchase", [&] { return bought(result->book, limits); });
  note_size(session, counted(result->purchase.proof.nodes, "node"));
  note_stop(session, result->purchase);
  if (result->purchase.outcome != Outcome::bought) return result;
  const bool stopped_before = interrupted();
  const BuyLimits after = limits_now(limits);
  result->alone = timed(session, "alone", [&] {
    if (!session.request.from_stock) return buy_alone(result->book, result->baskets, after, cores);
    return buy_alone(without_on_hand(result->book), result->baskets, after, cores);
  });
  note_size(session, counted(static_cast<std::int64_t>(result->baskets.size()), "basket"));
  if (interrupted() && !stopped_before) {
    session.diagnostics.warning("tool/stopped", {},
                                "stopped while buying for each plot alone: what is marked ? was not found, and shares "
                                "go by the price list there");
  }
  timed(session, "shares",
        [&] { return share_pool(*result, session.request.share_rule, limits_now(limits), cores), 0; });
  return result;
}

}  // namespace teetally
