// The published examples once more, as files: catalogs and a parts list through the readers, the matching and the
// purchase. Each folder holds shops/, parts.yaml and the known total; its files name their source.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <fstream>

#include "places.h"
#include "teetally/purchase.h"

using namespace teetally;

namespace {

const std::filesystem::path kFolder = std::string(TEETALLY_SOURCE_DIR) + "/tests/reference/purchase";

std::vector<std::filesystem::path> examples() {
  std::vector<std::filesystem::path> found;
  for (const auto& entry : std::filesystem::directory_iterator(kFolder)) found.push_back(entry.path());
  std::sort(found.begin(), found.end());
  return found;
}

std::string first_line(const std::filesystem::path& file) {
  std::ifstream in(file);
  std::string line;
  std::getline(in, line);
  return line;
}

Purchase buy_from_files(const std::filesystem::path& folder, Diagnostics& diagnostics) {
  const Vocabulary vocabulary = shipped_vocabulary();
  std::vector<Catalog> catalogs = read_catalogs({(folder / "shops").string()}, vocabulary, "", diagnostics);
  const Source source = read_source((folder / "parts.yaml").string(), diagnostics);
  BOOST_TEST_REQUIRE(source != nullptr);
  std::optional<Takeoff> takeoff = read_parts_list(source, vocabulary, diagnostics);
  BOOST_TEST_REQUIRE(takeoff.has_value());
  const OfferBook book = find_offers(std::move(*takeoff), std::move(catalogs), vocabulary, {}, UnitSystem::us);
  return buy(book, {});
}

}  // namespace

BOOST_AUTO_TEST_CASE(published_purchases_from_files) {
  BOOST_TEST_REQUIRE(examples().size() >= 10u);
  for (const std::filesystem::path& folder : examples()) {
    BOOST_TEST_CONTEXT(folder.filename().string()) {
      Diagnostics diagnostics;
      const Purchase purchase = buy_from_files(folder, diagnostics);
      for (const Diagnostic& diagnostic : diagnostics.in_order()) BOOST_TEST_MESSAGE(to_text(diagnostic));
      BOOST_TEST(!diagnostics.has_errors());
      BOOST_TEST(to_string(purchase.total, {"USD", 2}) == first_line(folder / "total.txt"));
      BOOST_TEST(purchase.proof.proven);
    }
  }
}
