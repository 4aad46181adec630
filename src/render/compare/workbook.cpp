// The ways to buy as a workbook: what each total is made of, what each takes, and what it leaves over.
#include "render/workbook.h"

#include <fmt/format.h>

#include "render/compare/ways.h"
#include "render/order/leftover_cells.h"
#include "render/order/words.h"
#include "render/page/pictures.h"
#include "render/shares.h"
#include "teetally/render/workbooks.h"

namespace teetally {
namespace {

constexpr std::size_t kGoods = 2, kTotal = 7;  // columns of the first sheet

Sheet sums_sheet(const CompareView& view, const std::vector<Way>& ways) {
  const Currency& currency = view.book.catalogs.front()->currency;
  Sheet sheet{"Side by side", {44, 34, 12, 12, 12, 14, 12, 12, 12, 70}, {}};
  sheet.rows.push_back({text_cell(view.book.takeoff.name.empty() ? "Parts" : view.book.takeoff.name, CellLook::title)});
  sheet.rows.push_back({text_cell(advice_sentence(view), CellLook::quiet)});
  sheet.rows.push_back(heading_row({"Way", "From", "Goods", "Discount", "Shipping", "Small-order fee", "Tax",
                                    "Total " + currency.code, "Dearer by", "Verdict"}));
  const std::string cheapest = cell_name(sheet.rows.size(), kTotal);
  for (const Way& way : ways) {
    const Purchase& purchase = *way.purchase;
    const std::string remark = way_remark(view, way);
    if (purchase.outcome != Outcome::bought) {
      sheet.rows.push_back({text_cell(way.what), text_cell(remark)});
      continue;
    }
    const std::size_t row = sheet.rows.size();
    const OrderCost cost = cost_of(purchase);
    std::vector<Cell> cells = {text_cell(way.what), text_cell(suppliers_phrase(view.book, purchase))};
    for (const Money amount : {cost.goods, -cost.discount, cost.shipping, cost.small_order_fee, cost.tax}) {
      cells.push_back(number_cell(in_units(amount, currency), CellLook::money));
    }
    cells.push_back(formula_cell(fmt::format("SUM({}:{})", cell_name(row, kGoods), cell_name(row, kTotal - 1)),
                                 in_units(purchase.total, currency), CellLook::sum_money));
    cells.push_back(formula_cell(cell_name(row, kTotal) + "-" + cheapest,
                                 in_units(purchase.total - view.comparison.best.total, currency), CellLook::money));
    cells.push_back(text_cell(way.verdict != nullptr ? verdict_phrase(view, *way.verdict) : remark));
    sheet.rows.push_back(std::move(cells));
  }
  return sheet;
}

void add_line(Sheet& sheet, const Way& way, const Catalog& catalog, const OrderLine& line, UnitSystem units) {
  const LineParts parts = parts_of(catalog, line, units);
  const std::size_t row = sheet.rows.size();
  const double goods = in_units(line.goods, catalog.currency);
  std::vector<Cell> cells = {text_cell(way.what), text_cell(supplier_words(catalog)), text_cell(parts.sku),
                             text_cell(parts.what), number_cell(static_cast<double>(line.count), CellLook::plain)};
  if (parts.price) {
    cells.push_back(number_cell(in_units(*parts.price, catalog.currency), CellLook::money));
    cells.push_back(formula_cell(cell_name(row, 4) + "*" + cell_name(row, 5), goods, CellLook::money));
  } else {
    cells.push_back(text_cell(price_words(catalog, line, parts)));
    cells.push_back(number_cell(goods, CellLook::money));
  }
  cells.push_back(text_cell(listed(parts.changes)));
  sheet.rows.push_back(std::move(cells));
}

Sheet orders_sheet(const CompareView& view, const std::vector<Way>& ways, UnitSystem units) {
  Sheet sheet{"Orders", {44, 28, 16, 46, 8, 11, 12, 60}, {}};
  sheet.rows.push_back(heading_row({"Way", "Supplier", "Sku", "What", "Packs", "Price", "Goods", "Changes"}));
  for (const Way& way : ways) {
    for (const SupplierOrder& order : way.purchase->orders) {
      const Catalog& catalog = *view.book.catalogs[static_cast<std::size_t>(order.catalog)];
      for (const OrderLine& line : order.lines) add_line(sheet, way, catalog, line, units);
    }
  }
  return sheet;
}

Sheet leftovers_sheet(const CompareView& view, const std::vector<Way>& ways, UnitSystem units) {
  Sheet sheet{"Left over", {44, 16, 46, 12, 8, 14}, {}};
  sheet.rows.push_back(leftover_heading());
  sheet.rows.back().insert(sheet.rows.back().begin(), text_cell("Way", CellLook::heading));
  for (const Way& way : ways) {
    for (const LeftoverLine& left : leftovers_by_worth({view.book, *way.purchase})) {
      sheet.rows.push_back(leftover_cells(left, units));
      sheet.rows.back().insert(sheet.rows.back().begin(), text_cell(way.what));
    }
  }
  return sheet;
}

}  // namespace

std::string comparison_workbook(const CompareView& view, UnitSystem units, const std::string& made_on) {
  const std::vector<Way> ways = ways_of(view);
  const std::string name = view.book.takeoff.name.empty() ? "Parts" : view.book.takeoff.name;
  Workbook book{name, "", made_on, view.book.catalogs.front()->currency.exponent, {}};
  book.sheets = {sums_sheet(view, ways), orders_sheet(view, ways, units), leftovers_sheet(view, ways, units)};
  return workbook_bytes(book);
}

}  // namespace teetally
