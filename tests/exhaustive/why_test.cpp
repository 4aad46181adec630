// What compare() answers, against buying plainly under every limit and at every price: the questions share what they
// know, and none may take more from another than it is worth.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <limits>
#include <set>

#include "exhaustive/random_book.h"
#include "places.h"
#include "teetally/purchase/compare.h"

using namespace teetally;
using namespace teetally::test;

namespace {

constexpr unsigned kBooks = 150;
constexpr unsigned kFirstSeed = 300'001;
constexpr std::int64_t kNever = std::numeric_limits<std::int64_t>::max();

BuyLimits plainly(BuyLimits limits) {
  limits.engine = "enumerate";
  return limits;
}

std::int64_t cost_of(const OfferBook& book, const BuyLimits& limits) {
  const Purchase purchase = buy(book, limits);
  BOOST_TEST((purchase.outcome != Outcome::out_of_time));
  return purchase.outcome == Outcome::bought ? purchase.total.minor : kNever;
}
std::int64_t cost_of(const Purchase& purchase) {
  BOOST_TEST(is_settled(purchase));
  return purchase.outcome == Outcome::bought ? purchase.total.minor : kNever;
}

// The book with one catalog changed.
template <typename Change>
OfferBook changed(OfferBook book, int catalog, Change change) {
  auto copy = std::make_shared<Catalog>(*book.catalogs[catalog]);
  change(*copy);
  book.catalogs[catalog] = std::move(copy);
  return book;
}

struct Compared {
  OfferBook book;
  BuyLimits limits;
  Comparison comparison;
  std::int64_t best() const { return comparison.best.total.minor; }
};

// The seeds that can be bought at all.
template <typename Check>
void for_each_book(const CompareWishes& wishes, Check check) {
  int bought = 0;
  for (unsigned seed = kFirstSeed; seed < kFirstSeed + kBooks; seed += TEETALLY_EVERY) {
    const RandomPurchase random = random_purchase(seed);
    Compared compared{random.made.book(), plainly(random.limits), {}};
    const Purchase best = buy(compared.book, compared.limits);
    if (best.outcome != Outcome::bought) continue;
    ++bought;
    BuyLimits asked = compared.limits;
    if (bought % 2 == 0) asked.engine = "exact";  // as by default: our own search first, then CBC
    compared.comparison = compare(compared.book, asked, best, wishes);
    BOOST_TEST_CONTEXT("seed " << seed) { check(compared); }
  }
  BOOST_TEST(bought > 0);
}

// Audited by the book itself; the orders add up to the total.
bool is_sound(const Compared& compared, const Purchase& purchase) {
  Money sum;
  for (const SupplierOrder& order : purchase.orders) sum += order.cost.total;
  if (purchase.outcome == Outcome::bought && sum != purchase.total) return false;
  return purchase.outcome != Outcome::bought || audit(compared.book, compared.limits, purchase).empty();
}

const CompareWishes kPlain{.break_evens = false};

std::set<std::pair<int, int>> marks_of(const Purchase& purchase) {
  std::set<std::pair<int, int>> marks;
  for (const SupplierOrder& order : purchase.orders) {
    marks.insert({order.catalog, -1});
    for (const OrderLine& line : order.lines) {
      if (line.bundle >= 0) marks.insert({order.catalog, line.bundle});
    }
  }
  return marks;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(why)

BOOST_AUTO_TEST_CASE(suppliers_alone_and_few_of_them) {
  for_each_book(kPlain, [](const Compared& compared) {
    for (const SupplierAnswer& alone : compared.comparison.alone) {
      BuyLimits limits = compared.limits;
      limits.only_suppliers = {compared.book.catalogs[alone.catalog]->id};
      BOOST_TEST(cost_of(alone.purchase) == cost_of(compared.book, limits));
      BOOST_TEST(is_sound(compared, alone.purchase));
    }
    std::int64_t fewer = kNever;
    for (std::size_t k = 0; k < compared.comparison.front.size(); ++k) {
      BuyLimits limits = compared.limits;
      limits.most_suppliers = static_cast<int>(k) + 1;
      const std::int64_t cost = cost_of(compared.comparison.front[k]);
      BOOST_TEST(cost == cost_of(compared.book, limits));
      BOOST_TEST(cost <= fewer);
      fewer = cost;
    }
    if (!compared.comparison.front.empty()) BOOST_TEST(fewer == compared.best());
    for (const SupplierAnswer& without : compared.comparison.without) {
      BuyLimits limits = compared.limits;
      limits.avoid_suppliers.push_back(compared.book.catalogs[without.catalog]->id);
      BOOST_TEST(cost_of(without.purchase) == cost_of(compared.book, limits));
    }
  });
}

BOOST_AUTO_TEST_CASE(loose_parts_and_each_bundle) {
  int losing = 0, chosen = 0;
  for_each_book(kPlain, [&](const Compared& compared) {
    if (compared.comparison.loose) {
      BuyLimits limits = compared.limits;
      limits.no_bundles = true;
      BOOST_TEST(cost_of(*compared.comparison.loose) == cost_of(compared.book, limits));
    }
    for (const BundleVerdict& verdict : compared.comparison.bundles) {
      if (verdict.chosen) {
        const OfferBook without = changed(compared.book, verdict.catalog,
                                          [&](Catalog& catalog) { catalog.bundles[verdict.bundle].stock = 0; });
        BOOST_TEST(cost_of(verdict.without) == cost_of(without, compared.limits));
        BOOST_TEST(is_sound(compared, verdict.without));
        ++chosen;
      } else if (verdict.useful) {
        BuyLimits limits = compared.limits;
        limits.take_bundle = compared.book.catalogs[verdict.catalog]->bundles[verdict.bundle].sku;
        if (!compared.limits.take_bundle) {
          BOOST_TEST(cost_of(verdict.with) == cost_of(compared.book, limits));
          if (verdict.with.outcome == Outcome::bought) BOOST_TEST(audit(compared.book, limits, verdict.with).empty());
        }
        BOOST_TEST(is_sound(compared, verdict.with));
        ++losing;
      }
    }
  });
  BOOST_TEST(losing > 0);
  BOOST_TEST(chosen > 0);
}

// At every price from nothing to today's.
BOOST_AUTO_TEST_CASE(a_losing_bundle_turns_exactly_there) {
  int exact = 0, all = 0, paying = 0;
  for_each_book({.close_gaps = true}, [&](const Compared& compared) {
    for (const BundleVerdict& verdict : compared.comparison.bundles) {
      if (verdict.chosen || !verdict.turn || compared.limits.take_bundle) continue;
      ++all;
      exact += verdict.turn->exact;
      const Bundle& bundle = compared.book.catalogs[verdict.catalog]->bundles[verdict.bundle];
      BuyLimits limits = compared.limits;
      limits.take_bundle = bundle.sku;
      std::optional<std::int64_t> highest;
      for (std::int64_t change = 0; change >= -bundle.price.minor && !highest; --change) {
        const OfferBook there = changed(compared.book, verdict.catalog, [&](Catalog& catalog) {
          catalog.bundles[verdict.bundle].price += Money{change};
        });
        if (cost_of(there, limits) < compared.best()) highest = change;
      }
      const Turn& turn = *verdict.turn;
      if (turn.exact) {
        BOOST_TEST(turn.by.has_value() == highest.has_value());
        if (turn.by && highest) BOOST_TEST(turn.by->minor == *highest);
        BOOST_TEST(turn.sure.minor == (highest ? *highest + 1 : -bundle.price.minor));
        paying += turn.by.has_value();
      } else {
        BOOST_TEST(turn.sure.minor > highest.value_or(-kNever));
        if (turn.by) BOOST_TEST(turn.by->minor <= highest.value_or(-kNever));
      }
    }
  });
  BOOST_TEST(paying > 0);
  // Fees that rise with the order leave a gap, and the answer says so; a small sample may not meet one.
  if (TEETALLY_EVERY == 1) BOOST_TEST(exact < all);
}

// At every price from today's to the turn.
BOOST_AUTO_TEST_CASE(a_chosen_offer_turns_exactly_there) {
  int exact = 0, all = 0, turns = 0;
  const auto check = [&](const Compared& compared, int c, const std::optional<Turn>& turn, const Purchase& without,
                         const auto& move) {
    ++all;
    if (!turn || !turn->exact) return;
    ++exact;
    if (!turn->by) {
      BOOST_TEST((without.outcome == Outcome::infeasible));
      return;
    }
    turns += turn->by->minor > 0;
    for (std::int64_t change = 0; change <= turn->by->minor; ++change) {
      const OfferBook there = changed(compared.book, c, [&](Catalog& catalog) { move(catalog, Money{change}); });
      const std::int64_t cost = cost_of(there, compared.limits);
      if (change < turn->by->minor) BOOST_TEST(cost < without.total.minor);
      if (change == turn->by->minor) BOOST_TEST(cost == without.total.minor);
    }
  };
  for_each_book({.lines = true}, [&](const Compared& compared) {
    for (const BundleVerdict& verdict : compared.comparison.bundles) {
      if (!verdict.chosen) continue;
      check(compared, verdict.catalog, verdict.turn, verdict.without,
            [&](Catalog& catalog, Money by) { catalog.bundles[verdict.bundle].price += by; });
    }
    for (const LineVerdict& line : compared.comparison.lines) {
      check(compared, line.catalog, line.turn, line.without, [&](Catalog& catalog, Money by) {
        for (PriceBreak& step : catalog.items[line.item].packs[line.pack].prices) step.price += by;
      });
    }
  });
  BOOST_TEST(turns > 0);
  BOOST_TEST(exact * 10 >= all * 9, exact << " of " << all << " turns are exact");
}

BOOST_AUTO_TEST_CASE(one_more_and_one_fewer) {
  for_each_book({.break_evens = false, .needs = true}, [](const Compared& compared) {
    for (const NeedVerdict& verdict : compared.comparison.needs) {
      OfferBook book = compared.book;
      Need& need = book.takeoff.needs[verdict.need];
      need.amount += 1;
      const std::int64_t more = cost_of(book, compared.limits);
      BOOST_TEST(verdict.one_more.has_value() == (more != kNever));
      if (verdict.one_more) {
        BOOST_TEST(verdict.one_more->most.value().minor == more - compared.best());
        BOOST_TEST((verdict.one_more->least == *verdict.one_more->most));
        BOOST_TEST(verdict.one_more->least.minor >= 0);
      }
      need.amount -= 2;
      const std::int64_t fewer = cost_of(book, compared.limits);
      BOOST_TEST_REQUIRE(verdict.one_fewer.has_value());
      BOOST_TEST(verdict.one_fewer->most.value().minor == compared.best() - fewer);
      BOOST_TEST((verdict.one_fewer->least == *verdict.one_fewer->most));
      BOOST_TEST(verdict.one_fewer->least.minor >= 0);
    }
  });
}

// Against the cheapest order for every set of suppliers and bundles that could be done without.
BOOST_AUTO_TEST_CASE(really_different_plans) {
  int several = 0;
  for_each_book({.break_evens = false, .plans = 10}, [&](const Compared& compared) {
    const std::vector<Purchase>& plans = compared.comparison.plans;
    BOOST_TEST_REQUIRE(!plans.empty());
    BOOST_TEST((compared.comparison.plans_end == (plans.size() < 10 ? PlansEnd::no_other : PlansEnd::enough)));
    BOOST_TEST(plans.front().total.minor == compared.best());
    std::vector<std::pair<int, int>> all;
    for (std::size_t c = 0; c < compared.book.catalogs.size(); ++c) {
      all.emplace_back(c, -1);
      for (std::size_t b = 0; b < compared.book.catalogs[c]->bundles.size(); ++b) all.emplace_back(c, b);
    }
    std::vector<std::int64_t> cost(1u << all.size(), kNever);
    for (std::size_t set = 0; set < cost.size(); ++set) {
      OfferBook book = compared.book;
      BuyLimits limits = compared.limits;
      for (std::size_t i = 0; i < all.size(); ++i) {
        if ((set >> i & 1u) == 0) continue;
        const auto [c, b] = all[i];
        if (b < 0) limits.avoid_suppliers.push_back(book.catalogs[c]->id);
        if (b >= 0) book = changed(book, c, [b = b](Catalog& catalog) { catalog.bundles[b].stock = 0; });
      }
      cost[set] = cost_of(book, limits);
    }
    std::vector<std::size_t> marks;
    for (std::size_t p = 0; p <= plans.size() && p < 10; ++p) {
      std::int64_t next = kNever;
      for (std::size_t set = 0; set < cost.size(); ++set) {
        if (std::all_of(marks.begin(), marks.end(), [&](std::size_t m) { return (m & set) != 0; })) {
          next = std::min(next, cost[set]);
        }
      }
      BOOST_TEST((p < plans.size() ? cost_of(plans[p]) : kNever) == next);
      if (p == plans.size()) break;
      BOOST_TEST(is_sound(compared, plans[p]));
      const auto mine = marks_of(plans[p]);
      std::size_t bits = 0;
      for (std::size_t i = 0; i < all.size(); ++i) bits |= mine.contains(all[i]) ? std::size_t{1} << i : 0;
      for (const std::size_t other : marks) BOOST_TEST((other & ~bits) != 0u);
      marks.push_back(bits);
    }
    several += plans.size() > 2;
  });
  BOOST_TEST(several > 0);
}

// Without steps in the ordering terms each order's cost is a line over one price, and the cheapest is concave.
BOOST_AUTO_TEST_CASE(cost_is_concave_in_one_price) {
  int bent = 0;
  for (unsigned seed = kFirstSeed; seed < kFirstSeed + kBooks / 3; seed += TEETALLY_EVERY) {
    const RandomPurchase random = random_purchase(seed);
    OfferBook book = random.made.book();
    for (std::size_t c = 0; c < book.catalogs.size(); ++c) {
      book = changed(book, static_cast<int>(c), [&](Catalog& catalog) { catalog.terms = flat_shipping(7); });
    }
    const Item& item = book.catalogs.front()->items.front();
    if (item.packs.empty()) continue;
    std::vector<std::int64_t> costs;
    for (std::int64_t more = 0; more < 12; ++more) {
      const OfferBook there = changed(book, 0, [&](Catalog& catalog) {
        for (PriceBreak& step : catalog.items.front().packs.front().prices) step.price += Money{more};
      });
      costs.push_back(cost_of(there, plainly(random.limits)));
    }
    if (costs.front() == kNever) continue;
    for (std::size_t i = 2; i < costs.size(); ++i) {
      BOOST_TEST(costs[i] - costs[i - 1] <= costs[i - 1] - costs[i - 2], "seed " << seed);
      bent += costs[i] - costs[i - 1] < costs[i - 1] - costs[i - 2];
    }
  }
  if (TEETALLY_EVERY == 1) BOOST_TEST(bent > 0);
}

BOOST_AUTO_TEST_SUITE_END()
