#include "quote/pack_streams.h"

#include <algorithm>

namespace teetally {

PackStreams::PackStreams(const PoolResult& result) {
  for (const SupplierOrder& order : result.purchase.orders) {
    for (const OrderLine& line : order.lines) add_line(result, line);
  }
}

void PackStreams::add(std::pair<int, int> item, int pack, std::int64_t content) {
  if (content <= 0) return;
  Stream& stream = streams_[item];
  stream.packs.push_back({pack, content});
  stream.left += content;
}

// Tubing is not in packs: its coils are in the cut list.
void PackStreams::add_line(const PoolResult& result, const OrderLine& line) {
  const Catalog& catalog = *result.book.catalogs[line.catalog];
  const bool coils = line.bundle < 0 && catalog.items[line.item].packs[line.pack].length.tenths_mm > 0;
  if (coils) return;
  for (std::int64_t n = 0; n < line.count; ++n) {
    const auto pack = static_cast<int>(packs_.size());
    packs_.push_back({line.catalog, line.item, line.pack, line.bundle, n + 1});
    if (line.bundle >= 0) add_bundle(result, line, n, pack);
    if (line.bundle < 0) add({line.catalog, line.item}, pack, catalog.items[line.item].packs[line.pack].count);
  }
}

// Of the bundles bought, the first ones have the changes; which they are makes no difference.
void PackStreams::add_bundle(const PoolResult& result, const OrderLine& line, std::int64_t which, int pack) {
  const Bundle& bundle = result.book.catalogs[line.catalog]->bundles[line.bundle];
  for (std::size_t c = 0; c < bundle.contents.size(); ++c) {
    const BundleContent& content = bundle.contents[c];
    if (content.length.tenths_mm > 0) continue;
    int item = content.item;
    std::int64_t changed = 0;
    for (const BundleChange& change : line.changes) {
      if (change.content != static_cast<int>(c) || which < changed || which >= changed + change.times) {
        changed += change.content == static_cast<int>(c) ? change.times : 0;
        continue;
      }
      item = change.swap < 0 ? -1 : content.swaps[change.swap].item;
      changed += change.times;
    }
    if (item >= 0) add({line.catalog, item}, pack, content.count);
  }
}

std::vector<Pick> PackStreams::take(std::pair<int, int> item, std::int64_t amount) {
  std::vector<Pick> picks;
  const auto found = streams_.find(item);
  if (found == streams_.end()) return picks;
  Stream& stream = found->second;
  while (amount > 0 && stream.at < stream.packs.size()) {
    const Portioned& pack = stream.packs[stream.at];
    const std::int64_t taken = std::min(amount, pack.content - stream.taken);
    picks.push_back({item.first, item.second, taken, pack.pack, -1, -1, -1, -1});
    if (stream.taken == 0) ++open_;
    stream.taken += taken;
    stream.left -= taken;
    amount -= taken;
    if (stream.taken < pack.content) continue;
    --open_;
    ++stream.at;
    stream.taken = 0;
  }
  return picks;
}

std::int64_t PackStreams::left(std::pair<int, int> item) const {
  const auto found = streams_.find(item);
  return found == streams_.end() ? 0 : found->second.left;
}

std::vector<std::pair<int, int>> PackStreams::items() const {
  std::vector<std::pair<int, int>> items;
  for (const auto& [item, stream] : streams_) items.push_back(item);
  return items;
}

}  // namespace teetally
