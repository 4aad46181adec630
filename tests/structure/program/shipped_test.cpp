// What is shipped loads without a single complaint: the vocabulary, the practice, the catalogs, the gardens and
// the starter files.
#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "structure/tree.h"
#include "teetally/base.h"
#include "teetally/catalog.h"
#include "teetally/design.h"
#include "teetally/needs.h"

using namespace teetally;

namespace {

Source source_of(const tree::File& file) {
  return std::make_shared<const SourceText>(SourceText{file.path, file.text});
}

std::string complaints(const Diagnostics& diagnostics) {
  std::string text;
  for (const Diagnostic& diagnostic : diagnostics.in_order()) text += to_text(diagnostic);
  return text;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(shipped)

BOOST_AUTO_TEST_CASE(the_vocabulary_loads) { BOOST_TEST(shipped_vocabulary().kinds.size() >= 20u); }

BOOST_AUTO_TEST_CASE(the_practice_loads) {
  const Practice practice = shipped_practice();
  BOOST_TEST(practice.sizes.size() >= 4u);
  BOOST_TEST(practice.tubing_waste.origin != "");
}

// Three demo suppliers, each with many items, several fit families of 1/2 in tubing and several bundles.
BOOST_AUTO_TEST_CASE(the_catalogs_load_and_say_that_they_are_invented) {
  const Vocabulary vocabulary = shipped_vocabulary();
  const std::vector<tree::File> all = tree::files("catalogs", {".yaml"});
  BOOST_TEST(all.size() >= 3u);
  for (const tree::File& file : all) {
    Diagnostics diagnostics;
    const std::optional<Catalog> catalog = read_catalog(source_of(file), vocabulary, diagnostics);
    BOOST_TEST(complaints(diagnostics) == "");
    BOOST_TEST_REQUIRE(catalog.has_value());
    BOOST_TEST(catalog->notice.find("invented") != std::string::npos, file.path);
    BOOST_TEST(catalog->items.size() >= 60u, file.path << " has " << catalog->items.size() << " items");
    BOOST_TEST(catalog->bundles.size() >= 2u, file.path);
  }
}

// Every file of a garden is of a known kind and is read by the reader of that kind without a word.
BOOST_AUTO_TEST_CASE(the_gardens_load) {
  const Vocabulary vocabulary = shipped_vocabulary();
  int designs = 0;
  for (const tree::File& file : tree::files("tests/gardens", {".yaml"})) {
    Diagnostics diagnostics;
    switch (kind_of_file(source_of(file))) {
      case FileKind::design:
        read_design(source_of(file), vocabulary, {}, diagnostics);
        ++designs;
        break;
      case FileKind::parts_list:
        BOOST_TEST(read_parts_list(source_of(file), vocabulary, diagnostics).has_value(), file.path);
        break;
      case FileKind::practice:
        read_practice(source_of(file), diagnostics);
        break;
      case FileKind::unknown:
        BOOST_ERROR(file.path << " is of no known kind");
        break;
      default:
        break;
    }
    BOOST_TEST(complaints(diagnostics) == "", file.path);
  }
  BOOST_TEST(designs >= 6);
}

BOOST_AUTO_TEST_SUITE_END()
