// The examples of the pages on the design file and the practice file read without a complaint.
#include "places.h"
#include "unit/design/reading.h"

using namespace teetally;
using namespace teetally::testing;

namespace {

// The first fenced block of a page.
std::string example_of(const std::string& page) {
  Diagnostics diagnostics;
  const Source source = read_source(TEETALLY_SOURCE_DIR "/docs/" + page, diagnostics);
  BOOST_REQUIRE(source);
  const std::string fence = "```yaml\n";
  const std::size_t start = source->text.find(fence);
  BOOST_REQUIRE(start != std::string::npos);
  const std::size_t first = start + fence.size();
  return source->text.substr(first, source->text.find("```", first) - first);
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_design_page) {
  const Read read = read_text(example_of("design-file.md"));
  BOOST_TEST(all_text(read.diagnostics) == "");
  BOOST_TEST(read.site.beds.size() == 1u);
}

BOOST_AUTO_TEST_CASE(the_practice_page) {
  Diagnostics diagnostics;
  const Practice practice =
      read_practice(source_from_text("practice.yaml", example_of("practice-file.md")), diagnostics);
  BOOST_TEST(all_text(diagnostics.in_order()) == "");
  BOOST_TEST(practice.four_way.value == "two tees");
}
