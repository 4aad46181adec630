#include <fmt/format.h>

#include <algorithm>

#include "render/phrases.h"
#include "render/quote/words.h"
#include "teetally/render/quote.h"

namespace teetally {
namespace {

constexpr auto kRight = Column::Side::right;

std::string head(const CustomerCopy& copy, const Page& page) {
  std::string out = title_line(copy.name, "Quote");
  if (copy.number > 0) {
    out += "Quote " + std::to_string(copy.number) +
           (copy.revision > 1 ? ", revision " + std::to_string(copy.revision) : std::string()) + "\n";
  }
  out += fact_text("From", copy.business, page) + fact_text("For", copy.customer, page) +
         fact_text("Site", copy.site, page);
  out += fact_text("Scope", copy.scope, page) + fact_text("Date", copy.made_on, page);
  if (copy.valid_until) out += fact_text("Prices hold until", *copy.valid_until, page);
  return out;
}

std::string price_text(const CustomerCopy& copy, const Page& page) {
  TextTable table{{{"", Column::Side::left, true}, {copy.currency.code, kRight}}, {}};
  for (const PricedSection& section : copy.sections) {
    if (section.price.minor != 0) table.rows.push_back({section.what, to_text(section.price, copy.currency)});
  }
  if (!copy.tax_words.empty()) {
    table.rows.push_back({"Price before tax", to_text(copy.price, copy.currency)});
    table.rows.push_back({copy.tax_words, to_text(copy.tax, copy.currency)});
  }
  table.rows.push_back({"Total", to_text(copy.total, copy.currency)});
  return heading("Price") + laid_out(table, page.width, 2);
}

std::string payments_text(const CustomerCopy& copy, const Page& page) {
  TextTable table{{{"", Column::Side::left, true}, {copy.currency.code, kRight}}, {}};
  for (const Payment& payment : copy.payments) {
    table.rows.push_back({printable(payment.what), to_text(payment.amount, copy.currency)});
  }
  return heading("Payments") + laid_out(table, page.width, 2);
}

std::string options_text(const CustomerCopy& copy, const Page& page) {
  TextTable table{{{""}, {"", Column::Side::left, true}, {"Total " + copy.currency.code, kRight}}, {}};
  for (const QuotedOption& option : copy.options) {
    table.rows.push_back({printable(option.name), printable(option.differs), to_text(option.total, copy.currency)});
  }
  return table.rows.empty() ? std::string()
                            : heading("Options, one instead of another") + laid_out(table, page.width, 2);
}

std::string option_costs_text(const Quote& quote, const Page& page) {
  const Currency& currency = quote.copy.currency;
  TextTable table{
      {{"", Column::Side::left, true}, {"Cost", kRight}, {"Profit", kRight}, {"Price", kRight}, {"Margin", kRight}},
      {}};
  for (const OptionCosts& option : quote.costs.options) {
    table.rows.push_back({printable(option.name), to_text(option.cost, currency), to_text(option.profit, currency),
                          to_text(option.cost + option.profit, currency), to_string(option.margin)});
  }
  return table.rows.empty()
             ? std::string()
             : heading("What each option costs you, and its price before tax") + laid_out(table, page.width, 2);
}

std::string parts_text(const CustomerCopy& copy, const Page& page) {
  TextTable table{{{"Part", Column::Side::left, true}, {"Amount", kRight}}, {}};
  for (const SuppliedPart& part : copy.parts) table.rows.push_back({printable(part.what), printable(part.amount)});
  return table.rows.empty() ? std::string() : heading("What is supplied") + laid_out(table, page.width, 2);
}

std::string list_text(const std::string& title, const std::vector<std::string>& texts, const Page& page) {
  std::string out;
  for (const std::string& text : texts) out += wrapped("- " + printable(text), page.width, 2, 4);
  return out.empty() ? out : heading(title) + out;
}

std::string costs_text(const Quote& quote, const Page& page) {
  const Currency& currency = quote.copy.currency;
  const CostSheet& costs = quote.costs;
  TextTable table{{{"Supplier"},
                   {"Sku"},
                   {"What", Column::Side::left, true},
                   {"Count", kRight},
                   {"Each", kRight},
                   {currency.code, kRight}},
                  {}};
  for (const CostLine& line : costs.lines) {
    table.rows.push_back({printable(line.supplier), printable(line.sku), printable(line.what), count_text(line),
                          line.price ? to_text(*line.price, currency) : "", to_text(line.cost, currency)});
  }
  TextTable sums{{{"", Column::Side::left, true}, {currency.code, kRight}}, {}};
  for (const PriceStep& step : price_steps(quote)) sums.rows.push_back({step.what, to_text(step.amount, currency)});
  return heading("What it costs you (not for the customer)") + laid_out(table, page.width, 2) +
         heading("How the price is made") + laid_out(sums, page.width, 2) + option_costs_text(quote, page) +
         list_text("Left out of the reckoning", costs.notes, page);
}

}  // namespace

std::string fact_text(const std::string& name, const std::string& text, const Page& page) {
  std::string out;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    const std::string line = printable(text.substr(from, end - from));
    out += from == 0 ? wrapped(fmt::format("{}: {}", name, line), page.width, 0, 2) : wrapped(line, page.width, 2, 2);
    from = end + 1;
  }
  return out;
}

// Hours are kept in hundredths.
std::string count_text(const CostLine& line) {
  if (line.part == CostPart::labour) return to_string(Money{line.count}, Currency{"", 2}) + " h";
  return line.part == CostPart::material ? std::to_string(line.count) : std::string();
}

std::vector<PriceStep> price_steps(const Quote& quote) {
  const CostSheet& costs = quote.costs;
  std::vector<PriceStep> steps = {{"Materials", costs.materials},
                                  {"Labour", costs.labour},
                                  {"Equipment", costs.equipment},
                                  {"Delivery", costs.delivery},
                                  {"Overhead", costs.overhead},
                                  {"Contingency", costs.contingency},
                                  {"Profit, " + costs.profit_words, costs.profit},
                                  {"Price before tax", quote.copy.price},
                                  {"Taxed of that", costs.taxable}};
  std::erase_if(steps, [](const PriceStep& step) { return step.amount.minor == 0; });
  return steps;
}

std::string quote_text(const CustomerCopy& copy, const Page& page) {
  return head(copy, page) + price_text(copy, page) + options_text(copy, page) + payments_text(copy, page) +
         parts_text(copy, page) + list_text("Not included", copy.exclusions, page) + cautions_text(copy.cautions, page);
}

std::string internal_quote_text(const Quote& quote, const Page& page) {
  return quote_text(quote.copy, page) + costs_text(quote, page);
}

}  // namespace teetally
