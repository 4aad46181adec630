#include <boost/test/unit_test.hpp>

#include "teetally/base.h"

namespace teetally {

BOOST_AUTO_TEST_SUITE(shipped)

BOOST_AUTO_TEST_CASE(the_vocabulary_is_built_in_and_reads_without_complaint) {
  Diagnostics diagnostics;
  Vocabulary vocabulary;
  const Source source = source_from_text("vocabulary.yaml", std::string(shipped_file("vocabulary.yaml")));
  extend_vocabulary(vocabulary, read_yaml(source, diagnostics), diagnostics);
  BOOST_TEST(report_text(diagnostics) == "");
  BOOST_REQUIRE(vocabulary.find("tee") != nullptr);
  BOOST_TEST(vocabulary.find("tee")->ends.size() == 3u);
  BOOST_TEST(vocabulary.find("supply tubing")->by_length);
  BOOST_TEST(vocabulary.find("other")->open);
  BOOST_TEST(shipped_vocabulary().kinds.size() == vocabulary.kinds.size());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
