// A hundred seeded damages of each shipped catalog: the file is read as far as it goes, whatever is wrong is said
// with its place, and nothing crashes or hangs.
#include <boost/test/unit_test.hpp>
#include <random>

#include "places.h"
#include "teetally/catalog.h"

using namespace teetally;

namespace {

constexpr int kDamages = 100;

std::string shipped(const std::string& id) {
  Diagnostics diagnostics;
  return read_source(std::string(TEETALLY_SOURCE_DIR) + "/catalogs/" + id + ".yaml", diagnostics)->text;
}

// Portable: the distributions of the standard library are not the same everywhere.
std::size_t below(std::mt19937& random, std::size_t limit) { return random() % limit; }

std::size_t start_of_line(const std::string& text, std::size_t at) {
  const std::size_t before = text.rfind('\n', at);
  return before == std::string::npos ? 0 : before + 1;
}

// One of the ways in which files go wrong, at a place chosen by the seed.
std::string damaged(std::string text, std::mt19937& random) {
  static const std::string kJunk = "{}[],:#&*!|>'\"%@`0-\t\xff?x";
  const std::size_t at = below(random, text.size());
  const std::size_t line = start_of_line(text, at);
  const std::size_t end = std::min(text.find('\n', at), text.size() - 1);
  switch (below(random, 7)) {
    case 0:
      return text.substr(0, at);
    case 1:
      return text.erase(line, end + 1 - line);
    case 2:
      return text.insert(end + 1, text.substr(line, end + 1 - line));
    case 3:
      text[at] = kJunk[below(random, kJunk.size())];
      return text;
    case 4:
      return text.insert(at, 1, kJunk[below(random, kJunk.size())]);
    case 5:
      return text.erase(at, 1 + below(random, 12));
    default:
      return text.insert(line, 1 + below(random, 3), ' ');
  }
}

void check(const std::string& id, int seed) {
  std::mt19937 random(static_cast<std::mt19937::result_type>(seed));
  const std::string text = damaged(shipped(id), random);
  Diagnostics diagnostics;
  static const Vocabulary vocabulary = shipped_vocabulary();
  const auto catalog = read_catalog(source_from_text(id + ".yaml", text), vocabulary, diagnostics);
  BOOST_TEST(catalog.has_value() == !diagnostics.has_errors(), id << " seed " << seed);
  for (const Diagnostic& entry : diagnostics.in_order()) {
    BOOST_TEST(entry.place.known(), id << " seed " << seed << ": " << to_text(entry));
    BOOST_TEST(!entry.message.empty(), id << " seed " << seed);
  }
}

}  // namespace

BOOST_AUTO_TEST_SUITE(damage)

BOOST_AUTO_TEST_CASE(damaged_catalogs_are_complained_about_in_place) {
  for (const char* id : {"brackenmere", "fernhollow", "tarnwick"}) {
    for (int seed = 1; seed <= kDamages; ++seed) check(id, seed);
  }
}

// Damage that is certain to matter is certain to be found.
BOOST_AUTO_TEST_CASE(a_catalog_cut_anywhere_in_its_items_is_refused_or_loses_only_the_rest) {
  static const Vocabulary vocabulary = shipped_vocabulary();
  const std::string text = shipped("fernhollow");
  int refused = 0;
  for (std::size_t at = 1000; at < text.size(); at += 977) {
    Diagnostics diagnostics;
    const auto catalog = read_catalog(source_from_text("cut.yaml", text.substr(0, at)), vocabulary, diagnostics);
    if (!catalog) ++refused;
    BOOST_TEST(catalog.has_value() == !diagnostics.has_errors());
  }
  BOOST_TEST(refused >= 15);
}

BOOST_AUTO_TEST_SUITE_END()
