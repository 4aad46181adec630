// The quote as a page. Its values are made from the customer's copy alone; the internal page adds the cost sheet.
#include "render/page/template.h"
#include "render/page/values.h"
#include "render/quote/words.h"

namespace teetally {
namespace {

// A list of things with an amount of money.
template <typename Entry, typename Amount>
Json amounts(const std::vector<Entry>& entries, Amount Entry::*amount, const Currency& currency) {
  Json list = Json::array();
  for (const Entry& entry : entries) {
    if ((entry.*amount).minor == 0) continue;
    list.push(Json::object().set("what", entry.what).set("amount", to_text(entry.*amount, currency)));
  }
  return list;
}

Json costs_values(const Quote& quote) {
  const Currency& currency = quote.copy.currency;
  Json list = Json::array();
  for (const CostLine& line : quote.costs.lines) {
    Json values = Json::object();
    values.set("supplier", line.supplier).set("sku", line.sku).set("what", line.what).set("count", count_text(line));
    values.set("each", line.price ? to_text(*line.price, currency) : "");
    list.push(values.set("cost", to_text(line.cost, currency)));
  }
  return list;
}

// One entry where there are options, none where there are not, so that a template can leave out their heading.
Json choices_values(const CustomerCopy& copy) {
  Json list = Json::array(), options = Json::array();
  for (const QuotedOption& option : copy.options) {
    Json one = Json::object();
    one.set("option", option.name).set("differs", option.differs).set("price", to_text(option.price, copy.currency));
    options.push(one.set("tax", to_text(option.tax, copy.currency)).set("total", to_text(option.total, copy.currency)));
  }
  if (!copy.options.empty()) list.push(Json::object().set("options", std::move(options)));
  return list;
}

Json choice_costs_values(const Quote& quote) {
  const Currency& currency = quote.copy.currency;
  Json list = Json::array(), options = Json::array();
  for (const OptionCosts& option : quote.costs.options) {
    Json one = Json::object();
    one.set("option", option.name).set("cost", to_text(option.cost, currency));
    one.set("profit", to_text(option.profit, currency)).set("price", to_text(option.cost + option.profit, currency));
    options.push(one.set("margin", to_string(option.margin)));
  }
  if (!quote.costs.options.empty()) list.push(Json::object().set("option_costs", std::move(options)));
  return list;
}

}  // namespace

Json quote_page_values(const CustomerCopy& copy) {
  Json parts = Json::array();
  for (const SuppliedPart& part : copy.parts) {
    parts.push(Json::object().set("part", part.what).set("amount", part.amount));
  }
  Json values = Json::object();
  values.set("name", page_title(copy.name, "Quote")).set("business", copy.business).set("customer", copy.customer);
  values.set("number", copy.number > 0 ? std::to_string(copy.number) : "");
  values.set("revision", copy.revision > 1 ? std::to_string(copy.revision) : "");
  values.set("site", copy.site).set("scope", copy.scope).set("made_on", copy.made_on);
  values.set("valid_until", copy.valid_until.value_or("")).set("currency", copy.currency.code);
  values.set("sections", amounts(copy.sections, &PricedSection::price, copy.currency));
  const bool taxed = !copy.tax_words.empty();
  values.set("price", taxed ? to_text(copy.price, copy.currency) : "").set("tax_words", copy.tax_words);
  values.set("tax", taxed ? to_text(copy.tax, copy.currency) : "").set("total", to_text(copy.total, copy.currency));
  values.set("payments", amounts(copy.payments, &Payment::amount, copy.currency)).set("parts", std::move(parts));
  values.set("choices", choices_values(copy));
  return values.set("exclusions", plain_texts(copy.exclusions)).set("cautions", plain_texts(copy.cautions));
}

Json internal_quote_page_values(const Quote& quote) {
  Json values = quote_page_values(quote.copy);
  values.set("costs", costs_values(quote));
  values.set("sums", amounts(price_steps(quote), &PriceStep::amount, quote.copy.currency));
  values.set("choice_costs", choice_costs_values(quote));
  return values.set("left_out", plain_texts(quote.costs.notes));
}

std::string quote_page(const CustomerCopy& copy, const OwnTemplates& own, Diagnostics& diagnostics) {
  return fill_paper(Paper::quote, quote_page_values(copy), own, diagnostics);
}

std::string internal_quote_page(const Quote& quote, const OwnTemplates& own, Diagnostics& diagnostics) {
  return fill_paper(Paper::internal_quote, internal_quote_page_values(quote), own, diagnostics);
}

}  // namespace teetally
