#include <algorithm>

#include "teetally/store/stock.h"

namespace teetally {
namespace {

const Item& item_of(const OfferBook& book, int catalog, int item) {
  return book.catalogs[static_cast<std::size_t>(catalog)]->items[static_cast<std::size_t>(item)];
}

bool is_on_hand(const OfferBook& book, int catalog) {
  return catalog >= 0 && book.catalogs[static_cast<std::size_t>(catalog)]->id == kOnHandId;
}

bool is_cut(const Purchase& purchase, int catalog, int item) {
  for (const CutCoil& coil : purchase.coils) {
    if (coil.catalog == catalog && coil.item == item) return true;
  }
  return false;
}

// The longest coil of an item on offer; zero for what is sold by the piece.
Length longest_coil(const Catalog& catalog, int item) {
  Length longest;
  for (const Pack& pack : catalog.items[static_cast<std::size_t>(item)].packs) longest = std::max(longest, pack.length);
  for (const Bundle& bundle : catalog.bundles) {
    for (const BundleContent& content : bundle.contents) {
      if (content.item == item) longest = std::max(longest, content.length);
    }
  }
  return longest;
}

StockPart described(const Item& item, Length length) {
  StockPart part{item, length};
  part.item.packs.clear();
  return part;
}

void take(const OfferBook& book, const SupplierOrder& order, std::vector<StockChange>& changes) {
  for (const OrderLine& line : order.lines) {
    const auto number = stock_number(item_of(book, order.catalog, line.item).sku);
    if (!number) continue;  // from a list of parts on hand, which is no stock
    StockChange change;
    change.number = *number;
    change.change = -line.count;
    change.move = StockMove::used;
    changes.push_back(std::move(change));
  }
}

StockChange received(const Item& item, Length length, std::int64_t count) {
  StockChange change;
  change.part = described(item, length);
  change.change = count;
  return change;
}

}  // namespace

std::vector<StockChange> changes_of_cut(const Store& store, std::int64_t number, Length used, UnitSystem units,
                                        Diagnostics& diagnostics) {
  StockChange gone;
  gone.number = number;
  gone.change = -1;
  gone.move = StockMove::used;
  const std::vector<StockEntry> all = list_stock(store, true);
  const auto entry = std::find_if(all.begin(), all.end(), [&](const StockEntry& e) { return e.number == number; });
  if (entry == all.end()) return {gone};  // booking it says that there is none
  const Length piece = entry->part.length;
  if (piece < used) {
    const std::string name = stock_name(number) + " (" + printable(entry->part.item.name) + ")";
    diagnostics
        .error("store/not-cut", {},
               piece.tenths_mm == 0
                   ? name + " comes in pieces; found the length " + to_text(used, units)
                   : name + " is " + to_text(piece, units) + " long, found " + to_text(used, units) + " to cut from it")
        .help = piece.tenths_mm == 0 ? "say how many pieces: teetally stock use " + stock_name(number) + " 1"
                                     : "'teetally stock list' shows the other pieces";
    return {};
  }
  if (piece == used) return {gone};
  return {gone, received(entry->part.item, piece - used, 1)};
}

std::vector<StockChange> changes_of_order(const OfferBook& book, const Purchase& purchase) {
  std::vector<StockChange> changes;
  for (const SupplierOrder& order : purchase.orders) {
    if (is_on_hand(book, order.catalog)) take(book, order, changes);
  }
  for (const Leftover& left : purchase.leftovers) {
    if (is_on_hand(book, left.catalog) || is_cut(purchase, left.catalog, left.item)) continue;
    const Item& item = item_of(book, left.catalog, left.item);
    const Length coil = longest_coil(*book.catalogs[static_cast<std::size_t>(left.catalog)], left.item);
    if (coil.tenths_mm == 0) {
      changes.push_back(received(item, {}, left.amount));
    } else {  // no cut list tells the offcuts; one piece is sure
      changes.push_back(received(item, std::min(coil, Length{left.amount}), 1));
    }
  }
  for (const CutCoil& coil : purchase.coils) {
    if (coil.catalog < 0 || !coil.spare) continue;
    changes.push_back(received(item_of(book, coil.catalog, coil.item), coil.left, 1));
  }
  return changes;
}

std::vector<StockChange> changes_of_list(const Catalog& on_hand) {
  std::vector<StockChange> changes;
  for (const Item& item : on_hand.items) {
    for (const Pack& pack : item.packs) {
      const std::int64_t count = pack.stock.value_or(0);
      if (count > 0) changes.push_back(received(item, pack.length, count));
    }
  }
  return changes;
}

}  // namespace teetally
