#include "teetally/base/file.h"

#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "places.h"
#include "teetally/base/report.h"
#include "teetally/base/yaml.h"

namespace teetally {
namespace {

namespace fs = std::filesystem;

struct Scratch {
  fs::path folder = fs::path(TEETALLY_BUILD_DIR) / "unit-base-scratch";
  Scratch() {
    fs::remove_all(folder);
    fs::create_directories(folder);
  }
  ~Scratch() { fs::remove_all(folder); }
  std::string path(const std::string& name) const { return (folder / name).string(); }
};

std::string contents(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

std::size_t files_in(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

}  // namespace

BOOST_FIXTURE_TEST_SUITE(file, Scratch)

BOOST_AUTO_TEST_CASE(a_file_is_written_whole_and_nothing_stays_beside_it) {
  write_file(path("a.json"), "first");
  write_file(path("a.json"), std::string(1 << 20, 'x'));
  BOOST_TEST(contents(path("a.json")).size() == 1u << 20);
  BOOST_TEST(files_in(folder) == 1u);
}

BOOST_AUTO_TEST_CASE(a_replaced_file_keeps_its_permissions_and_a_link_stays_a_link) {
  write_file(path("a"), "1");
  fs::permissions(path("a"), fs::perms::owner_read | fs::perms::owner_write);
  fs::create_symlink("a", path("link"));
  write_file(path("link"), "2");
  BOOST_TEST(contents(path("a")) == "2");
  BOOST_TEST(fs::is_symlink(path("link")));
  BOOST_TEST((fs::status(path("a")).permissions() == (fs::perms::owner_read | fs::perms::owner_write)));
}

BOOST_AUTO_TEST_CASE(a_failure_names_the_path_and_leaves_the_old_file) {
  const auto names_it = [](const WorldFailure& failure) {
    return std::string(failure.what()).find("no/such/folder/a") != std::string::npos;
  };
  BOOST_CHECK_EXCEPTION(write_file(path("no/such/folder/a"), "1"), WorldFailure, names_it);
  BOOST_CHECK_THROW(write_file(folder.string(), "1"), WorldFailure);
  if (fs::exists("/dev/full")) BOOST_CHECK_THROW(write_file("/dev/full", "1"), WorldFailure);
}

BOOST_AUTO_TEST_CASE(files_are_read_whole) {
  Diagnostics diagnostics;
  write_file(path("a.yaml"),
             "\xEF\xBB\xBF"
             "a: 1\n");
  const Source source = read_source(path("a.yaml"), diagnostics);
  BOOST_REQUIRE(source != nullptr);
  BOOST_TEST(source->text == "a: 1\n");
  BOOST_TEST(source->name == path("a.yaml"));
  BOOST_TEST(report_text(diagnostics) == "");
}

BOOST_AUTO_TEST_CASE(files_that_cannot_be_read_are_diagnostics) {
  Diagnostics diagnostics;
  BOOST_TEST(read_source(path("missing.yaml"), diagnostics) == nullptr);
  BOOST_TEST(read_source(folder.string(), diagnostics) == nullptr);
  write_file(path("large.yaml"), std::string(kLargestFile + 1, 'a'));
  BOOST_TEST(read_source(path("large.yaml"), diagnostics) == nullptr);
  const std::vector<Diagnostic> entries = diagnostics.in_order();
  BOOST_REQUIRE(entries.size() == 3u);
  BOOST_TEST(entries[0].slug == "base/no-such-file");
  BOOST_TEST(entries[1].slug == "base/no-such-file");
  BOOST_TEST(entries[2].slug == "base/file-too-large");
  // What cannot be read reads as nothing, without further complaint.
  Diagnostics silent;
  BOOST_TEST((read_yaml(nullptr, silent).kind == YamlNode::Kind::null));
  BOOST_TEST(!silent.has_errors());
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
