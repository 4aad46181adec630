// Every complaint about a catalog file: what causes it, where it points, and whether the file is still used.
#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "unit/catalog/catalog_text.h"

using namespace catalog_text;

namespace {

struct Complaint {
  std::string slug;
  int line;
  std::string text;
};

std::string tee(const std::string& more) {
  return "  - {sku: T1, part: {kind: tee, size: 1/2 in, branch size: 1/2 in}, " + more + "}\n";
}
std::string tee_pack(const std::string& pack) { return tee("grips: {inside: 0.600 in}, packs: [" + pack + "]"); }
std::string coil(const std::string& fit, const std::string& pack) {
  return "  - {sku: P1, part: {kind: supply tubing, size: 1/2 in}, " + fit + ", packs: [" + pack + "]}\n";
}
const std::string kFit = "inside: 0.600 in, outside: 0.700 in";

const std::vector<Complaint> kErrors = {
    {"catalog/not-a-catalog", 1, "teetally: catalog 2\nsupplier: {id: mill}\n"},
    {"catalog/not-a-catalog", 1, "supplier: {id: mill}\n"},
    {"catalog/not-a-catalog", 1, "teetally: [catalog 1]\n"},
    {"catalog/wrong-type", 1, "- teetally\n"},
    {"catalog/bad-id", 2, "teetally: catalog 1\nsupplier: {id: The Old Mill}\ncurrency: USD\nitems: []\n"},
    {"catalog/bad-id", 2, "teetally: catalog 1\nsupplier: {id: on-hand}\ncurrency: USD\nitems: []\n"},
    {"catalog/missing-key", 2, "teetally: catalog 1\nsupplier: {name: Mill}\ncurrency: USD\nitems: []\n"},
    {"catalog/unknown-currency", 3, "teetally: catalog 1\nsupplier: {id: mill}\ncurrency: USX\nitems: []\n"},
    {"catalog/bad-value", 4, "teetally: catalog 1\nsupplier: {id: mill}\ncurrency: USD\nunits: {length: furlongs}\n"},
    {"catalog/bad-date", 5, with("valid: {from: 2026-02-30}\nitems: []\n")},
    {"catalog/bad-date", 5, with("valid: {until: soon}\nitems: []\n")},
    {"catalog/validity-ends-first", 5, with("valid: {from: 2026-06-01, until: 2026-05-31}\nitems: []\n")},
    {"catalog/unknown-key", 5, with("itmes: []\n")},
    {"catalog/shipping-from-zero", 5, with_ordering("{shipping: [{from: 60, fee: 0}]}")},
    {"catalog/steps-not-rising", 5,
     with_ordering("{shipping: [{from: 0, fee: 5}, {from: 60, fee: 4}, {from: 60, fee: 0}]}")},
    {"catalog/steps-not-rising", 5, with_ordering("{discounts: [{from: 60, percent: 1 %}, {from: 50, percent: 2 %}]}")},
    {"catalog/percent-too-high", 5, with_ordering("{discounts: [{from: 60, percent: 101 %}]}")},
    {"catalog/percent-too-high", 5, with_ordering("{tax: {percent: 825 %}}")},
    {"catalog/missing-key", 5, with_ordering("{small order: {below: 20}}")},
    {"catalog/bad-value", 5, with_ordering("{minimum order: -5}")},
    {"catalog/wrong-type", 5, with_ordering("{shipping: {from: 0, fee: 1}}")},
    {"base/unknown-kind", 6, with_items("  - {sku: T1, part: {kind: teee}, price: 1}\n")},
    {"catalog/unknown-key", 6, with_items(tee("grips: {inside: 0.600 in}, prise: 1"))},
    {"catalog/missing-key", 6, with_items("  - {part: {kind: punch}, price: 1}\n")},
    {"catalog/missing-key", 6, with_items("  - {sku: T1, price: 1}\n")},
    {"catalog/bad-sku", 6, with_items("  - {sku: \"a\\tb\", part: {kind: punch}, price: 1}\n")},
    {"catalog/bad-sku", 6, with_items("  - {sku: " + std::string(65, 'x') + ", part: {kind: punch}, price: 1}\n")},
    {"catalog/tubing-without-diameters", 6, with_items(coil("inside: 0.600 in", "{length: 100 ft, price: 1}"))},
    {"catalog/diameters-swapped", 6,
     with_items(coil("inside: 0.700 in, outside: 0.600 in", "{length: 9 ft, price: 1}"))},
    {"catalog/diameters-without-tubing", 6, with_items(tee("inside: 0.600 in, grips: {inside: 0.600 in}, price: 1"))},
    {"catalog/bad-value", 6, with_items(coil("inside: 0.600, outside: 0.700 in", "{length: 100 ft, price: 1}"))},
    {"catalog/bad-value", 6, with_items(coil("inside: 0 in, outside: 0.700 in", "{length: 100 ft, price: 1}"))},
    {"catalog/bad-value", 6, with_items(coil("inside: 0.600 in, outside: 2 m", "{length: 100 ft, price: 1}"))},
    {"catalog/wrong-type", 6, with_items(coil("inside: [0.600 in], outside: 0.700 in", "{length: 9 ft, price: 1}"))},
    {"catalog/fitting-without-grips", 6, with_items(tee("price: 1"))},
    {"catalog/wrong-number-of-grips", 6, with_items(tee("grips: [{inside: 0.600 in}, {inside: 0.600 in}], price: 1"))},
    {"catalog/grip-side", 6, with_items(tee("grips: {inside: 0.600 in, outside: 0.700 in}, price: 1"))},
    {"catalog/grip-side", 6, with_items(tee("grips: {}, price: 1"))},
    {"catalog/range-backwards", 6, with_items(tee("grips: {outside: 0.710 in to 0.690 in}, price: 1"))},
    {"catalog/bad-value", 6, with_items(tee("grips: {outside: 0.690 to 0.710 in}, price: 1"))},
    {"catalog/grips-without-ends", 6,
     with_items("  - {sku: U, part: {kind: punch}, grips: {inside: 1 in}, price: 1}\n")},
    {"catalog/length-or-count", 6, with_items(coil(kFit, "{count: 1, price: 1}"))},
    {"catalog/length-or-count", 6, with_items(coil(kFit, "{length: 9 ft, count: 2, price: 1}"))},
    {"catalog/length-or-count", 6, with_items(tee_pack("{length: 9 ft, price: 1}"))},
    {"catalog/coil-length", 6, with_items(coil(kFit, "{length: 0 ft, price: 1}"))},
    {"catalog/bad-value", 6, with_items(coil(kFit, "{length: 101000 m, price: 1}"))},
    {"catalog/price-or-packs", 6, with_items(tee("grips: {inside: 0.600 in}, price: 1, packs: [{price: 2}]"))},
    {"catalog/missing-key", 6, with_items(tee_pack("{count: 10}"))},
    {"catalog/bad-value", 6, with_items(tee_pack("{count: 0, price: 1}"))},
    {"catalog/bad-value", 6, with_items(tee_pack("{count: 1000001, price: 1}"))},
    {"catalog/bad-value", 6, with_items(tee_pack("{count: 1, price: 10000000000.01}"))},
    {"catalog/bad-value", 6, with_items(tee_pack("{count: 1, price: 0.655}"))},
    {"catalog/bad-value", 6, with_items(tee_pack("{price: 1, breaks: {steps: [{from: 1, price: 1}]}}"))},
    {"catalog/bad-value", 6, with_items(tee_pack("{price: 1, breaks: {rule: total, steps: [{from: 2, price: 1}]}}"))},
    {"catalog/steps-not-rising", 6,
     with_items(tee_pack("{price: 3, breaks: {steps: [{from: 5, price: 2}, {from: 5, price: 1}]}}"))},
    {"catalog/duplicate-sku", 7, with_items(kTee + kTee)},
    {"catalog/duplicate-sku", 6, with_items(tee_pack("{count: 1, price: 1}, {count: 10, price: 8}"))},
    {"catalog/duplicate-sku", 7, with_items(kElbow + tee_pack("{sku: E1, price: 1}"))},
    {"catalog/duplicate-sku", 10, with_bundles("  - {sku: T1, price: 5, contents: [{item: E1, count: 1}]}\n")},
    {"catalog/unknown-sku", 10, with_bundles("  - {sku: B1, price: 5, contents: [{item: T9, count: 1}]}\n")},
    {"catalog/unknown-sku", 10,
     with_bundles("  - {sku: B1, price: 5, contents: [{item: T1, count: 1, swaps: [{item: T9}]}]}\n")},
    {"catalog/item-or-part", 10, with_bundles("  - {sku: B1, price: 5, contents: [{count: 1}]}\n")},
    {"catalog/item-or-part", 10,
     with_bundles("  - {sku: B1, price: 5, contents: [{item: T1, part: {kind: punch}, count: 1}]}\n")},
    {"catalog/empty-bundle", 10, with_bundles("  - {sku: B1, price: 5, contents: []}\n")},
    {"catalog/missing-key", 10, with_bundles("  - {sku: B1, contents: [{item: T1, count: 1}]}\n")},
    {"catalog/length-or-count", 10, with_bundles("  - {sku: B1, price: 5, contents: [{item: P1, count: 1}]}\n")},
    {"catalog/length-or-count", 10, with_bundles("  - {sku: B1, price: 5, contents: [{item: T1, length: 9 ft}]}\n")},
    {"catalog/bad-value", 10, with_bundles("  - {sku: B1, price: 5, contents: [{item: P1, length: 101000 m}]}\n")},
    {"catalog/length-or-count", 10, with_bundles("  - {sku: B1, price: 5, contents: [{item: P1, length: 0 ft}]}\n")},
    {"catalog/swap-of-another-kind", 10,
     with_bundles("  - {sku: B1, price: 5, contents: [{item: T1, count: 1, swaps: [{item: E1}]}]}\n")},
    {"catalog/swap-for-itself", 10,
     with_bundles("  - {sku: B1, price: 5, contents: [{item: T1, count: 1, swaps: [{item: T1}]}]}\n")},
    {"catalog/credits-exceed-price", 10,
     with_bundles("  - {sku: B1, price: 5, contents: [{item: T1, count: 1, leave out: 3}, "
                  "{item: E1, count: 1, leave out: 2.01}]}\n")},
    {"catalog/fitting-without-grips", 10,
     with_bundles("  - {sku: B1, price: 5, contents: [{part: {kind: elbow, size: 1 in}, count: 1}]}\n")},
};

const std::vector<Complaint> kWarnings = {
    {"catalog/nothing-for-sale", 2, with("items: []\n")},
    {"catalog/discount-falls", 5, with_ordering("{discounts: [{from: 5, percent: 2 %}, {from: 9, percent: 1 %}]}")},
    {"catalog/missing-attribute", 6,
     with_items("  - {sku: F, part: {kind: filter, thread: x, mesh: 155}, price: 1}\n")},
    {"catalog/price-zero", 6, with_items(tee_pack("{price: 0}"))},
    {"catalog/price-zero", 6, with_items(tee_pack("{price: 1, breaks: {steps: [{from: 2, price: 0}]}}"))},
    {"catalog/price-zero", 10, with_bundles("  - {sku: B1, price: 0, contents: [{item: T1, count: 1}]}\n")},
    {"catalog/break-raises-price", 6, with_items(tee_pack("{price: 1, breaks: {steps: [{from: 2, price: 1.01}]}}"))},
    {"catalog/stock-below-minimum", 6, with_items(tee_pack("{price: 1, minimum: 5, multiple: 4, stock: 7}"))},
    {"catalog/item-not-sold", 6, with_items("  - {sku: U, part: {kind: punch}}\n")},
};

bool names(const Reading& reading, const Complaint& wanted, teetally::Severity severity) {
  return std::any_of(reading.found.begin(), reading.found.end(), [&](const teetally::Diagnostic& entry) {
    return entry.slug == wanted.slug && entry.place.line == wanted.line && entry.severity == severity;
  });
}

std::string all_of(const Reading& reading) {
  std::string text;
  for (const auto& entry : reading.found) text += to_text(entry);
  return text;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(catalog_checks)

BOOST_AUTO_TEST_CASE(every_error_is_found_at_its_line_and_refuses_the_file) {
  for (const Complaint& wanted : kErrors) {
    const Reading reading = read(wanted.text);
    BOOST_TEST(names(reading, wanted, teetally::Severity::error), wanted.slug << " expected on line " << wanted.line
                                                                              << " of\n"
                                                                              << wanted.text << all_of(reading));
    BOOST_TEST(!reading.catalog.has_value(), wanted.slug);
  }
}

BOOST_AUTO_TEST_CASE(every_warning_is_found_at_its_line_and_keeps_the_file) {
  for (const Complaint& wanted : kWarnings) {
    const Reading reading = read(wanted.text);
    BOOST_TEST(names(reading, wanted, teetally::Severity::warning), wanted.slug << " expected on line " << wanted.line
                                                                                << " of\n"
                                                                                << wanted.text << all_of(reading));
    BOOST_TEST(reading.catalog.has_value(), all_of(reading));
  }
}

BOOST_AUTO_TEST_CASE(all_errors_of_a_file_come_in_one_go) {
  const Reading reading =
      read(with_items(tee("price: 0.655") + tee("grips: {inside: 0.600 in}, prise: 1") + "  - 7\n"));
  BOOST_TEST(!reading.catalog.has_value());
  BOOST_TEST(reading.found.size() >= 5u, all_of(reading));
  for (const auto& entry : reading.found) BOOST_TEST(entry.place.known(), entry.message);
}

BOOST_AUTO_TEST_CASE(an_unknown_sku_suggests_the_nearest) {
  const Reading reading =
      read(with_items("  - {sku: FH-TEE, part: {kind: punch}, price: 1}\nbundles:\n"
                      "  - {sku: B1, price: 5, contents: [{item: FH-TEEE, count: 1}]}\n"));
  const auto entry = std::find_if(reading.found.begin(), reading.found.end(),
                                  [](const auto& one) { return one.slug == "catalog/unknown-sku"; });
  BOOST_REQUIRE(entry != reading.found.end());
  BOOST_TEST(entry->help == "did you mean 'FH-TEE'?");
}

BOOST_AUTO_TEST_CASE(sound_catalogs_raise_nothing) {
  for (const std::string& text :
       {with_items(kTubing + kTee + kElbow), with_ordering("{shipping: 7.95}"),
        with_bundles("  - {sku: B1, price: 5, contents: [{item: T1, count: 1, leave out: 5}]}\n")}) {
    const Reading reading = read(text);
    BOOST_TEST(reading.catalog.has_value());
    BOOST_TEST(reading.found.empty(), all_of(reading));
  }
}

BOOST_AUTO_TEST_SUITE_END()
