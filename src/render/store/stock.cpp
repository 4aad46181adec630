#include "render/json_parts.h"
#include "render/phrases.h"
#include "teetally/render/store.h"

namespace teetally {
namespace {

constexpr auto kRight = Column::Side::right;

std::string name_of(const StockEntry& entry, UnitSystem units) {
  return entry.part.item.name.empty() ? to_text(entry.part.item.part, units) : entry.part.item.name;
}

std::string length_text(const StockEntry& entry, UnitSystem units) {
  return entry.part.length.tenths_mm > 0 ? to_text(entry.part.length, units) : std::string();
}

Json entry_json(const StockEntry& entry, UnitSystem units) {
  const Item& item = entry.part.item;
  return Json::object()
      .set("number", stock_name(entry.number))
      .set("name", item.name)
      .set("sku", item.sku)
      .set("part", part_json(item.part, units))
      .set("length", entry.part.length.tenths_mm > 0 ? amount_json(true, entry.part.length.tenths_mm, units) : Json())
      .set("count", entry.count)
      .set("last_day", entry.last_day);
}

std::string signed_count(std::int64_t change) { return (change > 0 ? "+" : "") + std::to_string(change); }

}  // namespace

std::string stock_text(const std::vector<StockEntry>& entries, const Page& page) {
  if (entries.empty()) return "Nothing is on hand.\n";
  TextTable table{{{"Part"}, {"What", Column::Side::left, true}, {"Length", kRight}, {"On hand", kRight}, {"Since"}},
                  {}};
  for (const StockEntry& entry : entries) {
    table.rows.push_back({stock_name(entry.number), printable(name_of(entry, page.units)),
                          length_text(entry, page.units), std::to_string(entry.count), entry.last_day});
  }
  return laid_out(table, page.width, 0);
}

Json stock_document(const std::vector<StockEntry>& entries, UnitSystem units) {
  Json parts = Json::array();
  for (const StockEntry& entry : entries) parts.push(entry_json(entry, units));
  return Json::object().set("document", "teetally/stock").set("version", 1).set("parts", std::move(parts));
}

std::string stock_csv(const std::vector<StockEntry>& entries, UnitSystem units) {
  std::string out = csv_row({"part", "name", "what", "length", "on hand", "last day"});
  for (const StockEntry& entry : entries) {
    out += csv_row({stock_name(entry.number), entry.part.item.name, to_text(entry.part.item.part, units),
                    length_text(entry, units), std::to_string(entry.count), entry.last_day});
  }
  return out;
}

std::string booked_text(const std::vector<StockBooked>& booked, const Page& page) {
  if (booked.empty()) return "Nothing is left over, and nothing was taken: the stock is as it was.\n";
  TextTable table{
      {{"Part"}, {"What", Column::Side::left, true}, {"Length", kRight}, {""}, {"Change", kRight}, {"On hand", kRight}},
      {}};
  for (const StockBooked& one : booked) {
    table.rows.push_back({stock_name(one.entry.number), printable(name_of(one.entry, page.units)),
                          length_text(one.entry, page.units), to_text(one.move), signed_count(one.change),
                          std::to_string(one.entry.count)});
  }
  return laid_out(table, page.width, 0);
}

Json booked_document(const std::vector<StockBooked>& booked, UnitSystem units) {
  Json changes = Json::array();
  for (const StockBooked& one : booked) {
    changes.push(Json::object()
                     .set("move", to_text(one.move))
                     .set("change", one.change)
                     .set("part", entry_json(one.entry, units)));
  }
  return Json::object().set("document", "teetally/stock-changes").set("version", 1).set("changes", std::move(changes));
}

std::string booked_csv(const std::vector<StockBooked>& booked, UnitSystem units) {
  std::string out = csv_row({"part", "name", "length", "move", "change", "on hand"});
  for (const StockBooked& one : booked) {
    out += csv_row({stock_name(one.entry.number), name_of(one.entry, units), length_text(one.entry, units),
                    to_text(one.move), std::to_string(one.change), std::to_string(one.entry.count)});
  }
  return out;
}

}  // namespace teetally
