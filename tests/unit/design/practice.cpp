// The shipped practice file is whole, and a user's overrides only what it states.
#include "unit/design/reading.h"

using namespace teetally;
using namespace teetally::testing;

namespace {

std::pair<Practice, std::vector<Diagnostic>> practice_of(const std::string& text) {
  Diagnostics diagnostics;
  Practice practice = read_practice(source_from_text("practice.yaml", text), diagnostics);
  return {std::move(practice), diagnostics.in_order()};
}

const NominalSize& size_named(const Practice& practice, const std::string& name) {
  for (const NominalSize& size : practice.sizes) {
    if (size.name == name) return size;
  }
  BOOST_FAIL("no size " + name);
  std::abort();
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_shipped_file_reads_without_a_word) {
  const auto [practice, diagnostics] = practice_of(std::string(shipped_file("practice.yaml")));
  BOOST_TEST(all_text(diagnostics) == "");
}

BOOST_AUTO_TEST_CASE(every_setting_has_an_origin) {
  // A setting that the file forgets would show an empty origin.
  const std::string json = to_text(to_json(shipped_practice()));
  BOOST_TEST(json.find("\"origin\": \"\"") == std::string::npos);
  BOOST_TEST(json.find("shipped practice") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(the_rule_of_thumb_of_common_practice) {
  const Practice practice = shipped_practice();
  const std::tuple<const char*, int, int> rules[] = {
      {"1/4 in", 30, 30}, {"1/2 in", 200, 200}, {"3/4 in", 480, 480}, {"1 in", 960, 960}};
  for (const auto& [name, length, flow] : rules) {
    BOOST_TEST(size_named(practice, name).longest.tenths_mm == feet(length).tenths_mm);
    BOOST_TEST(size_named(practice, name).most.nl_per_h == flow * std::int64_t{3785411784});
  }
}

BOOST_AUTO_TEST_CASE(sizes_are_in_order_of_bore) {
  const Practice practice = shipped_practice();
  for (std::size_t i = 1; i < practice.sizes.size(); ++i) {
    BOOST_TEST((practice.sizes[i - 1].inside <= practice.sizes[i].inside));
  }
}

BOOST_AUTO_TEST_CASE(a_users_file_overrides_what_it_states) {
  const auto [practice, diagnostics] = practice_of(
      "teetally: practice 1\n"
      "units: {length: in}\n"
      "waste: {supply: 10 %}\n"
      "layout: {four way: two tees, row inset: 4}\n"
      "sizes:\n"
      "  - {size: 1/2 in, inside: 0.520 in}\n"
      "  - {size: 8 mm, series: metric, use: small, inside: 6.4 mm, longest: 30 m, most: 200 l/h, least bend: 5 cm}\n"
      "other: {logo: none}\n");
  BOOST_TEST(all_text(diagnostics) == "");
  BOOST_TEST(practice.tubing_waste.value.ppm == 100000);
  BOOST_TEST(practice.tubing_waste.origin == "practice.yaml:3:17");
  BOOST_TEST(practice.row_waste.origin == "shipped practice");
  BOOST_TEST(practice.four_way.value == "two tees");
  BOOST_TEST(practice.row_inset.value.tenths_mm == inches(4).tenths_mm);
  BOOST_TEST(size_named(practice, "1/2 in").inside.tenths_um == 520 * 254);
  BOOST_TEST(size_named(practice, "1/2 in").longest.tenths_mm == feet(200).tenths_mm);
  BOOST_TEST(size_named(practice, "8 mm").use == "small");
  BOOST_TEST(practice.other.at("logo").value == "none");
}

BOOST_AUTO_TEST_CASE(what_is_wrong_with_a_practice_file_is_said) {
  const std::pair<const char*, const char*> wrongs[] = {
      {"design/unknown-key", "waste: {suply: 3 %}\n"},
      {"design/unknown-key", "wastes: {supply: 3 %}\n"},
      {"design/wrong-type", "waste: 3 %\n"},
      {"design/bad-value", "layout: {elbow from: 5}\n"},
      {"design/bad-value", "layout: {row inset: 4 in, joining tolerance: -1 in}\n"},
      {"design/missing-key", "sizes: [{inside: 0.6 in}]\n"},
  };
  for (const auto& [slug, text] : wrongs) {
    const auto [practice, diagnostics] = practice_of("teetally: practice 1\n" + std::string(text));
    BOOST_TEST(slugs_of(diagnostics) == slug, text << all_text(diagnostics));
  }
}
