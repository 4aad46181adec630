#include "render/order_parts.h"
#include "render/phrases.h"
#include "render/walk.h"

namespace teetally {
namespace {

std::string bought_text(const WalkView& view, int need, const Page& page) {
  std::string out;
  for (const BoughtAs& bought : bought_for(view, need)) {
    const Catalog& catalog = *view.book->catalogs[static_cast<std::size_t>(bought.catalog)];
    const LineParts parts = parts_of(catalog, *bought.line, page.units);
    out += wrapped(std::to_string(bought.line->count) + " x " + printable(parts.sku) + " " + printable(parts.what) +
                       ", " + to_text(bought.line->goods, catalog.currency) + " " + catalog.currency.code + ", from " +
                       printable(catalog.name),
                   page.width, 4, 6);
  }
  return out.empty() ? out : "  bought as\n" + out;
}

std::string offers_text(const WalkView& view, int need, const Page& page) {
  TextTable table{{{""}, {"", Column::Side::left, true}, {""}, {"", Column::Side::right}}, {}};
  for (const Serving& serving : view.book->servings) {
    if (serving.need != need) continue;
    const BookItem& sold = view.book->items[static_cast<std::size_t>(serving.item)];
    const Catalog& catalog = *view.book->catalogs[static_cast<std::size_t>(sold.catalog)];
    const Item& item = catalog.items[static_cast<std::size_t>(sold.item)];
    if (item.packs.empty()) {
      table.rows.push_back({printable(item.sku), printable(item.name), printable(catalog.id), "in bundles"});
    }
    for (const Pack& pack : item.packs) {
      const std::string words = pack_words(pack, page.units);
      table.rows.push_back({printable(pack.sku.empty() ? item.sku : pack.sku),
                            printable(item.name) + (words.empty() ? "" : ", " + words), printable(catalog.id),
                            to_text(pack.prices.front().price, catalog.currency)});
    }
  }
  return table.rows.empty() ? std::string("  no item on offer serves it\n")
                            : "  can be served by\n" + laid_out(table, page.width, 4);
}

std::string misses_text(const WalkView& view, int need, const Page& page) {
  std::string out;
  for (const NearMiss& miss : view.book->near_misses) {
    if (miss.need != need) continue;
    const MissedItem missed = missed_item(*view.book, miss);
    out += wrapped("- " + printable(missed.item->sku) + " " + printable(missed.item->name) + " (" +
                       printable(missed.catalog->id) + "): " + printable(miss.why),
                   page.width, 4, 6);
  }
  return out.empty() ? out : "  nearly, but not\n" + out;
}

std::string reasons_text(const Need& need, const Page& page) {
  std::string out = "  because\n";
  for (const Reason& reason : need.reasons) {
    std::string text = amount_text(need, reason.amount, page.units) + "  ";
    text += class_prefix(reason);
    text += printable(reason.element);
    if (!reason.rule.empty()) text += (reason.element.empty() ? "" : ": ") + printable(reason.rule);
    if (!reason.where.empty()) text += " (" + printable(reason.where) + ")";
    out += wrapped(text, page.width, 4, 8);
    if (!reason.place.known()) continue;
    out += "        " + printable(to_string(reason.place)) + ": " + shown_line(reason.place) + "\n";
  }
  return out;
}

}  // namespace

std::string walk_text(const WalkView& view, const Page& page) {
  std::string out;
  for (const int n : view.needs) {
    const Need& need = view.takeoff.needs[static_cast<std::size_t>(n)];
    if (!out.empty()) out += "\n";
    out += wrapped(need.id + "  " + amount_text(need, need.amount, page.units) + (need.by_length ? " of " : " x ") +
                       part_phrase(need.part, page.units),
                   page.width, 0, 5);
    if (view.purchase != nullptr) out += bought_text(view, n, page);
    if (view.book != nullptr) out += offers_text(view, n, page) + misses_text(view, n, page);
    out += reasons_text(need, page);
  }
  return out;
}

}  // namespace teetally
