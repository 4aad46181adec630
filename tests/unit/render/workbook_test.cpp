// Workbooks, read back from the bytes: formulas with their results, text that stays text, nothing of the costs in the
// customer's copy, and no clock.
#include "render/workbook.h"

#include <zlib.h>

#include <boost/test/unit_test.hpp>
#include <map>
#include <memory>

#include "teetally/render/workbooks.h"

using namespace teetally;

namespace {

std::size_t number_at(const std::string& bytes, std::size_t at, std::size_t size) {
  std::size_t value = 0;
  for (std::size_t i = size; i-- > 0;) value = value * 256 + static_cast<unsigned char>(bytes[at + i]);
  return value;
}

std::string inflated(const std::string& packed, std::size_t size) {
  std::string out(size, '\0');
  z_stream stream{};
  BOOST_REQUIRE(inflateInit2(&stream, -MAX_WBITS) == Z_OK);
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(packed.data()));
  stream.avail_in = static_cast<uInt>(packed.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  BOOST_TEST(inflate(&stream, Z_FINISH) == Z_STREAM_END);
  inflateEnd(&stream);
  return out;
}

// The files in a ZIP archive, by its central directory (APPNOTE 6.3, 4.3.12).
std::map<std::string, std::string> unzipped(const std::string& bytes) {
  std::map<std::string, std::string> files;
  const std::string mark = {'P', 'K', 1, 2};
  for (std::size_t at = bytes.find(mark); at != std::string::npos; at = bytes.find(mark, at + 4)) {
    const std::size_t method = number_at(bytes, at + 10, 2), packed = number_at(bytes, at + 20, 4);
    const std::size_t size = number_at(bytes, at + 24, 4), local = number_at(bytes, at + 42, 4);
    const std::string name = bytes.substr(at + 46, number_at(bytes, at + 28, 2));
    const std::size_t start = local + 30 + number_at(bytes, local + 26, 2) + number_at(bytes, local + 28, 2);
    const std::string data = bytes.substr(start, packed);
    files[name] = method == 0 ? data : inflated(data, size);
  }
  return files;
}

// "E5: C5*D5 = 4.5" for each formula of a sheet.
std::string formulas(const std::string& sheet) {
  std::string found;
  for (std::size_t at = sheet.find("<f>"); at != std::string::npos; at = sheet.find("<f>", at + 1)) {
    const std::size_t cell = sheet.rfind("<c r=\"", at) + 6, value = sheet.find("<v>", at) + 3;
    found += sheet.substr(cell, sheet.find('"', cell) - cell) + ": " +
             sheet.substr(at + 3, sheet.find("</f>", at) - at - 3) + " = " +
             sheet.substr(value, sheet.find('<', value) - value) + "\n";
  }
  return found;
}

Item item(const std::string& sku, std::vector<PriceBreak> prices, BreakRule rule) {
  Item made;
  made.sku = sku;
  made.name = "=cmd|' /C calc'!A0";
  Pack pack;
  pack.prices = std::move(prices);
  pack.rule = rule;
  made.packs = {pack};
  return made;
}

// Two suppliers' worth of rules in one: a fixed price, all-units steps, incremental steps, discount, shipping, fee,
// tax.
struct Order {
  OfferBook book;
  Purchase purchase;
};
Order order() {
  Catalog catalog;
  catalog.id = "mill";
  catalog.name = "A [mill] / \"daughter\" & Sons: a very long name";
  catalog.items = {item("M-1", {{1, Money{150}}}, BreakRule::all_units),
                   item("M-2", {{1, Money{200}}, {5, Money{180}}}, BreakRule::all_units),
                   item("M-3", {{1, Money{100}}, {3, Money{90}}}, BreakRule::incremental)};
  catalog.terms.discounts = {{Money{1000}, Percent{50'000}}, {Money{100'000}, Percent{80'000}}};
  catalog.terms.shipping = {{Money{0}, Money{795}}, {Money{9000}, Money{0}}};
  catalog.terms.small_order_below = Money{2000};
  catalog.terms.small_order_fee = Money{250};
  catalog.terms.tax = Percent{82'500};
  Order made;
  SupplierOrder one;
  one.catalog = 0;
  Money goods;
  const std::int64_t counts[] = {2, 6, 5};
  for (int i = 0; i < 3; ++i) {
    OrderLine line;
    line.catalog = 0;
    line.item = i;
    line.pack = 0;
    line.count = counts[i];
    line.goods = price_of(catalog.items[static_cast<std::size_t>(i)].packs[0], line.count);
    goods += line.goods;
    one.lines.push_back(line);
  }
  one.cost = landed_cost(catalog.terms, goods);
  made.purchase.outcome = Outcome::bought;
  made.purchase.total = one.cost.total;
  made.purchase.orders = {one};
  made.book.catalogs = {std::make_shared<const Catalog>(catalog)};
  return made;
}

std::map<std::string, std::string> order_files() {
  const Order made = order();
  return unzipped(order_workbook({made.book, made.purchase, nullptr}, UnitSystem::us, "2026-04-30"));
}

Quote quote() {
  Quote made;
  made.copy.customer = "=1+1";
  made.copy.made_on = "2026-04-30";
  made.copy.sections = {{"Materials", Money{4000}}, {"Labour", Money{6000}}};
  made.copy.price = Money{10'000};
  made.copy.tax_words = "Tax 8 % on materials";
  made.copy.tax = Money{320};
  made.copy.total = Money{10'320};
  made.copy.payments = {{"Deposit", Money{1000}}, {"On completion", Money{9320}}};
  CostLine line;
  line.supplier = "alder";
  line.sku = "A-T";
  line.what = "Barbed tee";
  line.count = 5;
  line.price = Money{1600};
  line.cost = Money{8000};
  made.costs.lines = {line};
  made.costs.materials = Money{8000};
  made.costs.profit = Money{2000};
  made.costs.profit_words = "margin 20 %";
  made.copy.options = {{"Better", "More of it", Money{20'000}, Money{640}, Money{20'640}}};
  made.costs.options = {{"Better", Money{16'666}, Money{3334}, Percent{166'700}}};
  return made;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(workbooks)

BOOST_AUTO_TEST_CASE(an_order_calculates_by_the_suppliers_own_terms) {
  const auto files = order_files();
  BOOST_TEST(formulas(files.at("xl/worksheets/sheet2.xml")) ==
             "E5: C5*D5 = 3\n"
             "D6: IF(C6&gt;=5,1.80,IF(C6&gt;=1,2.00,0)) = 1.8\n"
             "E6: C6*D6 = 10.8\n"
             "E7: C7*1.00+MAX(0,C7-2)*(0.90-1.00) = 4.7\n"
             "E8: SUM(E5:E7) = 18.5\n"
             "E9: -ROUND(E8*IF(E8&gt;=1000.00,0.080000,IF(E8&gt;=10.00,0.050000,0)),2) = -0.93\n"
             "E10: IF((E8+E9)&gt;=90.00,0.00,IF((E8+E9)&gt;=0.00,7.95,0)) = 7.95\n"
             "E11: IF((E8+E9)&lt;20.00,2.50,0) = 2.5\n"
             "E12: ROUND((E8+E9)*0.082500,2) = 1.45\n"
             "E13: SUM(E8:E12) = 29.47\n");
  BOOST_TEST(formulas(files.at("xl/worksheets/sheet1.xml")) ==
             "B4: '1 A  mill    \"daughter\" &amp; Sons'!E13 = 29.47\n"
             "B5: SUM(B4:B4) = 29.47\n");
}

BOOST_AUTO_TEST_CASE(text_is_never_a_formula) {
  const auto files = order_files();
  BOOST_TEST(files.at("xl/sharedStrings.xml").find("<t>=cmd|' /C calc'!A0</t>") != std::string::npos);
  for (const auto& [name, text] : files) BOOST_TEST(formulas(text).find("cmd") == std::string::npos, name);
}

BOOST_AUTO_TEST_CASE(the_same_order_is_the_same_bytes) {
  const Order made = order();
  const OrderView view{made.book, made.purchase, nullptr};
  BOOST_TEST(
      (order_workbook(view, UnitSystem::us, "2026-04-30") == order_workbook(view, UnitSystem::us, "2026-04-30")));
  BOOST_TEST(order_files().at("docProps/core.xml").find("2026-04-30T12:00:00Z") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(the_customers_workbook_knows_no_cost) {
  const auto files = unzipped(quote_workbook(quote().copy));
  BOOST_TEST(formulas(files.at("xl/worksheets/sheet1.xml")) ==
             "B8: SUM(B6:B7) = 100\n"
             "B10: B8+B9 = 103.2\n"
             "B14: B10-SUM(B13:B13) = 93.2\n");
  for (const auto& [name, text] : files) {
    for (const char* secret : {"alder", "A-T", "Barbed", "rofit", "argin", "Cost", "80.00", "166.66", "33.34"}) {
      const bool of_the_page = name.find("worksheets") != std::string::npos && std::string(secret) == "argin";
      if (!of_the_page) BOOST_TEST(text.find(secret) == std::string::npos, name << " holds " << secret);
    }
  }
}

BOOST_AUTO_TEST_CASE(the_internal_workbook_goes_from_cost_to_price) {
  const auto files = unzipped(internal_quote_workbook(quote()));
  BOOST_TEST(formulas(files.at("xl/worksheets/sheet2.xml")) ==
             "F4: ROUND(D4*E4,2) = 80\n"
             "F6: SUM(F4:F4) = 80\n"
             "F7: ROUND(E7*F6,2) = 0\n"
             "F8: F6+F7 = 80\n"
             "F9: ROUND(E9*F8,2) = 0\n"
             "F10: F8+F9 = 80\n"
             "F11: ROUND(F10/(1-E11)-F10,2) = 20\n"
             "F12: F10+F11 = 100\n"
             "F13: IF(F12=0,0,F11/F12) = 0.2\n"
             "E16: C16+D16 = 200\n"
             "F16: IF(E16=0,0,D16/E16) = 0.1667\n");
}

// By hand: 23.59 is 8.13 % of 290.27 (23.599) and not 8.1 %; 31.39 is 10 % of 313.86; 86.31 is a margin of 20 % on
// 345.25. 0.05 is half a minor unit from 10 % of 0.45, so that it stands as the ratio it is.
BOOST_AUTO_TEST_CASE(shares_are_those_a_person_knows) {
  const auto shares = [](Money direct, Money overhead, Money contingency, Money profit, const std::string& words) {
    Quote made = quote();
    made.costs.lines[0].price = made.costs.lines[0].cost = direct;
    made.costs.lines[0].count = 1;
    made.costs.overhead = overhead;
    made.costs.contingency = contingency;
    made.costs.profit = profit;
    made.costs.profit_words = words;
    const std::string sheet = unzipped(internal_quote_workbook(made)).at("xl/worksheets/sheet2.xml");
    std::string all;
    for (const std::string cell : {"E7", "E9", "E11"}) {
      const std::size_t at = sheet.find("<v>", sheet.find("r=\"" + cell + "\"")) + 3;
      all += sheet.substr(at, sheet.find("</v>", at) - at) + " ";
    }
    return all;
  };
  BOOST_TEST(shares({29027}, {2359}, {3139}, {8631}, "margin 20 % of the price") == "0.08127 0.1 0.2 ");
  BOOST_TEST(shares({29027}, {2359}, {3139}, {8631}, "markup 25 % of the cost") == "0.08127 0.1 0.25 ");
  BOOST_TEST(shares({10005}, {1001}, {0}, {0}, "") == "0.10005 0 0 ");
}

BOOST_AUTO_TEST_CASE(a_comparison_adds_up) {
  const Order made = order();
  Comparison comparison;
  comparison.best = made.purchase;
  const auto files = unzipped(comparison_workbook({made.book, comparison}, UnitSystem::us, "2026-04-30"));
  BOOST_TEST(formulas(files.at("xl/worksheets/sheet1.xml")) ==
             "H4: SUM(C4:G4) = 29.47\n"
             "I4: H4-H4 = 0\n");
  BOOST_TEST(formulas(files.at("xl/worksheets/sheet2.xml")) ==
             "G2: E2*F2 = 3\n"
             "G3: E3*F3 = 10.8\n");
}

BOOST_AUTO_TEST_CASE(what_is_left_of_a_coil_follows_from_its_cuts) {
  Order made = order();
  Need need;
  need.id = "N01";
  need.by_length = true;
  need.pieces.resize(2);
  made.book.takeoff.needs = {need};
  CutCoil coil;
  coil.catalog = 0;
  coil.item = 0;
  coil.length = feet(100);
  coil.cuts = {{0, 0, feet(10), 1, 1}, {0, 1, feet(20), 1, 1}};
  coil.left = feet(70);
  made.purchase.coils = {coil};
  const OrderView view{made.book, made.purchase, nullptr};
  const auto files = unzipped(cut_list_workbook(view, UnitSystem::us, "2026-04-30"));
  BOOST_TEST(formulas(files.at("xl/worksheets/sheet1.xml")) == "D7: D4-SUM(D5:D6) = 70\n");
}

BOOST_AUTO_TEST_CASE(names_of_sheets_are_accepted_everywhere) {
  BOOST_TEST(sheet_name(2, "a[b]:c*d?e/f\\g'h") == "2 a b  c d e f g h");
  BOOST_TEST(sheet_name(1, std::string(20, 'x') + "\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4").size() == 30u);
}

BOOST_AUTO_TEST_SUITE_END()
