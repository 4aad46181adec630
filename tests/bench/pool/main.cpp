// Writes a pool of invented plots to try large orders on: 40 designs with two parameters each, 12 suppliers with about
// 5,000 packs, and as many plots as wanted, all from a seed.
//
//   pool_bench CATALOGS FOLDER PLOTS [SEED]
//   pool_bench catalogs many 10000 && teetally pool many/pool.yaml --catalogs many/catalogs --stats
//
// The suppliers are those of the folder CATALOGS several times over, each time with other prices and with further
// packs of the same items.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

namespace fs = std::filesystem;
namespace {

constexpr int kDesigns = 40, kSuppliers = 12;
using Dice = std::mt19937;

int roll(Dice& dice, int low, int high) { return std::uniform_int_distribution<int>(low, high)(dice); }

std::string money(double amount) { return fmt::format("{:.2f}", std::max(0.01, amount)); }

void write(const fs::path& path, const std::string& text) { std::ofstream(path) << text; }

std::vector<std::string> lines_of(const fs::path& path) {
  std::ifstream file(path);
  std::vector<std::string> lines;
  for (std::string line; std::getline(file, line);) lines.push_back(line);
  return lines;
}

// A catalog again, as another supplier's: every price times a factor of its own, and two larger packs of every item.
class Supplier {
 public:
  Supplier(Dice& dice, int number) : dice_(dice), number_(number) {}

  std::string rewritten(const std::vector<std::string>& lines) {
    for (const std::string& line : lines) add(line);
    return out_;
  }

 private:
  void add(const std::string& line) {
    static const std::regex kId("^  id: (\\S+)"), kName("^  name: (.*)"), kSku("^  - sku: (\\S+)"),
        kPrice("^    price: ([0-9.]+)"),
        kPacks("^    packs: \\[\\{(count|length): ([0-9]+)( \\S+)?, price: ([0-9.]+)(.*)"),
        kPack("^      - \\{(count|length): ([0-9]+)( \\S+)?, price: ([0-9.]+)(.*)");
    std::smatch match;
    if (line.rfind("bundles:", 0) == 0) in_bundles_ = true;
    if (std::regex_search(line, match, kId)) {
      out_ += fmt::format("  id: {}-{}\n", match[1].str(), number_);
    } else if (std::regex_search(line, match, kName)) {
      out_ += fmt::format("  name: {} {}\n", match[1].str(), number_);
    } else if (std::regex_search(line, match, kSku)) {
      sku_ = match[1];
      factor_ = in_bundles_ ? 1 + 0.01 * roll(dice_, 0, 15) : 0.01 * roll(dice_, 85, 120);
      out_ += line + "\n";
    } else if (std::regex_search(line, match, kPrice)) {
      const double price = std::stod(match[1]) * factor_;
      const std::string packs = "{count: 1, price: " + money(price) + "}, " + larger("count", 1, "", price);
      out_ += in_bundles_ ? "    price: " + money(price) + "\n" : "    packs: [" + packs + "]\n";
    } else if (std::regex_search(line, match, kPacks)) {
      const double price = std::stod(match[4]) * factor_;
      out_ += fmt::format("    packs: [{}, {{{}: {}{}, price: {}{}\n",
                          larger(match[1], std::stoi(match[2]), match[3], price), match[1].str(), match[2].str(),
                          match[3].str(), money(price), match[5].str());
    } else if (std::regex_search(line, match, kPack)) {
      const double price = std::stod(match[4]) * factor_;
      out_ += fmt::format("      - {{{}: {}{}, price: {}{}\n", match[1].str(), match[2].str(), match[3].str(),
                          money(price), match[5].str());
      std::istringstream packs(larger(match[1], std::stoi(match[2]), match[3], price));
      for (std::string pack; std::getline(packs, pack, '}');) {
        if (const auto start = pack.find('{'); start != std::string::npos)
          out_ += "      - " + pack.substr(start) + "}\n";
      }
    } else {
      out_ += line + "\n";
    }
  }

  // Larger packs for a little less each.
  std::string larger(const std::string& unit, int content, const std::string& of, double price) {
    const int some = roll(dice_, 3, 8), many = some * roll(dice_, 4, 9);
    const auto pack = [&](const char* mark, int times, double off) {
      return fmt::format("{{sku: {}{}, {}: {}{}, price: {}}}", sku_, mark, unit, content * times, of,
                         money(price * times * off));
    };
    return pack("-L1", some, 0.95) + ", " + pack("-L2", many, 0.9);
  }

  Dice& dice_;
  int number_;
  bool in_bundles_ = false;
  double factor_ = 1;
  std::string sku_, out_;
};

void write_catalogs(const fs::path& from, const fs::path& folder, Dice& dice) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(from)) files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  fs::create_directories(folder);
  for (int s = 0; s < kSuppliers; ++s) {
    const std::vector<std::string> lines = lines_of(files[static_cast<std::size_t>(s) % files.size()]);
    write(folder / fmt::format("supplier-{:02}.yaml", s + 1), Supplier(dice, s + 1).rewritten(lines));
  }
}

std::string design(int number, Dice& dice) {
  std::string text = fmt::format(
      "teetally: design 1\nname: Plot of type {} (invented)\nunits: {{length: ft}}\nset: {{rows: 3, long: "
      "10}}\nsource:\n"
      "  at: [0, 0, 18 in]\n  thread: 3/4 in hose\n  pressure: {} psi\n  bucket: {{volume: 5 gal, seconds: 40}}\n"
      "lines:\n  - name: trunk\n    from: tap\n    walk: [down 18 in, east {} ft, north {} ft]\nbeds:\n",
      number, roll(dice, 45, 60), roll(dice, 4, 12), 20 + number % 3 * 8);
  const int beds = 1 + number % 3;
  for (int b = 0; b < beds; ++b) {
    text += fmt::format(
        "  - name: bed {}\n    corner: [14 ft, {} ft]\n    size: [4 ft, \"${{long}}\"]\n    height: {} in\n"
        "    rows: {{count: \"${{rows}}\"}}\n    emitter line: {{size: 1/4 in, spacing: {} in, flow: 0.5 gph}}\n"
        "    header: south\n    feed: nearest point of trunk\n{}",
        b + 1, 4 + b * 14, roll(dice, 0, 12), number % 2 == 0 ? 12 : 6, number % 5 < 2 ? "    valve: yes\n" : "");
  }
  if (number % 4 == 0) {
    text += fmt::format(
        "containers:\n  - name: pots\n    at: [[2 ft, 2 ft], [2 ft, {} ft], [2 ft, 7 ft]]\n"
        "    emitter: {{flow: 1 gph, compensating: yes}}\n    feed: nearest point of trunk\n",
        roll(dice, 3, 6));
  }
  return text;
}

void write_pool(const fs::path& folder, int plots, Dice& dice) {
  std::string pool = "teetally: pool 1\nname: Many plots (invented)\nmembers: plots.csv\ndesigns:\n";
  for (int d = 0; d < kDesigns; ++d) {
    write(folder / fmt::format("design-{:02}.yaml", d + 1), design(d, dice));
    pool += fmt::format("  type {}: design-{:02}.yaml\n", d + 1, d + 1);
  }
  write(folder / "pool.yaml", pool);
  std::string rows = "plot,member,design,set rows,set long\n";
  for (int p = 0; p < plots; ++p) {
    rows += fmt::format("P{},Member {},type {},{},{}\n", p + 1, p + 1, roll(dice, 1, kDesigns), roll(dice, 2, 5),
                        roll(dice, 4, 6) * 2);
  }
  write(folder / "plots.csv", rows);
}

}  // namespace

int main(int count, char** words) {
  if (count < 4) {
    std::fputs("pool_bench CATALOGS FOLDER PLOTS [SEED]\n", stderr);
    return 2;
  }
  const fs::path folder = words[2];
  fs::create_directories(folder);
  Dice dice(count > 4 ? static_cast<unsigned>(std::atoi(words[4])) : 1U);
  write_catalogs(words[1], folder / "catalogs", dice);
  write_pool(folder, std::atoi(words[3]), dice);
  return 0;
}
