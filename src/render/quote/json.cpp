#include "render/json_parts.h"
#include "teetally/render/quote.h"

namespace teetally {
namespace {

Json priced(const std::string& what, Money amount, const Currency& currency) {
  Json json = Json::object();
  json.set("what", what).set("amount", to_string(amount, currency));
  return json;
}

Json copy_json(const CustomerCopy& copy, std::string_view document) {
  Json sections = Json::array(), payments = Json::array(), parts = Json::array();
  for (const PricedSection& s : copy.sections) sections.push(priced(s.what, s.price, copy.currency));
  for (const Payment& p : copy.payments) payments.push(priced(p.what, p.amount, copy.currency));
  for (const SuppliedPart& p : copy.parts) {
    Json part = Json::object();
    part.set("what", p.what).set("amount", p.amount);
    parts.push(std::move(part));
  }
  Json json = document_start(document, copy.name);
  json.set("number", copy.number > 0 ? Json(copy.number) : Json());
  json.set("revision", copy.number > 0 ? Json(copy.revision) : Json());
  json.set("from", copy.business).set("customer", copy.customer).set("site", copy.site).set("scope", copy.scope);
  json.set("made_on", copy.made_on).set("valid_until", copy.valid_until ? Json(*copy.valid_until) : Json());
  json.set("currency", copy.currency.code).set("sections", std::move(sections));
  json.set("price", to_string(copy.price, copy.currency)).set("tax_on", copy.tax_words);
  json.set("tax", to_string(copy.tax, copy.currency)).set("total", to_string(copy.total, copy.currency));
  json.set("payments", std::move(payments)).set("parts", std::move(parts));
  Json options = Json::array();
  for (const QuotedOption& option : copy.options) {
    Json one = Json::object();
    one.set("name", option.name).set("differs", option.differs).set("price", to_string(option.price, copy.currency));
    one.set("tax", to_string(option.tax, copy.currency)).set("total", to_string(option.total, copy.currency));
    options.push(std::move(one));
  }
  json.set("options", std::move(options));
  json.set("exclusions", words_json(copy.exclusions)).set("cautions", words_json(copy.cautions));
  return json;
}

Json line_json(const CostLine& line, const Currency& currency) {
  const bool hours = line.part == CostPart::labour;
  Json json = Json::object();
  json.set("part", to_text(line.part)).set("supplier", line.supplier).set("sku", line.sku).set("what", line.what);
  json.set(hours ? "hours" : "count", hours ? Json(to_string(Money{line.count}, Currency{"", 2})) : Json(line.count));
  json.set("each", line.price ? Json(to_string(*line.price, currency)) : Json());
  json.set("cost", to_string(line.cost, currency));
  return json;
}

}  // namespace

std::string to_text(CostPart part) {
  switch (part) {
    case CostPart::material:
      return "material";
    case CostPart::supplier_terms:
      return "supplier's terms";
    case CostPart::surplus:
      return "surplus";
    case CostPart::labour:
      return "labour";
    case CostPart::equipment:
      return "equipment";
    case CostPart::delivery:
      return "delivery";
  }
  return {};
}

Json quote_document(const CustomerCopy& copy) { return copy_json(copy, "teetally/quote"); }

Json internal_quote_document(const Quote& quote) {
  const Currency& currency = quote.copy.currency;
  const CostSheet& costs = quote.costs;
  Json lines = Json::array();
  for (const CostLine& line : costs.lines) lines.push(line_json(line, currency));
  Json sheet = Json::object();
  sheet.set("lines", std::move(lines)).set("materials", to_string(costs.materials, currency));
  sheet.set("labour", to_string(costs.labour, currency)).set("equipment", to_string(costs.equipment, currency));
  sheet.set("delivery", to_string(costs.delivery, currency)).set("overhead", to_string(costs.overhead, currency));
  sheet.set("contingency", to_string(costs.contingency, currency)).set("profit", to_string(costs.profit, currency));
  sheet.set("profit_rule", costs.profit_words).set("taxable", to_string(costs.taxable, currency));
  sheet.set("notes", words_json(costs.notes));
  Json options = Json::array();
  for (const OptionCosts& option : costs.options) {
    Json one = Json::object();
    one.set("name", option.name).set("cost", to_string(option.cost, currency));
    one.set("profit", to_string(option.profit, currency)).set("margin", to_string(option.margin));
    options.push(std::move(one));
  }
  sheet.set("options", std::move(options));
  return copy_json(quote.copy, "teetally/internal-quote").set("costs", std::move(sheet));
}

}  // namespace teetally
