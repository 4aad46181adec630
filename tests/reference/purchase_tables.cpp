#include "reference/purchase_tables.h"

#include <fstream>
#include <sstream>
#include <stdexcept>

#include "places.h"

namespace teetally::test {
namespace {

std::istringstream numbers_of(const std::string& file) {
  std::ifstream in(std::string(TEETALLY_SOURCE_DIR) + "/tests/reference/" + file);
  if (!in) throw std::runtime_error("cannot read " + file);
  std::string line, text;
  while (std::getline(in, line)) {
    if (line.rfind('#', 0) != 0) text += line + "\n";
  }
  return std::istringstream(text);
}

std::int64_t next(std::istringstream& in) {
  std::int64_t number = 0;
  if (!(in >> number)) throw std::runtime_error("a number is missing");
  return number;
}

}  // namespace

HandMadeBook book_from_price_table(const std::string& file) {
  std::istringstream in = numbers_of(file);
  HandMadeBook made;
  const std::int64_t items = next(in), shops = next(in);
  std::vector<std::int64_t> fees;
  for (std::int64_t s = 0; s < shops; ++s) fees.push_back(next(in));
  for (std::int64_t s = 0; s < shops; ++s) made.shop(free_from(fees[s], next(in)));
  for (std::int64_t i = 0; i < items; ++i) {
    std::vector<int> sold;
    for (std::int64_t s = 0; s < shops; ++s) {
      const std::int64_t price = next(in);
      if (price > 0) sold.push_back(made.item(static_cast<int>(s), {pack_of(1, price)}));
    }
    made.need(1, sold);
  }
  return made;
}

HandMadeBook book_from_offer_table(const std::string& file) {
  std::istringstream in = numbers_of(file);
  HandMadeBook made;
  const std::int64_t items = next(in), shops = next(in), packs = next(in), bundles = next(in);
  if (next(in) != 0) throw std::runtime_error("families are not read");
  for (std::int64_t i = 0; i < items; ++i) {
    made.need(next(in), {});
    next(in);
  }
  for (std::int64_t s = 0; s < shops; ++s) {
    const std::int64_t fee = next(in), limit = next(in);
    made.shop(limit < 0 ? flat_shipping(fee) : free_from(fee, limit));
  }
  std::vector<std::vector<int>> item_of(shops);
  for (std::int64_t s = 0; s < shops; ++s) {
    for (std::int64_t i = 0; i < items; ++i) {
      item_of[s].push_back(made.item(static_cast<int>(s), {}));
      made.serve(static_cast<int>(i), item_of[s].back(), {});
    }
  }
  for (std::int64_t p = 0; p < packs; ++p) {
    const std::int64_t shop = next(in), item = next(in), pieces = next(in);
    next(in);  // the generator's count limit: ours must not need it
    Pack pack = pack_of(pieces, 0);
    pack.prices.clear();
    for (std::int64_t steps = next(in); steps > 0; --steps) {
      pack.prices.emplace_back();
      pack.prices.back().from = next(in);
      pack.prices.back().price = {next(in)};
    }
    made.catalog(static_cast<int>(shop)).items[item].packs.push_back(std::move(pack));
  }
  for (std::int64_t b = 0; b < bundles; ++b) {
    const std::int64_t shop = next(in), price = next(in);
    next(in);
    std::vector<Content> contents;
    for (std::int64_t n = next(in); n > 0; --n) {
      Content& content = contents.emplace_back();
      content.item = item_of[shop][next(in)];
      content.count = next(in);
    }
    made.bundle(static_cast<int>(shop), price, contents);
  }
  return made;
}

}  // namespace teetally::test
