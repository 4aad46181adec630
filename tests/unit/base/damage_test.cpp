// Thousands of seeded damages of good files: every reader answers, and every complaint has a place.
#include <boost/test/unit_test.hpp>
#include <random>

#include "places.h"
#include "teetally/base.h"

namespace teetally {
namespace {

using Random = std::mt19937;

std::size_t any(Random& random, std::size_t below) { return below == 0 ? 0 : random() % below; }

// One small damage: a byte changed, dropped, doubled, a piece cut, moved or repeated, a troublesome piece put in.
void damage(std::string& text, Random& random) {
  static const std::string pieces[] = {"[",
                                       "]",
                                       "{",
                                       "}",
                                       "\"",
                                       "'",
                                       ":",
                                       ": ",
                                       "- ",
                                       ",",
                                       "#",
                                       "&x ",
                                       "*x",
                                       "<<: ",
                                       "!t ",
                                       "\n",
                                       "\t",
                                       "---\n",
                                       "...\n",
                                       "\r",
                                       std::string(1, '\0'),
                                       "\xff",
                                       "\xc3",
                                       "é",
                                       "~",
                                       "|\n",
                                       ">\n",
                                       "? ",
                                       "%",
                                       "@",
                                       "012",
                                       "0x1F",
                                       "1e9",
                                       "99999999999999999999",
                                       "-",
                                       "3,20",
                                       "\\",
                                       "\xEF\xBB\xBF",
                                       "  ",
                                       "1/0",
                                       "null"};
  const std::size_t at = any(random, text.size() + 1);
  const std::size_t length = any(random, 12);
  switch (random() % 6) {
    case 0:
      text.erase(at, 1);
      break;
    case 1:
      text.erase(at, length);
      break;
    case 2:
      text.insert(at, text.substr(any(random, text.size() + 1), length));
      break;
    case 3:
      text.insert(at, pieces[any(random, std::size(pieces))]);
      break;
    case 4:
      if (at < text.size()) text[at] = static_cast<char>(random());
      break;
    case 5:
      text.resize(at);
      break;
  }
}

std::string file_text(const std::string& name) {
  Diagnostics diagnostics;
  const Source source = read_source(std::string(TEETALLY_SOURCE_DIR) + "/" + name, diagnostics);
  BOOST_REQUIRE(source != nullptr);
  // The first lines of a long file are enough to damage, and keep the test short.
  constexpr std::size_t kEnough = 4000;
  return source->text.size() <= kEnough ? source->text : source->text.substr(0, source->text.rfind('\n', kEnough) + 1);
}

// Every mapping of the tree, read as a part and as a mapping of quantities.
void read_everywhere(const YamlNode& node, const Vocabulary& vocabulary, Diagnostics& diagnostics) {
  static const BareUnits bare{"ft", "gph", "psi", "gal"};
  if (node.kind == YamlNode::Kind::mapping) {
    Fields fields(node, "base", "a part", bare, diagnostics);
    read_part(fields, vocabulary, bare, diagnostics);
    for (const YamlEntry& entry : node.entries) {
      fields.length(entry.key);
      fields.flow(entry.key);
      fields.pressure(entry.key);
      fields.diameter(entry.key);
      fields.count(entry.key, 0, 100);
      fields.money(entry.key, Currency{});
      fields.percent(entry.key);
      fields.texts(entry.key);
      fields.yes_no(entry.key);
    }
    read_bare_units(fields, "base", diagnostics);
    fields.finish();
  }
  for (const YamlEntry& entry : node.entries) read_everywhere(entry.value, vocabulary, diagnostics);
  for (const YamlNode& item : node.items) read_everywhere(item, vocabulary, diagnostics);
}

void every_complaint_has_a_place(const Diagnostics& diagnostics, const std::string& text) {
  for (const Diagnostic& entry : diagnostics.in_order()) {
    BOOST_REQUIRE_MESSAGE(entry.place.known() && entry.place.column > 0, entry.slug << " has no place in:\n" << text);
    BOOST_REQUIRE(!entry.message.empty());
  }
  BOOST_REQUIRE(is_valid_utf8(report_text(diagnostics)));
}

}  // namespace

BOOST_AUTO_TEST_SUITE(damage_suite)

BOOST_AUTO_TEST_CASE(damaged_files_give_complaints_with_places) {
  const Vocabulary shipped = shipped_vocabulary();
  int refused = 0;
  for (const char* name : {"catalogs/fernhollow.yaml", "tests/gardens/two-beds/garden.yaml",
                           "tests/gardens/two-beds/parts.yaml", "src/base/vocabulary.yaml"}) {
    const std::string good = file_text(name);
    Random random(64);
    for (int i = 0; i < 700; ++i) {
      std::string text = good;
      for (auto n = 1 + random() % 3; n > 0; --n) damage(text, random);
      Diagnostics diagnostics;
      const YamlNode root = read_yaml(source_from_text(name, text), diagnostics);
      if (diagnostics.has_errors()) ++refused;
      read_everywhere(root, shipped, diagnostics);
      Vocabulary vocabulary = shipped;
      extend_vocabulary(vocabulary, root, diagnostics);
      every_complaint_has_a_place(diagnostics, text);
    }
  }
  // Most damages break the YAML or change a value; the reader itself must refuse a good part of them.
  BOOST_TEST(refused > 800);
}

BOOST_AUTO_TEST_CASE(damaged_csv_gives_complaints_with_places) {
  const std::string good = "sku,name,price\r\nA-1,\"a \"\"b\"\", c\",1.25\nB-2,plain,3\n\"C\",,\n";
  Random random(4180);
  for (int i = 0; i < 5000; ++i) {
    std::string text = good;
    for (auto n = 1 + random() % 3; n > 0; --n) damage(text, random);
    Diagnostics diagnostics;
    const std::vector<CsvRow> rows = read_csv(source_from_text("f.csv", text), diagnostics);
    every_complaint_has_a_place(diagnostics, text);
    for (const CsvRow& row : rows) BOOST_REQUIRE(row.cells.size() == rows[0].cells.size());
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
