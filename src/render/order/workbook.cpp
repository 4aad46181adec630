// The order as a workbook: a sheet for each supplier, their sum, what each need gets, and what is left over.
#include "render/workbook.h"

#include <fmt/format.h>

#include "render/order/leftover_cells.h"
#include "render/order/words.h"
#include "render/shares.h"
#include "teetally/render/workbooks.h"

namespace teetally {
namespace {

// Columns of a supplier's sheet.
constexpr std::size_t kPacks = 2, kPrice = 3, kTotal = 4;

std::string decimal(Percent percent) {
  return fmt::format("{}.{:06}", percent.ppm / 1'000'000, percent.ppm % 1'000'000);
}

// Of steps that begin at `from` and are sorted, the last one reached: IF(x>=400,a,IF(x>=150,b,0)).
template <typename Step, typename From, typename Value>
std::string stepped(const std::vector<Step>& steps, const std::string& reached, From from, Value value,
                    std::string otherwise) {
  for (const Step& step : steps) {
    otherwise = fmt::format("IF({}>={},{},{})", reached, from(step), value(step), otherwise);
  }
  return otherwise;
}

// One supplier's sheet while it is written.
class SupplierSheet {
 public:
  SupplierSheet(const Catalog& catalog, std::size_t number, UnitSystem units)
      : catalog_(catalog), units_(units), owned_(catalog.id == kOnHandId) {
    sheet_.name = sheet_name(number, owned_ ? "What you have" : supplier_words(catalog));
    sheet_.widths = {16, 46, 8, 11, 12, 60};
    sheet_.rows.push_back({text_cell(owned_ ? "Used from what you have" : supplier_words(catalog), CellLook::title)});
    sheet_.rows.push_back({text_cell(catalog.notice, CellLook::quiet)});
    sheet_.rows.push_back({});
    sheet_.rows.push_back(heading_row({"Sku", "What", "Packs", "Price", "Total", "Changes"}));
    first_ = sheet_.rows.size();
  }

  void add(const OrderLine& line) {
    const LineParts parts = parts_of(catalog_, line, units_);
    std::vector<Cell> row = {text_cell(parts.sku),
                             text_cell(parts.what),
                             number_cell(static_cast<double>(line.count), CellLook::plain),
                             price_of_line(line, parts),
                             total_of_line(line, parts),
                             text_cell(listed(parts.changes))};
    sheet_.rows.push_back(std::move(row));
  }

  // Answers the cell that holds the total.
  std::string finish(const OrderCost& cost) {
    const Currency& currency = catalog_.currency;
    const OrderingTerms& terms = catalog_.terms;
    const std::size_t last = sheet_.rows.size() - 1;
    const auto money = [&](Money amount) { return to_string(amount, currency); };
    const std::string goods =
        add_step("goods", fmt::format("SUM({}:{})", cell_name(first_, kTotal), cell_name(last, kTotal)), cost.goods);
    const std::string percent = stepped(
        terms.discounts, goods, [&](const DiscountStep& s) { return money(s.from); },
        [](const DiscountStep& s) { return decimal(s.percent); }, "0");
    const std::string discount =
        add_step("discount", fmt::format("-ROUND({}*{},{})", goods, percent, currency.exponent), -cost.discount);
    const std::string value = fmt::format("({}+{})", goods, discount);
    const std::string shipping =
        add_step("shipping",
                 stepped(
                     terms.shipping, value, [&](const ShippingStep& s) { return money(s.from); },
                     [&](const ShippingStep& s) { return money(s.fee); }, "0"),
                 cost.shipping);
    const std::string fee = add_step(
        "small-order fee",
        terms.small_order_below
            ? fmt::format("IF({}<{},{},0)", value, money(*terms.small_order_below), money(terms.small_order_fee))
            : "0",
        cost.small_order_fee);
    const std::string taxed = terms.tax_on_shipping ? fmt::format("({}+{}+{})", value, shipping, fee) : value;
    add_step("tax " + to_string(terms.tax),
             fmt::format("ROUND({}*{},{})", taxed, decimal(terms.tax), currency.exponent), cost.tax);
    const std::size_t end = sheet_.rows.size();
    sheet_.rows.push_back({{},
                           {},
                           {},
                           text_cell("total " + currency.code, CellLook::sum_words),
                           formula_cell(fmt::format("SUM({}:{})", goods, cell_name(end - 1, kTotal)),
                                        in_units(cost.total, currency), CellLook::sum_money)});
    return cell_name(end, kTotal);
  }

  const Sheet& sheet() const { return sheet_; }

 private:
  std::string packs() const { return cell_name(sheet_.rows.size(), kPacks); }

  const Pack* pack_of(const OrderLine& line) const {
    if (line.bundle >= 0) return nullptr;
    return &catalog_.items[static_cast<std::size_t>(line.item)].packs[static_cast<std::size_t>(line.pack)];
  }

  // A number to change, or the price of the step that the count reaches.
  Cell price_of_line(const OrderLine& line, const LineParts& parts) const {
    const Pack* pack = pack_of(line);
    if (!parts.price || (pack != nullptr && pack->prices.size() > 1 && pack->rule == BreakRule::incremental)) {
      return text_cell(pack == nullptr ? "" : "stepped", CellLook::quiet);
    }
    const double price = in_units(*parts.price, catalog_.currency);
    if (pack == nullptr || pack->prices.size() == 1) return number_cell(price, CellLook::money);
    return formula_cell(stepped(
                            pack->prices, packs(), [](const PriceBreak& s) { return std::to_string(s.from); },
                            [&](const PriceBreak& s) { return to_string(s.price, catalog_.currency); }, "0"),
                        price, CellLook::money);
  }

  Cell total_of_line(const OrderLine& line, const LineParts& parts) const {
    const double goods = in_units(line.goods, catalog_.currency);
    const Pack* pack = pack_of(line);
    if (pack != nullptr && pack->prices.size() > 1 && pack->rule == BreakRule::incremental) {
      return formula_cell(by_increments(*pack), goods, CellLook::money);
    }
    if (!parts.price) return number_cell(goods, CellLook::money);  // a bundle with changes has no price of its own
    return formula_cell(packs() + "*" + cell_name(sheet_.rows.size(), kPrice), goods, CellLook::money);
  }

  // Every pack at the first price, and from each step on the difference to the price before.
  std::string by_increments(const Pack& pack) const {
    const auto money = [&](Money amount) { return to_string(amount, catalog_.currency); };
    std::string sum = packs() + "*" + money(pack.prices.front().price);
    for (std::size_t i = 1; i < pack.prices.size(); ++i) {
      sum += fmt::format("+MAX(0,{}-{})*({}-{})", packs(), pack.prices[i].from - 1, money(pack.prices[i].price),
                         money(pack.prices[i - 1].price));
    }
    return sum;
  }

  std::string add_step(const std::string& words, std::string formula, Money result) {
    const std::size_t row = sheet_.rows.size();
    const double units = owned_ ? 0 : in_units(result, catalog_.currency);
    sheet_.rows.push_back(
        {{}, {}, {}, text_cell(words, CellLook::quiet), formula_cell(std::move(formula), units, CellLook::money)});
    return cell_name(row, kTotal);
  }

  const Catalog& catalog_;
  UnitSystem units_;
  bool owned_;
  Sheet sheet_;
  std::size_t first_ = 0;
};

Sheet needs_sheet(const OrderView& view, UnitSystem units) {
  Sheet sheet{"Needs", {8, 60, 8, 12, 12, 12}, {}};
  sheet.rows.push_back(heading_row({"Need", "Part", "Unit", "Needed", "Bought", "Spare"}));
  for (const NeedShare& share : shares_of(view)) {
    const Need& need = view.book.takeoff.needs[static_cast<std::size_t>(share.need)];
    const std::int64_t needed = needed_with_joins(view.book, view.purchase, share.need);
    if (needed == 0) continue;
    const std::size_t row = sheet.rows.size();
    const double wanted = measured(need.by_length, needed, units);
    const double bought = measured(need.by_length, share.bought, units);
    sheet.rows.push_back(
        {text_cell(need.id), text_cell(to_text(need.part, units)), text_cell(unit_words(need.by_length, units)),
         number_cell(wanted, CellLook::amount), number_cell(bought, CellLook::amount),
         formula_cell(cell_name(row, 4) + "-" + cell_name(row, 3), bought - wanted, CellLook::amount)});
  }
  return sheet;
}

Sheet leftovers_sheet(const OrderView& view, UnitSystem units) {
  Sheet sheet{"Left over", {16, 46, 12, 8, 14}, {}};
  sheet.rows.push_back(leftover_heading());
  for (const LeftoverLine& left : leftovers_by_worth(view)) sheet.rows.push_back(leftover_cells(left, units));
  return sheet;
}

}  // namespace

std::string order_workbook(const OrderView& view, UnitSystem units, const std::string& made_on) {
  const Currency& currency = view.book.catalogs.front()->currency;
  const std::string name = view.book.takeoff.name.empty() ? "Parts" : view.book.takeoff.name;
  Sheet sum{"Total", {46, 14}, {{text_cell(name, CellLook::title)}, {}}};
  sum.rows.push_back({text_cell("Supplier", CellLook::heading), text_cell(currency.code, CellLook::heading)});
  std::vector<Sheet> suppliers;
  for (const SupplierOrder& order : view.purchase.orders) {
    const Catalog& catalog = catalog_at(view.book, order.catalog);
    SupplierSheet sheet(catalog, suppliers.size() + 1, units);
    for (const OrderLine& line : order.lines) sheet.add(line);
    const std::string total = sheet.finish(order.cost);
    suppliers.push_back(sheet.sheet());
    sum.rows.push_back({text_cell(catalog.id == kOnHandId ? "What you have" : supplier_words(catalog)),
                        formula_cell("'" + suppliers.back().name + "'!" + total, in_units(order.cost.total, currency),
                                     CellLook::money)});
  }
  sum.rows.push_back({text_cell("Total", CellLook::sum_words),
                      formula_cell(fmt::format("SUM(B4:B{})", sum.rows.size()), in_units(view.purchase.total, currency),
                                   CellLook::sum_money)});
  sum.rows.push_back({});
  sum.rows.push_back({text_cell(proof_words(view), CellLook::quiet)});
  Workbook book{name, "", made_on, currency.exponent, {std::move(sum)}};
  for (Sheet& sheet : suppliers) book.sheets.push_back(std::move(sheet));
  book.sheets.push_back(needs_sheet(view, units));
  book.sheets.push_back(leftovers_sheet(view, units));
  return workbook_bytes(book);
}

}  // namespace teetally
