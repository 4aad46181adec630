#include "quote/pool_covers.h"

#include <algorithm>
#include <numeric>
#include <set>

namespace teetally {
namespace {

constexpr std::int64_t kMostSteps = 1'000'000;  // sums looked at for one amount

// What one pack, or one bundle as it comes or swapped, can bring of each item of the catalogs.
using Contents = std::map<std::pair<int, int>, std::set<std::int64_t>>;  // by catalog and item

std::int64_t content_of(const Length& length, std::int64_t count) {
  return length.tenths_mm > 0 ? length.tenths_mm : count;
}

Contents contents_of(const OfferBook& book) {
  Contents contents;
  for (std::size_t c = 0; c < book.catalogs.size(); ++c) {
    const Catalog& catalog = *book.catalogs[c];
    const auto at = [&](int item) -> std::set<std::int64_t>& { return contents[{static_cast<int>(c), item}]; };
    for (std::size_t i = 0; i < catalog.items.size(); ++i) {
      for (const Pack& pack : catalog.items[i].packs)
        at(static_cast<int>(i)).insert(content_of(pack.length, pack.count));
    }
    for (const Bundle& bundle : catalog.bundles) {
      for (const BundleContent& content : bundle.contents) {
        const std::int64_t brings = content_of(content.length, content.count);
        at(content.item).insert(brings);
        for (const Swap& swap : content.swaps) at(swap.item).insert(brings);
      }
    }
  }
  return contents;
}

}  // namespace

Covers::Covers(const OfferBook& pool) : contents_(pool.takeoff.needs.size()) {
  std::vector<std::set<int>> needs_of(pool.items.size());
  for (const Serving& serving : pool.servings) needs_of[static_cast<std::size_t>(serving.item)].insert(serving.need);
  const Contents contents = contents_of(pool);
  std::vector<std::set<std::int64_t>> found(contents_.size());
  std::vector<bool> shared(contents_.size(), false);
  for (const Serving& serving : pool.servings) {
    const auto need = static_cast<std::size_t>(serving.need);
    const BookItem& item = pool.items[static_cast<std::size_t>(serving.item)];
    if (needs_of[static_cast<std::size_t>(serving.item)].size() > 1) shared[need] = true;
    if (const auto of = contents.find({item.catalog, item.item}); of != contents.end())
      found[need].merge(std::set(of->second));
  }
  for (std::size_t n = 0; n < contents_.size(); ++n) {
    found[n].erase(0);
    if (!shared[n]) contents_[n].assign(found[n].begin(), found[n].end());
  }
}

std::vector<std::int64_t> Covers::of(const Basket& basket) {
  std::vector<std::int64_t> covers(contents_.size(), 0);
  for (const Portion& portion : basket) covers[static_cast<std::size_t>(portion.need)] += portion.amount;
  for (std::size_t n = 0; n < covers.size(); ++n) covers[n] = least_sum(static_cast<int>(n), covers[n]);
  return covers;
}

std::int64_t Covers::least_sum(int need, std::int64_t amount) {
  const std::vector<std::int64_t>& contents = contents_[static_cast<std::size_t>(need)];
  if (amount <= 0 || contents.empty()) return amount;
  std::int64_t unit = contents.front();
  for (const std::int64_t content : contents) unit = std::max<std::int64_t>(1, std::gcd(unit, content));
  const std::int64_t steps = (amount + unit - 1) / unit;
  if (steps * static_cast<std::int64_t>(contents.size()) > kMostSteps) return amount;
  const auto [at, is_new] = known_.try_emplace({need, steps}, 0);
  if (!is_new) return at->second;
  std::int64_t least = steps + contents.back() / unit;
  std::vector<bool> reached(static_cast<std::size_t>(steps), false);
  reached[0] = true;
  for (std::int64_t sum = 0; sum < steps; ++sum) {
    if (!reached[static_cast<std::size_t>(sum)]) continue;
    for (const std::int64_t content : contents) {
      const std::int64_t next = sum + content / unit;
      if (next >= steps) {
        least = std::min(least, next);
        break;  // the contents rise
      }
      reached[static_cast<std::size_t>(next)] = true;
    }
  }
  return at->second = least * unit;
}

}  // namespace teetally
