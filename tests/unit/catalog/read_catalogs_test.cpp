// Several catalog files of one run: folders, doubles, currencies and validity.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <fstream>

#include "places.h"
#include "unit/catalog/catalog_text.h"

using namespace teetally;
namespace fs = std::filesystem;

namespace {

// A folder of its own, gone afterwards.
struct Folder {
  fs::path path;
  explicit Folder(const std::string& name) : path(fs::path(TEETALLY_BUILD_DIR) / ("catalogs_of_" + name)) {
    fs::remove_all(path);
    fs::create_directories(path);
  }
  ~Folder() { fs::remove_all(path); }
  std::string add(const std::string& name, const std::string& text) const {
    std::ofstream(path / name) << text;
    return (path / name).string();
  }
};

std::string catalog(const std::string& id, const std::string& currency = "USD", const std::string& more = "") {
  return "teetally: catalog 1\nsupplier: {id: " + id + "}\ncurrency: " + currency + "\n" + more + "items:\n" +
         catalog_text::kTee;
}

struct Run {
  std::vector<Catalog> catalogs;
  std::vector<Diagnostic> found;
  bool has(const std::string& slug) const {
    return std::any_of(found.begin(), found.end(), [&](const Diagnostic& entry) { return entry.slug == slug; });
  }
};
Run read(const std::vector<std::string>& paths, const std::string& today = "") {
  Diagnostics diagnostics;
  Run run;
  run.catalogs = read_catalogs(paths, shipped_vocabulary(), today, diagnostics);
  run.found = diagnostics.in_order();
  return run;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(catalog_files)

BOOST_AUTO_TEST_CASE(a_folder_is_read_in_order_of_names_and_not_below) {
  const Folder folder("order");
  folder.add("b.yaml", catalog("second"));
  folder.add("a.yml", catalog("first"));
  folder.add("notes.txt", "not a catalog");
  fs::create_directories(folder.path / "below.yaml");
  const Run run = read({folder.path.string()});
  BOOST_TEST(run.found.empty());
  BOOST_REQUIRE(run.catalogs.size() == 2u);
  BOOST_TEST(run.catalogs[0].id == "first");
  BOOST_TEST(run.catalogs[1].id == "second");
}

BOOST_AUTO_TEST_CASE(a_file_named_twice_is_read_once) {
  const Folder folder("twice");
  const std::string file = folder.add("a.yaml", catalog("first"));
  const Run run = read({folder.path.string(), file, folder.path.string() + "/./a.yaml"});
  BOOST_TEST(run.found.empty());
  BOOST_TEST(run.catalogs.size() == 1u);
}

BOOST_AUTO_TEST_CASE(two_suppliers_of_one_id_are_refused) {
  const Folder folder("one_id");
  folder.add("a.yaml", catalog("same"));
  folder.add("b.yaml", catalog("same"));
  const Run run = read({folder.path.string()});
  BOOST_REQUIRE(run.has("catalog/duplicate-supplier"));
  BOOST_TEST(to_string(run.found[0].place).find("b.yaml:1:1") != std::string::npos);
  BOOST_TEST(to_string(run.found[0].notes.at(0).place).find("a.yaml:1:1") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(currencies_are_not_mixed) {
  const Folder folder("currencies");
  folder.add("a.yaml", catalog("one", "USD"));
  folder.add("b.yaml", catalog("two", "EUR"));
  BOOST_TEST(read({folder.path.string()}).has("catalog/currency-mismatch"));
}

BOOST_AUTO_TEST_CASE(validity_is_checked_when_today_is_known) {
  const Folder folder("validity");
  const auto file = folder.add("a.yaml", catalog("one", "USD", "valid: {from: 2026-03-01, until: 2026-03-31}\n"));
  BOOST_TEST(read({file}, "2026-02-28").has("catalog/not-valid-today"));
  BOOST_TEST(read({file}, "2026-03-01").found.empty());
  BOOST_TEST(read({file}, "2026-03-31").found.empty());
  const Run late = read({file}, "2026-04-01");
  BOOST_TEST(late.has("catalog/not-valid-today"));
  BOOST_TEST(late.catalogs.size() == 1u);  // a warning: the prices may still be asked for
  BOOST_TEST(read({file}).found.empty());
}

BOOST_AUTO_TEST_CASE(nothing_to_read_is_an_error) {
  const Folder folder("nothing");
  BOOST_TEST(read({}).has("catalog/no-catalog"));
  BOOST_TEST(read({folder.path.string()}).has("catalog/empty-folder"));
  BOOST_TEST(read({folder.path.string() + "/absent.yaml"}).has("base/no-such-file"));
}

BOOST_AUTO_TEST_CASE(a_broken_file_does_not_hide_the_others) {
  const Folder folder("broken");
  folder.add("a.yaml", "teetally: catalog 1\n");
  folder.add("b.yaml", catalog("good"));
  const Run run = read({folder.path.string()});
  BOOST_TEST(run.has("catalog/missing-key"));
  BOOST_REQUIRE(run.catalogs.size() == 1u);
  BOOST_TEST(run.catalogs[0].id == "good");
}

BOOST_AUTO_TEST_SUITE_END()
