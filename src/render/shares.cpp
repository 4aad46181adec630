#include "render/shares.h"

#include <algorithm>

#include "render/order_parts.h"
#include "teetally/purchase/worth.h"

namespace teetally {
namespace {

std::int64_t leftover_of(const OrderView& view, int item) {
  const BookItem& sold = view.book.items[static_cast<std::size_t>(item)];
  std::int64_t amount = 0;
  for (const Leftover& left : view.purchase.leftovers) {
    if (left.catalog == sold.catalog && left.item == sold.item) amount += left.amount;
  }
  return amount;
}

}  // namespace

std::vector<NeedShare> shares_of(const OrderView& view) {
  std::vector<NeedShare> shares(view.book.takeoff.needs.size());
  for (std::size_t n = 0; n < shares.size(); ++n) shares[n].need = static_cast<int>(n);
  std::vector<bool> left_counted(view.book.items.size(), false);
  // Supplies come in any order; leftovers go to the first need of the takeoff that the item serves.
  for (NeedShare& share : shares) {
    for (const Supply& supply : view.purchase.supplies) {
      if (supply.need != share.need) continue;
      share.bought += supply.amount;
      share.items.push_back(supply.item);
      const auto item = static_cast<std::size_t>(supply.item);
      if (left_counted[item]) continue;
      left_counted[item] = true;
      share.bought += leftover_of(view, supply.item);
    }
  }
  return shares;
}

std::vector<LeftoverLine> leftovers_of(const OrderView& view) {
  std::vector<LeftoverLine> lines;
  const std::vector<std::optional<Money>> worth = worth_of_leftovers(view.book, view.purchase);
  for (std::size_t i = 0; i < worth.size(); ++i) {
    const Leftover& left = view.purchase.leftovers[i];
    const Catalog& catalog = *view.book.catalogs[static_cast<std::size_t>(left.catalog)];
    lines.push_back({&catalog, &catalog.items[static_cast<std::size_t>(left.item)], is_cut(catalog, left.item),
                     left.amount, worth[i]});
  }
  return lines;
}

std::vector<LeftoverLine> leftovers_by_worth(const OrderView& view) {
  std::vector<LeftoverLine> lines = leftovers_of(view);
  std::stable_sort(lines.begin(), lines.end(), [](const LeftoverLine& a, const LeftoverLine& b) {
    if (a.worth.has_value() != b.worth.has_value()) return a.worth.has_value();
    return a.worth && *b.worth < *a.worth;
  });
  return lines;
}

}  // namespace teetally
