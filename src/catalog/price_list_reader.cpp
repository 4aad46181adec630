#include "catalog/price_list_reader.h"

#include <algorithm>

#include "teetally/base/text.h"

namespace teetally {
namespace {

// The column of this name, or -1.
int column_of(const CsvRow& header, std::string_view name) {
  for (std::size_t i = 0; i < header.cells.size(); ++i) {
    if (lower_case(trimmed(header.cells[i].text)) == name) return static_cast<int>(i);
  }
  return -1;
}

int needed_column(const CsvRow& header, const std::string& name, Diagnostics& diagnostics) {
  const int column = column_of(header, name);
  if (column >= 0) return column;
  diagnostics.error("catalog/price-list-header", header.place, "the first row names no column " + quoted(name)).help =
      "a price list starts with a row such as: sku,name,price";
  return column;
}

const std::string& cell(const CsvRow& row, int column) { return row.cells[static_cast<std::size_t>(column)].text; }

void refuse_twice(const ListRow& row, const ListRow& first, Diagnostics& diagnostics) {
  Diagnostic& d = diagnostics.error("catalog/price-list-twice", row.place,
                                    "the list prices " + quoted(printable(row.sku)) + " twice");
  d.help = "leave one of the two rows out";
  d.notes.push_back({"the first one", first.place});
}

}  // namespace

std::vector<ListRow> read_price_list(const Source& list, const Currency& currency, Diagnostics& diagnostics) {
  std::vector<ListRow> rows;
  const std::vector<CsvRow> all = read_csv(list, diagnostics);
  if (all.empty()) {
    if (!diagnostics.has_errors()) {
      diagnostics.error("catalog/price-list-header", {list, 1, 1}, "the price list is empty").help =
          "a price list starts with a row such as: sku,name,price";
    }
    return rows;
  }
  const int sku = needed_column(all.front(), "sku", diagnostics);
  const int price = needed_column(all.front(), "price", diagnostics);
  const int name = column_of(all.front(), "name");
  if (sku < 0 || price < 0) return rows;
  std::map<std::string, std::size_t> seen;
  for (std::size_t i = 1; i < all.size(); ++i) {
    const CsvCell& priced = all[i].cells[static_cast<std::size_t>(price)];
    const auto amount = parse_money(trimmed(priced.text), currency);
    if (!amount || amount->minor == 0) {
      diagnostics.error("catalog/price-list-price", priced.place,
                        amount ? std::string("the price is 0; a price above 0 is expected") : amount.error());
      continue;
    }
    const std::string_view called = name < 0 ? std::string_view() : trimmed(cell(all[i], name));
    const ListRow row{std::string(trimmed(cell(all[i], sku))), std::string(called), *amount, all[i].place};
    if (const auto [first, is_new] = seen.emplace(row.sku, rows.size()); !is_new) {
      refuse_twice(row, rows[first->second], diagnostics);
      continue;
    }
    rows.push_back(row);
  }
  return rows;
}

}  // namespace teetally
