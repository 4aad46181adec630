#include "teetally/base/csv.h"

#include "teetally/render/quote.h"

namespace teetally {

std::string quote_csv(const CustomerCopy& copy) {
  std::string out = csv_row({"what", "amount", "currency"});
  const auto row = [&](const std::string& what, Money amount) {
    out += csv_row({what, to_string(amount, copy.currency), copy.currency.code});
  };
  for (const PricedSection& section : copy.sections) row(section.what, section.price);
  if (!copy.tax_words.empty()) row(copy.tax_words, copy.tax);
  row("Total", copy.total);
  for (const QuotedOption& option : copy.options) row("Option: " + option.name, option.total);
  return out;
}

std::string internal_quote_csv(const Quote& quote) {
  const Currency& currency = quote.copy.currency;
  std::string out = csv_row({"part", "supplier", "sku", "what", "count", "each", "cost", "currency"});
  for (const CostLine& line : quote.costs.lines) {
    const bool hours = line.part == CostPart::labour;
    out += csv_row({to_text(line.part), line.supplier, line.sku, line.what,
                    hours ? to_string(Money{line.count}, Currency{"", 2}) : std::to_string(line.count),
                    line.price ? to_string(*line.price, currency) : "", to_string(line.cost, currency), currency.code});
  }
  const auto sum = [&](const char* part, const std::string& what, Money amount) {
    out += csv_row({part, "", "", what, "", "", to_string(amount, currency), currency.code});
  };
  sum("overhead", "", quote.costs.overhead);
  sum("contingency", "", quote.costs.contingency);
  sum("profit", quote.costs.profit_words, quote.costs.profit);
  sum("tax", quote.copy.tax_words, quote.copy.tax);
  sum("total", "", quote.copy.total);
  for (const OptionCosts& option : quote.costs.options) {
    sum("option's cost", option.name, option.cost);
    sum("option's profit", option.name, option.profit);
  }
  return out;
}

}  // namespace teetally
