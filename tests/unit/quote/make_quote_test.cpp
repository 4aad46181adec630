// A quote's arithmetic against published rows, and its sums against each other.
#include <boost/test/unit_test.hpp>

#include "../purchase/hand_made_book.h"
#include "teetally/quote.h"

using namespace teetally;

namespace {

// One shop that sells one item in packs; the whole order is `packs` of it, each for `price`.
struct Bench {
  test::HandMadeBook made;
  OfferBook book;
  Purchase purchase;
  Job job;

  Bench(std::int64_t price, std::int64_t packs, std::int64_t per_pack = 1, std::int64_t needed = -1) {
    const int shop = made.shop({});
    const int item = made.item(shop, {test::pack_of(per_pack, price)});
    made.need(needed < 0 ? packs * per_pack : needed, {item});
    book = made.book();
    purchase = buy(book, {});
    BOOST_TEST_REQUIRE((purchase.outcome == Outcome::bought));
    BOOST_TEST_REQUIRE(purchase.total.minor == price * packs);
  }
  Quote quote() const { return make_quote({book, purchase, job, "2026-04-30", UnitSystem::us}); }
};

void hold_together(const Quote& quote) {
  const CustomerCopy& copy = quote.copy;
  const CostSheet& costs = quote.costs;
  Money lines, sections, payments;
  for (const CostLine& line : costs.lines) lines += line.cost;
  for (const PricedSection& section : copy.sections) sections += section.price;
  for (const Payment& payment : copy.payments) payments += payment.amount;
  const Money direct = costs.materials + costs.labour + costs.equipment + costs.delivery;
  BOOST_TEST(lines.minor == direct.minor);
  BOOST_TEST(sections.minor == copy.price.minor);
  BOOST_TEST((direct + costs.overhead + costs.contingency + costs.profit).minor == copy.price.minor);
  BOOST_TEST((copy.price + copy.tax).minor == copy.total.minor);
  BOOST_TEST(payments.minor == copy.total.minor);
}

Money with_markup(std::int64_t cost, std::int64_t ppm) {
  Bench bench(cost, 1);
  bench.job.profit_rule = ProfitRule::markup;
  bench.job.profit = {ppm};
  hold_together(bench.quote());
  return bench.quote().copy.price;
}

Quote taxed(std::int64_t cost, std::int64_t ppm) {
  Bench bench(cost, 1);
  bench.job.tax_basis = TaxBasis::materials;
  bench.job.tax = {ppm};
  hold_together(bench.quote());
  return bench.quote();
}

}  // namespace

BOOST_AUTO_TEST_SUITE(making_a_quote)

// OpenStax, Contemporary Mathematics, section "Discounts, Markups, and Sales Tax". Where the book asks for the
// cost, the price is computed back from it; for 26.55 its working prints "1 + 2.25", and 26.55 / 2.25 = 11.80.
BOOST_AUTO_TEST_CASE(published_markups) {
  BOOST_TEST(with_markup(6200, 150'000).minor == 7130);
  BOOST_TEST(with_markup(75000, 450'000).minor == 108750);
  BOOST_TEST(with_markup(9000, 150'000).minor == 10350);
  BOOST_TEST(with_markup(520, 903'800).minor == 990);  // 9.90 from 5.20 is 90.38 %
  BOOST_TEST(with_markup(885, 200'000).minor == 1062);
  BOOST_TEST(with_markup(1180, 1'250'000).minor == 2655);
  BOOST_TEST(with_markup(130, 600'000).minor == 208);
  BOOST_TEST(with_markup(48000, 750'000).minor == 84000);
  BOOST_TEST(with_markup(2500, 180'000).minor == 2950);
}

// The same section. For 428.99 the book prints a total of 464.87; its own tax of 35.39 makes 464.38.
BOOST_AUTO_TEST_CASE(published_taxes) {
  BOOST_TEST(taxed(3488, 82'500).copy.tax.minor == 288);
  BOOST_TEST(taxed(3488, 82'500).copy.total.minor == 3776);
  BOOST_TEST(taxed(42899, 82'500).copy.tax.minor == 3539);
  BOOST_TEST(taxed(42899, 82'500).copy.total.minor == 46438);
  BOOST_TEST(taxed(32950, 75'000).copy.total.minor == 35421);
}

// markup = margin / (1 - margin), by algebra from price = cost / (1 - margin).
BOOST_AUTO_TEST_CASE(a_margin_is_not_a_markup) {
  BOOST_TEST(price_with_margin({9000}, {100'000}).minor == 10000);
  BOOST_TEST(price_with_margin({10000}, {200'000}).minor == 12500);
  BOOST_TEST(price_with_margin({7500}, {250'000}).minor == 10000);
  BOOST_TEST(price_with_margin({7000}, {300'000}).minor == 10000);
  BOOST_TEST(price_with_margin({6000}, {400'000}).minor == 10000);
  BOOST_TEST(price_with_margin({5000}, {500'000}).minor == 10000);
  BOOST_TEST(price_with_margin({1}, {500'000}).minor == 2);
  Bench bench(7500, 1);
  bench.job.profit_rule = ProfitRule::margin;
  bench.job.profit = {250'000};
  BOOST_TEST(bench.quote().copy.price.minor == 10000);
}

// Twenty fittings at 1.40 hours with a factor of 0.9 are 1.26 hours each, 25.2 in all: an estimator's text of the
// middle of the 20th century. The method is what is checked; the figures are for galvanised steel.
BOOST_AUTO_TEST_CASE(hours_by_the_table) {
  Bench bench(100, 20);
  LabourRow row;
  row.kind = "other";
  row.hours = 14'000;
  bench.job.labour.rate = {3000};
  bench.job.labour.time_factor = 9'000;
  bench.job.labour.rows = {row};
  bench.job.overhead.per_hour = {2000};
  const Quote quote = bench.quote();
  BOOST_TEST(quote.costs.lines.back().count == 2520);
  BOOST_TEST(quote.costs.labour.minor == 75600);
  BOOST_TEST(quote.costs.overhead.minor == 50400);
  hold_together(quote);
}

BOOST_AUTO_TEST_CASE(spares_and_waste_take_no_hours) {
  Bench bench(100, 5);
  bench.book.takeoff.needs[0].reasons = {{ReasonClass::design, "", "", "", 3, {}},
                                         {ReasonClass::spare, "", "", "", 2, {}}};
  LabourRow row;
  row.kind = "other";
  row.hours = 10'000;
  bench.job.labour.rows = {row};
  BOOST_TEST(bench.quote().costs.lines.back().count == 300);
}

BOOST_AUTO_TEST_CASE(surplus_that_is_kept_is_not_charged) {
  Bench bench(1000, 1, 10, 7);
  BOOST_TEST(bench.quote().costs.materials.minor == 1000);
  bench.job.surplus = SurplusPolicy::kept;
  BOOST_TEST(bench.quote().costs.materials.minor == 700);
  hold_together(bench.quote());
}

// By hand: cost 100 at a margin of 20 % is 125; with an allowance of 60 it is 160 / 0.8 = 200, and three of the pieces
// are 300 / 0.8 = 375.
BOOST_AUTO_TEST_CASE(options_are_priced_like_the_quote) {
  Bench bench(10000, 1), larger(10000, 3);
  bench.job.profit_rule = ProfitRule::margin;
  bench.job.profit = {200'000};
  bench.job.options.resize(3);
  bench.job.options[0].name = "as it is";
  bench.job.options[1].name = "larger";
  bench.job.options[1].design = "larger.yaml";
  bench.job.options[2].name = "with an allowance";
  bench.job.options[2].allowance = Money{6000};
  Quote quote = bench.quote();
  add_options(quote, {bench.book, bench.purchase, bench.job, "2026-04-30", UnitSystem::us},
              {{larger.book, larger.purchase, std::nullopt}});
  BOOST_TEST_REQUIRE(quote.copy.options.size() == 3u);
  BOOST_TEST(quote.copy.options[0].total.minor == quote.copy.total.minor);
  BOOST_TEST(quote.copy.options[0].price.minor == 12500);
  BOOST_TEST(quote.copy.options[1].price.minor == 37500);
  BOOST_TEST(quote.copy.options[2].price.minor == 20000);
  for (std::size_t i = 0; i < 3; ++i) {
    const OptionCosts& costs = quote.costs.options[i];
    BOOST_TEST((costs.cost + costs.profit).minor == quote.copy.options[i].price.minor);
    BOOST_TEST(costs.margin.ppm == 200'000);
  }
  hold_together(quote);
}

BOOST_AUTO_TEST_CASE(beds_are_counted_where_the_job_does_not_say) {
  Bench bench(100, 1);
  LabourRow row;
  row.per_bed = true;
  row.hours = 10'000;
  bench.job.labour.rows = {row};
  const auto hours = [&] {
    return make_quote({bench.book, bench.purchase, bench.job, "2026-04-30", UnitSystem::us, 3})
        .costs.lines.back()
        .count;
  };
  BOOST_TEST(hours() == 300);
  bench.job.beds = 2;
  BOOST_TEST(hours() == 200);
}

BOOST_AUTO_TEST_CASE(the_tax_has_its_basis) {
  Bench bench(10000, 1);
  bench.job.equipment = {{"trencher", {5000}}};
  LabourRow row;
  row.hours = 20'000;
  bench.job.labour.rate = {2500};
  bench.job.labour.rows = {row};
  bench.job.tax = {100'000};
  const auto total = [&](TaxBasis basis) {
    bench.job.tax_basis = basis;
    hold_together(bench.quote());
    return bench.quote().copy.total.minor;
  };
  BOOST_TEST(total(TaxBasis::none) == 20000);
  BOOST_TEST(total(TaxBasis::materials) == 21000);
  BOOST_TEST(total(TaxBasis::materials_and_labour) == 21500);
  BOOST_TEST(total(TaxBasis::everything) == 22000);
  BOOST_TEST(total(TaxBasis::absorbed) == 21000);
  BOOST_TEST(bench.quote().copy.tax.minor == 0);
}

// The cap of 1,000 or 10 %, whichever is less, is what California's contractors board allows as a down payment.
BOOST_AUTO_TEST_CASE(a_deposit_keeps_under_its_cap) {
  Bench bench(2'000'000, 1);
  bench.job.payments = {{"Deposit", {100'000}, Money{100'000}}, {"Parts on site", {500'000}, {}}};
  const auto payments = bench.quote().copy.payments;
  BOOST_TEST_REQUIRE(payments.size() == 3u);
  BOOST_TEST(payments[0].amount.minor == 100'000);
  BOOST_TEST(payments[1].amount.minor == 1'000'000);
  BOOST_TEST(payments[2].amount.minor == 900'000);
}

BOOST_AUTO_TEST_CASE(no_payment_is_more_than_what_is_left) {
  Bench bench(1000, 1);
  bench.job.payments = {{"first", {600'000}, {}}, {"second", {600'000}, {}}};
  const auto payments = bench.quote().copy.payments;
  BOOST_TEST_REQUIRE(payments.size() == 2u);
  BOOST_TEST(payments[0].amount.minor == 600);
  BOOST_TEST(payments[1].amount.minor == 400);
}

// The supplier's tax is a cost, and no tax is reckoned on it once more.
BOOST_AUTO_TEST_CASE(absorbed_tax_is_on_materials_before_their_own) {
  test::HandMadeBook made;
  OrderingTerms terms;
  terms.tax = {100'000};
  made.need(1, {made.item(made.shop(terms), {test::pack_of(1, 10'000)})});
  const OfferBook book = made.book();
  Job job;
  job.tax_basis = TaxBasis::absorbed;
  job.tax = {100'000};
  const Quote quote = make_quote({book, buy(book, {}), job, "2026-04-30", UnitSystem::us});
  BOOST_TEST(quote.copy.total.minor == 10'000 + 1'000 + 1'000);
}

BOOST_AUTO_TEST_CASE(the_prices_of_two_suppliers_hold_until_the_earlier_ends) {
  test::HandMadeBook made;
  for (int shop = 0; shop < 2; ++shop) made.need(1, {made.item(made.shop({}), {test::pack_of(1, 100)})});
  OfferBook book = made.book();
  for (const auto& [at, day] : {std::pair{0, "2026-09-30"}, std::pair{1, "2026-12-31"}}) {
    Catalog catalog = *book.catalogs[at];
    catalog.valid_until = day;
    book.catalogs[at] = std::make_shared<const Catalog>(catalog);
  }
  const Quote quote = make_quote({book, buy(book, {}), {}, "2026-04-30", UnitSystem::us});
  BOOST_TEST(quote.copy.valid_until.value_or("") == "2026-09-30");
}

// Odd amounts everywhere: whatever is rounded, what is printed adds up.
BOOST_AUTO_TEST_CASE(everything_adds_up) {
  for (std::int64_t n = 1; n < 400; n += 7) {
    Bench bench(n * 31 + 1, 3, 7, 15);
    Job& job = bench.job;
    LabourRow row;
    row.kind = "other";
    row.hours = 333 + n;
    job.labour.rate = {3333};
    job.labour.time_factor = 11'111;
    job.labour.rows = {row};
    job.delivery = {{"van", {n}}};
    job.overhead = {{77'777}, {133}, {n % 13}};
    job.contingency = {33'333};
    job.profit_rule = n % 2 == 0 ? ProfitRule::markup : ProfitRule::margin;
    job.profit = {171'717};
    job.surplus = n % 3 == 0 ? SurplusPolicy::kept : SurplusPolicy::charged;
    job.tax_basis = static_cast<TaxBasis>(n % 5);
    job.tax = {82'500};
    job.payments = {{"first", {333'333}, {}}, {"second", {333'333}, {}}};
    hold_together(bench.quote());
  }
}

// Its last day speaks for the prices of those alone whose catalogs have one.
BOOST_AUTO_TEST_CASE(prices_without_an_end_are_named) {
  Bench bench(100, 1);
  const auto note = [&] { return bench.quote().costs.notes.back(); };
  BOOST_TEST(note().find("how long the prices hold: ") == 0u, note());
  BOOST_TEST(note().find(bench.book.catalogs.front()->id) != std::string::npos, note());
  Catalog ending = *bench.book.catalogs.front();
  ending.valid_until = "2026-12-31";
  bench.book.catalogs.front() = std::make_shared<const Catalog>(ending);
  BOOST_TEST(note().find("how long") == std::string::npos, note());
  BOOST_TEST(bench.quote().copy.valid_until.value_or("") == "2026-12-31");
}

BOOST_AUTO_TEST_CASE(spreading_loses_nothing) {
  const auto shares = spread({100}, {{1}, {1}, {1}});
  BOOST_TEST(shares[0].minor == 34);
  BOOST_TEST(shares[1].minor == 33);
  BOOST_TEST(shares[2].minor == 33);
  BOOST_TEST(spread({5}, {{0}, {0}})[0].minor == 5);
}

BOOST_AUTO_TEST_SUITE_END()
