#include "teetally/base/vocabulary.h"

#include <boost/test/unit_test.hpp>

#include "teetally/base/report.h"

namespace teetally {
namespace {

struct Extended {
  Vocabulary vocabulary = shipped_vocabulary();
  Diagnostics diagnostics;
  explicit Extended(const std::string& kinds) {
    const Source source = source_from_text("mine.yaml", "teetally: vocabulary 1\nkinds:\n" + kinds);
    extend_vocabulary(vocabulary, read_yaml(source, diagnostics), diagnostics);
  }
  // "line:column slug" of every diagnostic, each on a line.
  std::string complaints() const {
    std::string out;
    for (const Diagnostic& entry : diagnostics.in_order()) {
      out += std::to_string(entry.place.line) + ":" + std::to_string(entry.place.column) + " " + entry.slug + "\n";
    }
    return out;
  }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(vocabulary)

BOOST_AUTO_TEST_CASE(a_user_adds_kinds_and_attributes) {
  const Extended extended(
      "  - kind: Manifold\n    plural: manifolds\n    ends: [inlet, outlet, outlet]\n    attributes:\n"
      "      - {name: thread, type: word, match: one_of}\n      - {name: outlets, type: count, match: at_least}\n"
      "  - kind: tee\n    attributes: [{name: colour, type: word}]\n");
  BOOST_TEST(extended.complaints() == "");
  const KindType* manifold = extended.vocabulary.find("manifold");
  BOOST_REQUIRE(manifold != nullptr);
  BOOST_TEST(manifold->ends.size() == 3u);
  BOOST_TEST((manifold->attributes[1].match == Match::at_least));
  BOOST_TEST(extended.vocabulary.find("tee")->attributes.size() == 3u);
  BOOST_TEST(extended.vocabulary.find("unheard of") == nullptr);
  BOOST_TEST(extended.vocabulary.kind_names().back() == "manifold");
}

BOOST_AUTO_TEST_CASE(existing_kinds_only_gain_attributes) {
  const Extended extended("  - {kind: tee, ends: [a]}\n  - {kind: elbow, attributes: [{name: size}]}\n");
  BOOST_TEST(extended.complaints() == "3:12 base/kind-exists\n4:32 base/attribute-exists\n");
  const std::vector<Diagnostic> entries = extended.diagnostics.in_order();
  BOOST_TEST(to_string(entries[0].notes[0].place).find("vocabulary.yaml:") == 0u);
  BOOST_TEST(extended.vocabulary.find("tee")->ends.size() == 3u);
}

BOOST_AUTO_TEST_CASE(every_mistake_in_a_vocabulary_is_reported) {
  const Extended extended(
      "  - {name: x}\n"
      "  - {kind: a, by length: maybe}\n"
      "  - {kind: b, attributes: [{name: n, type: words}, {type: word}, {name: m, match: at_least}]}\n"
      "  - {kind: c, attributes: [{name: count}]}\n"
      "  - {kind: d, atributes: []}\n"
      "  - text\n");
  BOOST_TEST(extended.complaints() ==
             "3:5 base/missing-key\n3:6 base/unknown-key\n4:26 base/bad-value\n5:44 base/bad-value\n"
             "5:52 base/missing-key\n5:83 base/bad-match\n6:28 base/bad-attribute\n7:15 base/unknown-key\n"
             "8:5 base/wrong-type\n");
}

BOOST_AUTO_TEST_CASE(a_vocabulary_file_says_that_it_is_one) {
  Vocabulary vocabulary;
  Diagnostics diagnostics;
  extend_vocabulary(vocabulary, read_yaml(source_from_text("f.yaml", "kinds: []\n"), diagnostics), diagnostics);
  BOOST_REQUIRE(diagnostics.in_order().size() == 1u);
  BOOST_TEST(diagnostics.in_order()[0].slug == "base/missing-key");
  Diagnostics other;
  extend_vocabulary(vocabulary, read_yaml(source_from_text("f.yaml", "teetally: design 1\nkinds: []\n"), other), other);
  BOOST_TEST(other.in_order().at(0).slug == "base/bad-value");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
