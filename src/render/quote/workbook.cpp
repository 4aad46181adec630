// Quotes as workbooks. The customer's is made from the customer's copy alone.
#include "render/workbook.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "render/quote/words.h"
#include "teetally/render/workbooks.h"

namespace teetally {
namespace {

void add_fact(Sheet& sheet, const char* what, const std::string& text) {
  if (!text.empty()) sheet.rows.push_back({text_cell(what, CellLook::quiet), text_cell(text)});
}

void add_head(Sheet& sheet, const std::vector<std::string>& words) {
  sheet.rows.push_back({});
  sheet.rows.push_back(heading_row(words));
}

std::string sum_of(std::size_t first, std::size_t after, std::size_t column) {
  if (after == first) return "0";
  return fmt::format("SUM({}:{})", cell_name(first, column), cell_name(after - 1, column));
}

std::string name_of(const CustomerCopy& copy) { return copy.name.empty() ? "Quote" : copy.name; }

void add_price(Sheet& sheet, const CustomerCopy& copy) {
  const auto units = [&](Money amount) { return in_units(amount, copy.currency); };
  add_head(sheet, {"Part of the work", copy.currency.code});
  const std::size_t first = sheet.rows.size();
  for (const PricedSection& section : copy.sections) {
    sheet.rows.push_back({text_cell(section.what), number_cell(units(section.price), CellLook::money)});
  }
  const std::size_t price = sheet.rows.size();
  sheet.rows.push_back({text_cell("Price before tax", CellLook::sum_words),
                        formula_cell(sum_of(first, price, 1), units(copy.price), CellLook::sum_money)});
  sheet.rows.push_back(
      {text_cell(copy.tax_words.empty() ? "Tax" : copy.tax_words), number_cell(units(copy.tax), CellLook::money)});
  const std::size_t total = sheet.rows.size();
  sheet.rows.push_back(
      {text_cell("Total", CellLook::sum_words),
       formula_cell(cell_name(price, 1) + "+" + cell_name(price + 1, 1), units(copy.total), CellLook::sum_money)});
  add_head(sheet, {"Payments", copy.currency.code});
  const std::size_t payments = sheet.rows.size();
  for (std::size_t i = 0; i < copy.payments.size(); ++i) {
    const Payment& payment = copy.payments[i];
    const double amount = units(payment.amount);
    // The last is what is left.
    sheet.rows.push_back(
        {text_cell(payment.what),
         i + 1 < copy.payments.size()
             ? number_cell(amount, CellLook::money)
             : formula_cell(cell_name(total, 1) + "-" + sum_of(payments, payments + i, 1), amount, CellLook::money)});
  }
}

Sheet quote_sheet(const CustomerCopy& copy) {
  Sheet sheet{"Quote", {58, 16}, {{text_cell(name_of(copy), CellLook::title)}}};
  if (copy.number > 0) {
    add_fact(sheet, "Quote",
             std::to_string(copy.number) +
                 (copy.revision > 1 ? ", revision " + std::to_string(copy.revision) : std::string()));
  }
  add_fact(sheet, "From", copy.business);
  add_fact(sheet, "For", copy.customer);
  add_fact(sheet, "Site", copy.site);
  std::string work = copy.scope;
  std::replace(work.begin(), work.end(), '\n', ' ');
  add_fact(sheet, "Work", work);
  add_fact(sheet, "Date", copy.made_on);
  add_fact(sheet, "Prices hold until", copy.valid_until.value_or(""));
  add_price(sheet, copy);
  if (!copy.options.empty()) add_head(sheet, {"Options, one instead of another", "Total " + copy.currency.code});
  for (const QuotedOption& option : copy.options) {
    sheet.rows.push_back({text_cell(option.name + (option.differs.empty() ? "" : ": " + option.differs)),
                          number_cell(in_units(option.total, copy.currency), CellLook::money)});
  }
  add_head(sheet, {"What is supplied", "Amount"});
  for (const SuppliedPart& part : copy.parts) sheet.rows.push_back({text_cell(part.what), text_cell(part.amount)});
  add_head(sheet, {"Not included"});
  for (const std::string& text : copy.exclusions) sheet.rows.push_back({text_cell(text)});
  add_head(sheet, {"Take care"});
  for (const std::string& text : copy.cautions) sheet.rows.push_back({text_cell(text)});
  return sheet;
}

double share(Money part, Money whole) {
  return whole.minor == 0 ? 0 : static_cast<double>(part.minor) / static_cast<double>(whole.minor);
}

constexpr std::int64_t kWhole = 1'000'000;  // 100 %

// The roundest percentage for which `holds`, so that a person finds theirs, 10 % and not 10.00127 %; else the ratio.
template <typename Holds>
double roundest(double ratio, Holds holds) {
  for (const std::int64_t step : {10'000, 1'000, 100, 10, 1}) {
    const std::int64_t ppm = std::llround(ratio * static_cast<double>(kWhole) / static_cast<double>(step)) * step;
    if (holds(Percent{ppm})) return static_cast<double>(ppm) / static_cast<double>(kWhole);
  }
  return ratio;
}

// Where a sum lies half way between minor units a workbook, which reckons in binary fractions, may round it either way.
bool is_half_way(Money sum, std::int64_t times, std::int64_t divisor) {
  return (2 * sum.minor % (2 * divisor)) * times % (2 * divisor) == divisor;
}
double share_of_costs(Money part, Money whole) {
  return roundest(share(part, whole), [&](Percent percent) {
    return share_of(percent, whole) == part && !is_half_way(whole, percent.ppm, kWhole);
  });
}
double share_of_price(Money profit, Money cost) {
  return roundest(share(profit, cost + profit), [&](Percent percent) {
    return percent.ppm < kWhole && price_with_margin(cost, percent) == cost + profit &&
           !is_half_way(cost, kWhole, kWhole - percent.ppm);
  });
}

bool is_margin(const CostSheet& costs) { return costs.profit_words.starts_with("margin"); }

// From the costs to the price: shares may be changed, and the price follows.
void add_steps(Sheet& sheet, const Quote& quote, const std::string& costs_sum, Money direct) {
  const CostSheet& costs = quote.costs;
  const Currency& currency = quote.copy.currency;
  Money so_far = direct;
  sheet.rows.push_back({});
  std::size_t above = sheet.rows.size();
  sheet.rows.push_back({text_cell("Direct costs"),
                        {},
                        {},
                        {},
                        {},
                        formula_cell(costs_sum, in_units(direct, currency), CellLook::money)});
  const auto add = [&](const std::string& what, Money amount, bool of_price) {
    const std::size_t row = sheet.rows.size();
    const std::string share = cell_name(row, 4), base = cell_name(above, 5);
    const std::string part = of_price ? base + "/(1-" + share + ")-" + base : share + "*" + base;
    sheet.rows.push_back(
        {text_cell(what),
         {},
         {},
         text_cell(of_price ? "share of the price" : "share of the above", CellLook::quiet),
         number_cell(of_price ? share_of_price(amount, so_far) : share_of_costs(amount, so_far), CellLook::percent),
         formula_cell(fmt::format("ROUND({},{})", part, currency.exponent), in_units(amount, currency),
                      CellLook::money)});
    so_far += amount;
    above = sheet.rows.size();
    sheet.rows.push_back(
        {text_cell("So far", CellLook::quiet),
         {},
         {},
         {},
         {},
         formula_cell(cell_name(row - 1, 5) + "+" + cell_name(row, 5), in_units(so_far, currency), CellLook::money)});
  };
  add("Overhead", costs.overhead, false);
  add("Contingency", costs.contingency, false);
  add("Profit, " + costs.profit_words, costs.profit, is_margin(costs));
  sheet.rows.back()[0] = text_cell("Price before tax", CellLook::sum_words);
  sheet.rows.push_back({text_cell("Profit as a share of the price"),
                        {},
                        {},
                        {},
                        {},
                        formula_cell(fmt::format("IF({0}=0,0,{1}/{0})", cell_name(above, 5), cell_name(above - 1, 5)),
                                     share(costs.profit, so_far), CellLook::percent)});
}

void add_options(Sheet& sheet, const Quote& quote) {
  if (quote.costs.options.empty()) return;
  const auto money = [&](Money amount) { return number_cell(in_units(amount, quote.copy.currency), CellLook::money); };
  add_head(sheet, {"Option", "", "Cost", "Profit", "Price", "Margin"});
  for (const OptionCosts& option : quote.costs.options) {
    const std::size_t row = sheet.rows.size();
    const Money price = option.cost + option.profit;
    sheet.rows.push_back({text_cell(option.name),
                          {},
                          money(option.cost),
                          money(option.profit),
                          formula_cell(cell_name(row, 2) + "+" + cell_name(row, 3),
                                       in_units(price, quote.copy.currency), CellLook::money),
                          formula_cell(fmt::format("IF({0}=0,0,{1}/{0})", cell_name(row, 4), cell_name(row, 3)),
                                       share(option.profit, price), CellLook::percent)});
  }
}

Sheet costs_sheet(const Quote& quote) {
  const Currency& currency = quote.copy.currency;
  Sheet sheet{"Costs", {46, 20, 16, 18, 12, 14}, {{text_cell("Not for the customer", CellLook::title)}}};
  add_head(sheet, {"What", "Supplier", "Sku", "Count", "Each", "Cost " + currency.code});
  const std::size_t first = sheet.rows.size();
  Money direct{};
  for (const CostLine& line : quote.costs.lines) {
    const std::size_t row = sheet.rows.size();
    const double divisor = line.part == CostPart::labour ? 100 : 1;  // hours are kept in hundredths
    const double cost = in_units(line.cost, currency);
    direct += line.cost;
    std::vector<Cell> cells = {text_cell(line.what), text_cell(line.supplier), text_cell(line.sku)};
    if (line.price) {
      cells.push_back(number_cell(static_cast<double>(line.count) / divisor, CellLook::amount));
      cells.push_back(number_cell(in_units(*line.price, currency), CellLook::money));
      cells.push_back(
          formula_cell(fmt::format("ROUND({}*{},{})", cell_name(row, 3), cell_name(row, 4), currency.exponent), cost,
                       CellLook::money));
    } else {
      cells.insert(cells.end(), {{}, {}, number_cell(cost, CellLook::money)});
    }
    sheet.rows.push_back(std::move(cells));
  }
  add_steps(sheet, quote, sum_of(first, sheet.rows.size(), 5), direct);
  add_options(sheet, quote);
  for (const std::string& note : quote.costs.notes) sheet.rows.push_back({text_cell(note, CellLook::quiet)});
  return sheet;
}

}  // namespace

std::string quote_workbook(const CustomerCopy& copy) {
  return workbook_bytes({name_of(copy), copy.business, copy.made_on, copy.currency.exponent, {quote_sheet(copy)}});
}

std::string internal_quote_workbook(const Quote& quote) {
  const CustomerCopy& copy = quote.copy;
  return workbook_bytes({name_of(copy) + " (internal)",
                         copy.business,
                         copy.made_on,
                         copy.currency.exponent,
                         {quote_sheet(copy), costs_sheet(quote)}});
}

}  // namespace teetally
