// What was quoted comes back as it was, and is never changed.
#include "teetally/store/quotes.h"

#include <boost/test/unit_test.hpp>

#include "store/open_store.h"
#include "store/sqlite.h"
#include "unit/store/scratch_store.h"

using namespace scratch;

namespace {

// Every field filled with something of its own.
Quote quote() {
  Quote q;
  CustomerCopy& c = q.copy;
  c.name = "Kitchen garden";
  c.business = "Reedwater";
  c.customer = "Robert'); DROP TABLE quote;--";
  c.site = "3 Mill Lane";
  c.scope = "two beds\nand a line";
  c.made_on = "2026-04-30";
  c.valid_until = "2026-12-31";
  c.currency = {"KWD", 3};
  c.parts = {{"tee", "4"}, {"tubing", "84 ft"}};
  c.sections = {{"Materials", {1100}}, {"Labour", {2200}}};
  c.price = {3300};
  c.tax_words = "Tax 5 %";
  c.tax = {165};
  c.total = {3465};
  c.payments = {{"Deposit", {1000}}, {"On completion", {2465}}};
  c.exclusions = {"Trenching"};
  c.cautions = {"Mind the dog", "", "Mind the dog"};
  CostSheet& s = q.costs;
  s.lines = {{CostPart::material, "mill", "T1", "Tee", 4, Money{250}, {1000}},
             {CostPart::labour, "", "", "fitting", 150, std::nullopt, {2000}}};
  s.materials = {1000};
  s.labour = {2000};
  s.equipment = {1};
  s.delivery = {2};
  s.overhead = {3};
  s.contingency = {4};
  s.profit = {290};
  s.profit_words = "markup 10 % of the cost";
  s.taxable = {3300};
  s.notes = {"a note"};
  return q;
}

std::vector<OrderedFrom> orders() {
  OrderedLine tees{"T1", "Tee", false, 1, {}, 4, {}, {1000}};
  OrderedLine bundle{"B1", "All of it", true, 1, {}, 2, {{"T1", "", 1}, {"P1", "P2", 2}}, {2000}};
  OrderedLine coil{"C1", "Tubing", false, 1, feet(100), 1, {}, {700}};
  return {{"mill", "Mill Parts", {tees, bundle}, {{3000}, {10}, {20}, {30}, {40}, {3080}}},
          {"birch", "Birch Parts", {coil}, {{700}, {}, {}, {}, {}, {700}}}};
}

// All of an order in one text, to compare.
std::string words(const std::vector<OrderedFrom>& all) {
  std::string out;
  for (const OrderedFrom& order : all) {
    const OrderCost& c = order.cost;
    out += order.supplier + "," + order.name;
    for (const Money m : {c.goods, c.discount, c.shipping, c.small_order_fee, c.tax, c.total}) {
      out += "," + std::to_string(m.minor);
    }
    for (const OrderedLine& line : order.lines) {
      out += "\n  " + line.sku + "," + line.what + "," + (line.bundle ? "bundle" : "pack");
      for (const std::int64_t n : {line.pieces, line.length.tenths_mm, line.count, line.goods.minor}) {
        out += "," + std::to_string(n);
      }
      for (const OrderedChange& change : line.changes) {
        out += ";" + change.content + ">" + change.swap + "*" + std::to_string(change.times);
      }
    }
    out += "\n";
  }
  return out;
}

void check_equal(const CustomerCopy& a, const CustomerCopy& b) {
  BOOST_TEST(a.name == b.name);
  BOOST_TEST(a.business == b.business);
  BOOST_TEST(a.customer == b.customer);
  BOOST_TEST(a.site == b.site);
  BOOST_TEST(a.scope == b.scope);
  BOOST_TEST(a.made_on == b.made_on);
  BOOST_TEST(a.valid_until.value_or("") == b.valid_until.value_or(""));
  BOOST_TEST((a.currency == b.currency));
  BOOST_TEST(a.price.minor == b.price.minor);
  BOOST_TEST(a.tax_words == b.tax_words);
  BOOST_TEST(a.tax.minor == b.tax.minor);
  BOOST_TEST(a.total.minor == b.total.minor);
  BOOST_TEST_REQUIRE(a.parts.size() == b.parts.size());
  for (std::size_t i = 0; i < a.parts.size(); ++i) {
    BOOST_TEST((a.parts[i].what == b.parts[i].what && a.parts[i].amount == b.parts[i].amount));
  }
  BOOST_TEST_REQUIRE(a.sections.size() == b.sections.size());
  for (std::size_t i = 0; i < a.sections.size(); ++i) {
    BOOST_TEST((a.sections[i].what == b.sections[i].what && a.sections[i].price == b.sections[i].price));
  }
  BOOST_TEST_REQUIRE(a.payments.size() == b.payments.size());
  for (std::size_t i = 0; i < a.payments.size(); ++i) {
    BOOST_TEST((a.payments[i].what == b.payments[i].what && a.payments[i].amount == b.payments[i].amount));
  }
  BOOST_TEST(a.exclusions == b.exclusions);
  BOOST_TEST(a.cautions == b.cautions);
}

void check_equal(const CostSheet& a, const CostSheet& b) {
  const auto sums = [](const CostSheet& s) {
    return std::vector<std::int64_t>{s.materials.minor, s.labour.minor,      s.equipment.minor, s.delivery.minor,
                                     s.overhead.minor,  s.contingency.minor, s.profit.minor,    s.taxable.minor};
  };
  BOOST_TEST(sums(a) == sums(b));
  BOOST_TEST(a.profit_words == b.profit_words);
  BOOST_TEST(a.notes == b.notes);
  BOOST_TEST_REQUIRE(a.lines.size() == b.lines.size());
  for (std::size_t i = 0; i < a.lines.size(); ++i) {
    const CostLine &x = a.lines[i], &y = b.lines[i];
    BOOST_TEST((x.part == y.part && x.supplier == y.supplier && x.sku == y.sku && x.what == y.what));
    BOOST_TEST((x.count == y.count && x.price == y.price && x.cost == y.cost));
  }
}

}  // namespace

BOOST_AUTO_TEST_SUITE(quotes)

BOOST_AUTO_TEST_CASE(a_quote_comes_back_as_it_was) {
  const std::string path = folder("quote") + "/store.sqlite";
  Quote kept = quote();
  {
    Store store = opened(path);
    keep_quote(store, kept, orders());
  }
  BOOST_TEST(kept.copy.number == 1);
  Diagnostics diagnostics;
  const auto read = read_quote(opened(path, StoreUse::read), 1, std::nullopt, diagnostics);
  BOOST_TEST_REQUIRE(read.has_value());
  check_equal(read->quote.copy, kept.copy);
  check_equal(read->quote.costs, kept.costs);
  BOOST_TEST(words(read->orders) == words(orders()));
  BOOST_TEST((read->state == QuoteState::open));
}

BOOST_AUTO_TEST_CASE(a_revision_stands_beside_the_one_before) {
  Store store = opened(folder("revision") + "/store.sqlite");
  Quote first = quote(), second = quote(), other = quote();
  Diagnostics diagnostics;
  keep_quote(store, first, orders());
  keep_quote(store, other, {});
  second.copy.total = {9999};
  revise_quote(store, 1, second, {}, diagnostics);
  BOOST_TEST(second.copy.revision == 2);
  BOOST_TEST(read_quote(store, 1, 1, diagnostics)->quote.copy.total.minor == 3465);
  BOOST_TEST(read_quote(store, 1, std::nullopt, diagnostics)->quote.copy.total.minor == 9999);
  BOOST_TEST(list_quotes(store).size() == 2u);
  BOOST_TEST(!diagnostics.has_errors());
}

BOOST_AUTO_TEST_CASE(nothing_changes_what_was_quoted) {
  Store store = opened(folder("stands") + "/store.sqlite");
  Quote kept = quote();
  keep_quote(store, kept, orders());
  Diagnostics diagnostics;
  settle_quote(store, 1, std::nullopt, QuoteState::accepted, "2026-05-02", diagnostics);
  for (const std::string table :
       {"revision", "revision_line", "cost_line", "supplier_order", "order_line", "settlement"}) {
    BOOST_CHECK_THROW(store.database().run("DELETE FROM " + table), WorldFailure);
  }
  BOOST_CHECK_THROW(store.database().run("UPDATE revision SET total = 1"), WorldFailure);
  BOOST_CHECK_THROW(store.database().run("UPDATE cost_line SET cost = 1"), WorldFailure);
}

BOOST_AUTO_TEST_CASE(the_store_of_the_first_version_gains_quotes_and_keeps_its_prices) {
  const std::string path = folder("first-version") + "/store.sqlite";
  Diagnostics diagnostics;
  {
    auto store = open_store(path, StoreUse::write, {store_steps().front()}, diagnostics);
    record_catalogs(*store, {catalog("0.65")}, "2026-04-30");
  }
  Store store = opened(path);
  Quote kept = quote();
  keep_quote(store, kept, orders());
  BOOST_TEST(periods(store, "T1") == "2026-04-30..2026-04-30 0.65");
  BOOST_TEST(fs::exists(path + ".version-1"));
}

BOOST_AUTO_TEST_SUITE_END()
