// What everybody owes after a round adds up to what the suppliers get, and nobody pays for another's leaving.
#include "teetally/quote/round.h"

#include <boost/test/unit_test.hpp>

#include "unit/quote/made_result.h"

using namespace teetally;
using namespace teetally::test;

namespace {

// Shares by any rule will do: here in equal parts.
PoolResult shared_result(std::mt19937& dice) {
  PoolResult result = random_result(dice);
  const std::vector<std::int64_t> parts =
      apportion(result.purchase.total.minor, std::vector<std::int64_t>(result.plots.size(), 1));
  for (std::size_t p = 0; p < parts.size(); ++p) result.plots[p].share.paid = {parts[p]};
  return result;
}

Money owed_in_all(const Settled& settled) {
  Money sum;
  for (const RoundLine& line : settled.lines) sum += line.owes();
  return sum;
}

}  // namespace

BOOST_AUTO_TEST_CASE(nobody_pays_for_anothers_leaving) {
  std::mt19937 dice(5);
  int saved = 0;
  for (int i = 0; i < 20; ++i) {
    const PoolResult result = shared_result(dice);
    Round round;
    round.state = RoundState::frozen;
    round.left = {"0", "2"};
    const PoolResult now = without_left(result, round, BuyLimits());
    const Settled settled = settle(result, now, hand_out(now), round);
    BOOST_TEST((settled.total == now.purchase.total));
    BOOST_TEST((owed_in_all(settled) == settled.total));
    for (std::size_t l = 0; l < settled.lines.size(); ++l) {
      BOOST_TEST((settled.lines[l].owes() <= result.plots[l].share.paid));
      BOOST_TEST((Money{} <= settled.lines[l].owes()));
      BOOST_TEST(settled.lines[l].has_left == (l == 0 || l == 2));
    }
    saved += settled.saved > Money{} ? 1 : 0;
  }
  BOOST_TEST(saved > 0);
}

BOOST_AUTO_TEST_CASE(leaving_late_saves_nothing) {
  std::mt19937 dice(6);
  const PoolResult result = shared_result(dice);
  Round round;
  round.state = RoundState::ordered;
  round.left_late = {"1"};
  const PoolResult now = without_left(result, round, BuyLimits());
  const Settled settled = settle(result, now, hand_out(now), round);
  BOOST_TEST((settled.total == result.purchase.total));
  for (std::size_t l = 0; l < settled.lines.size(); ++l) {
    BOOST_TEST((settled.lines[l].owes() == result.plots[l].share.paid));
  }
}

BOOST_AUTO_TEST_CASE(what_does_not_come_is_paid_back) {
  std::mt19937 dice(8);
  int short_of_pieces = 0;
  for (int i = 0; i < 20; ++i) {
    const PoolResult result = shared_result(dice);
    Round round;
    round.state = RoundState::received;
    const SupplierOrder& order = result.purchase.orders[0];
    const Catalog& catalog = *result.book.catalogs[order.catalog];
    for (const OrderLine& line : order.lines) {
      if (line.bundle >= 0) continue;
      const Pack& pack = catalog.items[line.item].packs[line.pack];
      round.deliveries.push_back({catalog.id, pack.sku, 1, Money{-101}, false, {}});
      round.deliveries.push_back({catalog.id, pack.sku, 0, Money{37}, true, {}});
    }
    const Settled settled = settle(result, result, hand_out(result), round);
    BOOST_TEST((owed_in_all(settled) == settled.total));
    const auto lines = static_cast<std::int64_t>(round.deliveries.size() / 2);
    BOOST_TEST(settled.total.minor == result.purchase.total.minor - 64 * lines);
    for (const RoundLine& line : settled.lines) short_of_pieces += line.pieces_short > 0 ? 1 : 0;
  }
  BOOST_TEST(short_of_pieces > 0);
}
