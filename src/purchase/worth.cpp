#include "teetally/purchase/worth.h"

#include <algorithm>
#include <map>

namespace teetally {
namespace {

__extension__ typedef __int128 Wide;

constexpr Wide kFine = 1'000'000;  // shares of a bundle's price are kept in millionths of a minor unit

const Item& item_of(const Catalog& catalog, int item) { return catalog.items[static_cast<std::size_t>(item)]; }

std::int64_t content_of(const Pack& pack) { return pack.length.tenths_mm > 0 ? pack.length.tenths_mm : pack.count; }

struct Brought {
  int item = -1;
  std::int64_t amount = 0;  // pieces, or tenths of a millimetre
};

// What the bundles of an order line bring, with their changes.
std::vector<Brought> brought_by(const Bundle& bundle, const OrderLine& line) {
  std::vector<Brought> brought;
  std::vector<std::int64_t> as_listed(bundle.contents.size(), line.count);
  const auto amount_of = [](const BundleContent& content) {
    return content.length.tenths_mm > 0 ? content.length.tenths_mm : content.count;
  };
  for (const BundleChange& change : line.changes) {
    const auto at = static_cast<std::size_t>(change.content);
    as_listed[at] -= change.times;
    if (change.swap < 0) continue;
    const BundleContent& content = bundle.contents[at];
    brought.push_back({content.swaps[static_cast<std::size_t>(change.swap)].item, amount_of(content) * change.times});
  }
  for (std::size_t i = 0; i < as_listed.size(); ++i) {
    if (as_listed[i] > 0) brought.push_back({bundle.contents[i].item, amount_of(bundle.contents[i]) * as_listed[i]});
  }
  return brought;
}

// What so much costs loose, in millionths of a minor unit, by the pack with the least price for its size.
std::optional<Wide> loose_value(const Catalog& catalog, const Brought& brought) {
  std::optional<Wide> least;
  for (const Pack& pack : item_of(catalog, brought.item).packs) {
    const Wide value = kFine * pack.prices.front().price.minor * static_cast<Wide>(brought.amount) / content_of(pack);
    if (!least || value < *least) least = value;
  }
  return least;
}

// So much of an item, for so many millionths of a minor unit.
struct Paid {
  Wide cost = 0;
  Wide amount = 0;
};
using PaidByItem = std::map<int, Paid>;

void add_bundle(const Catalog& catalog, const OrderLine& line, PaidByItem& paid) {
  const std::vector<Brought> brought = brought_by(catalog.bundles[static_cast<std::size_t>(line.bundle)], line);
  std::vector<Wide> values;
  Wide sum = 0;
  for (const Brought& one : brought) {
    const auto value = loose_value(catalog, one);
    if (!value) return;
    values.push_back(*value);
    sum += *value;
  }
  if (sum == 0) return;
  for (std::size_t i = 0; i < brought.size(); ++i) {
    Paid& item = paid[brought[i].item];
    item.cost += values[i] * line.goods.minor / sum * kFine + values[i] * line.goods.minor % sum * kFine / sum;
    item.amount += brought[i].amount;
  }
}

PaidByItem paid_in(const Catalog& catalog, const SupplierOrder& order) {
  PaidByItem paid;
  for (const OrderLine& line : order.lines) {
    if (line.bundle >= 0) {
      add_bundle(catalog, line, paid);
      continue;
    }
    const Pack& pack = item_of(catalog, line.item).packs[static_cast<std::size_t>(line.pack)];
    paid[line.item].cost += kFine * line.goods.minor;
    paid[line.item].amount += static_cast<Wide>(line.count) * content_of(pack);
  }
  return paid;
}

Money share_of_paid(const Paid& paid, std::int64_t amount) {
  const Wide part = paid.cost * std::min<Wide>(amount, paid.amount);
  const Wide whole = paid.amount * kFine;
  return {static_cast<std::int64_t>((part * 2 + whole) / (whole * 2))};
}

}  // namespace

std::vector<std::optional<Money>> worth_of_leftovers(const OfferBook& book, const Purchase& purchase) {
  std::map<int, PaidByItem> paid;
  for (const SupplierOrder& order : purchase.orders) {
    paid[order.catalog] = paid_in(*book.catalogs[static_cast<std::size_t>(order.catalog)], order);
  }
  std::vector<std::optional<Money>> worth;
  for (const Leftover& left : purchase.leftovers) {
    const auto& items = paid[left.catalog];
    const auto found = items.find(left.item);
    worth.push_back(found == items.end() ? std::nullopt
                                         : std::optional<Money>(share_of_paid(found->second, left.amount)));
  }
  return worth;
}

}  // namespace teetally
