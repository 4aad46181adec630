#include "teetally/catalog.h"

namespace teetally {

namespace {

Json optional_text(const std::optional<std::string>& text) { return text ? Json(*text) : Json(nullptr); }

Json optional_count(const std::optional<std::int64_t>& count) { return count ? Json(*count) : Json(nullptr); }

Json money(Money amount, const Currency& currency) { return to_string(amount, currency); }

Json optional_money(const std::optional<Money>& amount, const Currency& currency) {
  return amount ? money(*amount, currency) : Json(nullptr);
}

Json optional_diameter(const std::optional<Diameter>& diameter) {
  return diameter ? Json(diameter->tenths_um) : Json(nullptr);
}

Json pack_json(const Pack& pack, const Currency& currency) {
  Json prices = Json::array();
  for (const PriceBreak& step : pack.prices) {
    prices.push(Json::object().set("from", step.from).set("price", money(step.price, currency)));
  }
  return Json::object()
      .set("sku", pack.sku)
      .set("count", pack.count)
      .set("length_tenths_mm", pack.length.tenths_mm)
      .set("prices", prices)
      .set("rule", pack.rule == BreakRule::all_units ? "all units" : "incremental")
      .set("stock", optional_count(pack.stock))
      .set("multiple", pack.multiple)
      .set("minimum", pack.minimum);
}

Json grip_json(const Grip& grip) {
  Json ranges = Json::array();
  for (const Grip::Range& range : grip.ranges) {
    ranges.push(Json::object().set("low", range.low.tenths_um).set("high", range.high.tenths_um));
  }
  return Json::object().set("by", grip.by == Grip::By::inside ? "inside" : "outside").set("ranges_tenths_um", ranges);
}

Json item_json(const Item& item, const Currency& currency) {
  Json grips = Json::array();
  for (const Grip& grip : item.grips) grips.push(grip_json(grip));
  Json packs = Json::array();
  for (const Pack& pack : item.packs) packs.push(pack_json(pack, currency));
  return Json::object()
      .set("sku", item.sku)
      .set("name", item.name)
      .set("part", to_json(item.part))
      .set("inside_tenths_um", optional_diameter(item.inside))
      .set("outside_tenths_um", optional_diameter(item.outside))
      .set("grips", grips)
      .set("packs", packs);
}

Json content_json(const BundleContent& content, const Catalog& catalog) {
  const auto sku = [&](int item) { return catalog.items[static_cast<std::size_t>(item)].sku; };
  Json swaps = Json::array();
  for (const Swap& swap : content.swaps) {
    swaps.push(Json::object().set("item", sku(swap.item)).set("extra", money(swap.extra, catalog.currency)));
  }
  return Json::object()
      .set("item", sku(content.item))
      .set("count", content.count)
      .set("length_tenths_mm", content.length.tenths_mm)
      .set("leave_out", optional_money(content.leave_out, catalog.currency))
      .set("swaps", swaps);
}

Json bundle_json(const Bundle& bundle, const Catalog& catalog) {
  Json contents = Json::array();
  for (const BundleContent& content : bundle.contents) contents.push(content_json(content, catalog));
  return Json::object()
      .set("sku", bundle.sku)
      .set("name", bundle.name)
      .set("price", money(bundle.price, catalog.currency))
      .set("stock", optional_count(bundle.stock))
      .set("contents", contents);
}

Json terms_json(const OrderingTerms& terms, const Currency& currency) {
  Json shipping = Json::array();
  for (const ShippingStep& step : terms.shipping) {
    shipping.push(Json::object().set("from", money(step.from, currency)).set("fee", money(step.fee, currency)));
  }
  Json discounts = Json::array();
  for (const DiscountStep& step : terms.discounts) {
    discounts.push(Json::object().set("from", money(step.from, currency)).set("percent", to_string(step.percent)));
  }
  return Json::object()
      .set("shipping", shipping)
      .set("minimum_order", optional_money(terms.minimum_order, currency))
      .set("small_order_below", optional_money(terms.small_order_below, currency))
      .set("small_order_fee", money(terms.small_order_fee, currency))
      .set("discounts", discounts)
      .set("tax", to_string(terms.tax))
      .set("tax_on_shipping", terms.tax_on_shipping);
}

}  // namespace

Json to_json(const Catalog& catalog) {
  Json items = Json::array();
  for (const Item& item : catalog.items) items.push(item_json(item, catalog.currency));
  Json bundles = Json::array();
  for (const Bundle& bundle : catalog.bundles) bundles.push(bundle_json(bundle, catalog));
  return Json::object()
      .set("id", catalog.id)
      .set("name", catalog.name)
      .set("notice", catalog.notice)
      .set("currency", catalog.currency.code)
      .set("valid_from", optional_text(catalog.valid_from))
      .set("valid_until", optional_text(catalog.valid_until))
      .set("terms", terms_json(catalog.terms, catalog.currency))
      .set("items", items)
      .set("bundles", bundles);
}

}  // namespace teetally
