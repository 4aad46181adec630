// A hundred seeded damages of every garden and of the practice file: complaints with places, never a crash, never a
// hang; what is still in order is still laid out.
#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <random>
#include <string>

#include "places.h"
#include "property/garden_random.h"

using namespace teetally;
using namespace teetally::testing;

namespace {

constexpr std::uint32_t kDamages = 100;

std::size_t place_in(const std::string& text, Random& random) {
  return static_cast<std::size_t>(pick(random, 0, static_cast<std::int64_t>(text.size()) - 1));
}

std::pair<std::size_t, std::size_t> line_around(const std::string& text, std::size_t at) {
  const std::size_t before = text.rfind('\n', at == 0 ? 0 : at - 1);
  const std::size_t start = before == std::string::npos ? 0 : before + 1;
  const std::size_t end = text.find('\n', start);
  return {start, (end == std::string::npos ? text.size() : end + 1) - start};
}

std::string damaged(std::string text, Random& random) {
  const char* words[] = {"-1",
                         "999999999999",
                         "1e9",
                         "12 parsecs",
                         "[",
                         "]",
                         "{",
                         "}",
                         ": ",
                         "- ",
                         "${x}",
                         "${n}",
                         "&a ",
                         "*a ",
                         "\t",
                         "\"",
                         "'",
                         "#",
                         "\xff",
                         "\xc3",
                         "\0",
                         "north",
                         "to end of trunk",
                         "repeat",
                         "like"};
  for (std::int64_t wounds = pick(random, 1, 3); wounds > 0; --wounds) {
    const std::size_t at = place_in(text, random);
    const auto [start, length] = line_around(text, at);
    switch (pick(random, 0, 6)) {
      case 0:
        text.erase(at, static_cast<std::size_t>(pick(random, 1, 12)));
        break;
      case 1:
        text.insert(at, words[pick(random, 0, 24)]);
        break;
      case 2:
        text.erase(start, length);
        break;
      case 3:
        text.insert(start, text.substr(start, length));
        break;
      case 4:
        text[at] = static_cast<char>(pick(random, 32, 126));
        break;
      case 5:
        text.resize(std::max<std::size_t>(at, 1));
        break;
      default:
        text.replace(at, 1, std::to_string(pick(random, 0, 100'000)));
        break;
    }
  }
  return text;
}

void check_told(const Diagnostics& diagnostics, const std::string& name) {
  for (const Diagnostic& diagnostic : diagnostics.in_order()) {
    BOOST_TEST(!diagnostic.message.empty(), name);
    BOOST_TEST(diagnostic.slug.find('/') != std::string::npos, name);
    BOOST_TEST(diagnostic.place.known(), name << ": " << to_text(diagnostic));
    BOOST_TEST(!to_text(diagnostic).empty());
  }
}

std::vector<Source> gardens() {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(TEETALLY_SOURCE_DIR "/tests/gardens")) {
    if (std::filesystem::exists(entry.path() / "garden.yaml")) paths.push_back(entry.path() / "garden.yaml");
  }
  std::sort(paths.begin(), paths.end());
  std::vector<Source> sources;
  Diagnostics diagnostics;
  for (const auto& path : paths) sources.push_back(read_source(path.string(), diagnostics));
  return sources;
}

}  // namespace

BOOST_AUTO_TEST_CASE(damaged_designs) {
  const Practice practice = shipped_practice();
  const Vocabulary vocabulary = shipped_vocabulary();
  const std::vector<Source> all = gardens();
  BOOST_TEST(all.size() >= 6u);
  int refused = 0, laid_out = 0;
  for (const Source& source : all) {
    for (std::uint32_t seed = 1; seed <= kDamages; ++seed) {
      Random random(seed);
      const std::string name = source->name + " damage " + std::to_string(seed);
      Diagnostics diagnostics;
      const Site site =
          read_design(source_from_text("garden.yaml", damaged(source->text, random)), vocabulary, {}, diagnostics);
      if (!diagnostics.has_errors()) {
        const Garden garden = lay_out(site, practice, diagnostics);
        if (!diagnostics.has_errors()) {
          ++laid_out;
          BOOST_TEST(!garden.legs.empty(), name);
        }
      }
      refused += diagnostics.has_errors();
      check_told(diagnostics, name);
    }
  }
  // Both must happen often, or the damage tests nothing.
  BOOST_TEST(refused > 200);
  BOOST_TEST(laid_out > 20);
}

BOOST_AUTO_TEST_CASE(damaged_practice_files) {
  const std::string text(shipped_file("practice.yaml"));
  int refused = 0;
  for (std::uint32_t seed = 1; seed <= 3 * kDamages; ++seed) {
    Random random(seed);
    Diagnostics diagnostics;
    read_practice(source_from_text("practice.yaml", damaged(text, random)), diagnostics);
    refused += diagnostics.has_errors();
    check_told(diagnostics, "damage " + std::to_string(seed));
  }
  BOOST_TEST(refused > 100);
}
