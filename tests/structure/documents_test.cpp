// What the documentation tells people to type works, what it shows is what the program prints, and its links
// lead somewhere.
#include "structure/documents.h"

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <filesystem>

#include "case_runner/scratch.h"
#include "places.h"
#include "structure/tree.h"

namespace fs = std::filesystem;
namespace {

const cases::Workshop kShop{TEETALLY_SOURCE_DIR, TEETALLY_PROGRAM, TEETALLY_BUILD_DIR "/tests/scratch/documents"};

// A folder that looks like a clone to somebody who follows the documentation.
void lay_out_clone() {
  cases::empty_folder(kShop);
  cases::Step setup;
  for (const char* folder : {"catalogs", "tests/gardens", "tests/pools"}) {
    cases::InputFile file;
    file.name = file.from = folder;
    setup.inputs.push_back(file);
  }
  cases::place_inputs(kShop, setup);
}

std::string where(const std::string& document, int line) { return document + ":" + std::to_string(line); }

}  // namespace

BOOST_AUTO_TEST_SUITE(documentation)

// The commands of one document run in order in one folder, as a reader would type them.
BOOST_AUTO_TEST_CASE(documented_commands_run) {
  const std::vector<documents::Command> all = documents::commands();
  BOOST_TEST(all.size() >= 5u);
  std::string document;
  for (const documents::Command& command : all) {
    if (command.document != document) lay_out_clone();
    document = command.document;
    cases::Step step;
    step.command = command.text;
    const cases::Ran ran = cases::run_command(kShop, step);
    BOOST_TEST(ran.broke == "", where(command.document, command.line) << ": " << ran.broke);
    BOOST_TEST(ran.exit_code == command.exit_code, where(command.document, command.line)
                                                       << ": " << command.text << " gave exit code " << ran.exit_code
                                                       << "\n"
                                                       << ran.err);
  }
}

BOOST_AUTO_TEST_CASE(quoted_files_are_quoted_exactly) {
  int quotes = 0;
  for (const documents::Block& block : documents::blocks()) {
    if (block.quotes.empty()) continue;
    ++quotes;
    BOOST_TEST_REQUIRE(tree::exists(block.quotes), where(block.document, block.line) << ": no file " << block.quotes);
    BOOST_TEST(tree::read(block.quotes).find(block.text) != std::string::npos, where(block.document, block.line)
                                                                                   << " differs from " << block.quotes);
  }
  BOOST_TEST(quotes >= 3);
}

// Output shown to a newcomer must be real.
BOOST_AUTO_TEST_CASE(the_readme_shows_no_output_of_its_own) {
  for (const documents::Block& block : documents::blocks()) {
    if (block.document != "README.md" || block.language == "sh") continue;
    BOOST_TEST(block.quotes != "", where(block.document, block.line) << " names no file it quotes");
  }
}

// The page of kinds has a part to copy for each kind of the vocabulary, with all it may state.
BOOST_AUTO_TEST_CASE(every_kind_has_a_part_to_copy) {
  const std::string page = tree::read("docs/kinds.md");
  const std::string kKind = "  - kind: ", kName = "      - {name: ";
  int kinds = 0;
  std::string part;
  for (const std::string& line : tree::lines(tree::read("src/base/vocabulary.yaml"))) {
    if (line.starts_with(kKind)) {
      ++kinds;
      const std::string kind = line.substr(kKind.size());
      const auto from = std::min(page.find("`{kind: " + kind + ","), page.find("`{kind: " + kind + "}"));
      BOOST_TEST(from != std::string::npos, "docs/kinds.md has no part to copy of kind " << kind);
      part = from == std::string::npos ? "" : page.substr(from, page.find('`', from + 1) - from);
    }
    if (!line.starts_with(kName) || part.empty()) continue;
    const std::string name = line.substr(kName.size(), line.find(',') - kName.size());
    BOOST_TEST(part.find(", " + name + ": ") != std::string::npos, part << " does not state " << name);
  }
  BOOST_TEST(kinds >= 25);
}

BOOST_AUTO_TEST_CASE(links_lead_to_files) {
  std::vector<tree::File> pages = tree::files("", {".md"});
  for (const char* folder : {"docs", "tests"}) {
    for (tree::File& file : tree::files(folder, {".md"})) pages.push_back(std::move(file));
  }
  for (const tree::File& page : pages) {
    const std::string folder = fs::path(page.path).parent_path().string();
    for (auto at = page.text.find("]("); at != std::string::npos; at = page.text.find("](", at + 1)) {
      std::string target = page.text.substr(at + 2, page.text.find(')', at) - at - 2);
      target = target.substr(0, target.find('#'));
      if (target.empty() || target.find("://") != std::string::npos) continue;
      BOOST_TEST(tree::exists((fs::path(folder) / target).string()), page.path << " links to " << target);
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()
