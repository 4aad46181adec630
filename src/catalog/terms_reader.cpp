#include "catalog/terms_reader.h"

namespace teetally {

namespace {

// `shipping: 7.95` is one fee for every order; a list holds steps.
std::vector<ShippingStep> read_shipping(Fields& fields, const Reading& reading) {
  std::vector<ShippingStep> steps;
  const YamlNode* node = fields.find("shipping");
  if (node == nullptr) return steps;
  if (node->kind == YamlNode::Kind::scalar) {
    if (const auto fee = fields.money("shipping", reading.currency)) steps.push_back({Money{}, *fee, node->place});
    return steps;
  }
  for (const YamlNode* step : fields.list("shipping")) {
    Fields one(*step, "catalog", "a shipping step", reading.bare, reading.diagnostics);
    if (!one.is_mapping()) continue;
    one.require("from");
    one.require("fee");
    const auto from = one.money("from", reading.currency);
    const auto fee = one.money("fee", reading.currency);
    one.finish();
    // A step that cannot be read still counts as stated, so that it is complained about once.
    const Money usual = steps.empty() ? Money{} : steps.back().from + Money{1};
    steps.push_back({from.value_or(usual), fee.value_or(Money{}), step->place});
  }
  return steps;
}

std::vector<DiscountStep> read_discounts(Fields& fields, const Reading& reading) {
  std::vector<DiscountStep> steps;
  for (const YamlNode* step : fields.list("discounts")) {
    Fields one(*step, "catalog", "a discount step", reading.bare, reading.diagnostics);
    if (!one.is_mapping()) continue;
    one.require("from");
    one.require("percent");
    const auto from = one.money("from", reading.currency);
    const auto percent = one.percent("percent");
    one.finish();
    if (from && percent) steps.push_back({*from, *percent, step->place});
  }
  return steps;
}

void read_small_order(const YamlNode& node, OrderingTerms& terms, const Reading& reading) {
  const std::string what = "the small-order fee";
  if (!has_keys(node, what, "small order: {below: 20.00, fee: 2.50}", reading.diagnostics)) return;
  Fields fields(node, "catalog", what, reading.bare, reading.diagnostics);
  fields.require("below");
  fields.require("fee");
  terms.small_order_below = fields.money("below", reading.currency);
  terms.small_order_fee = fields.money("fee", reading.currency).value_or(Money{});
  fields.finish();
}

void read_tax(const YamlNode& node, OrderingTerms& terms, const Reading& reading) {
  if (!has_keys(node, "the tax", "tax: {percent: 8.25 %, on shipping: no}", reading.diagnostics)) return;
  Fields fields(node, "catalog", "the tax", reading.bare, reading.diagnostics);
  fields.require("percent");
  terms.tax = fields.percent("percent").value_or(Percent{});
  terms.tax_on_shipping = fields.yes_no("on shipping").value_or(false);
  fields.finish();
}

}  // namespace

OrderingTerms read_terms(const YamlNode& node, const Reading& reading) {
  OrderingTerms terms;
  terms.place = node.place;
  Fields fields(node, "catalog", "the ordering terms", reading.bare, reading.diagnostics);
  if (!fields.is_mapping()) return terms;
  terms.shipping = read_shipping(fields, reading);
  terms.minimum_order = fields.money("minimum order", reading.currency);
  if (const YamlNode* small = fields.find("small order")) read_small_order(*small, terms, reading);
  terms.discounts = read_discounts(fields, reading);
  if (const YamlNode* tax = fields.find("tax")) read_tax(*tax, terms, reading);
  fields.finish();
  return terms;
}

}  // namespace teetally
