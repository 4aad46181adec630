#include "render/json_parts.h"
#include "render/order/cut_list.h"
#include "render/order_parts.h"
#include "render/shares.h"

namespace teetally {
namespace {

Json cost_json(const OrderCost& cost, const Currency& currency) {
  Json json = Json::object();
  json.set("goods", to_string(cost.goods, currency));
  json.set("discount", to_string(cost.discount, currency));
  json.set("shipping", to_string(cost.shipping, currency));
  json.set("small_order_fee", to_string(cost.small_order_fee, currency));
  json.set("tax", to_string(cost.tax, currency));
  json.set("total", to_string(cost.total, currency));
  return json;
}

Json orders_json(const OrderView& view, UnitSystem units) {
  Json json = Json::array();
  for (const SupplierOrder& order : view.purchase.orders) {
    const Catalog& catalog = catalog_at(view.book, order.catalog);
    Json lines = Json::array();
    for (const OrderLine& line : order.lines) lines.push(line_json(catalog, line, units));
    Json one = Json::object();
    one.set("supplier", supplier_json(catalog));
    one.set("lines", std::move(lines));
    one.set("cost", cost_json(order.cost, catalog.currency));
    json.push(std::move(one));
  }
  return json;
}

Json needs_json(const OrderView& view, UnitSystem units) {
  Json json = Json::array();
  for (const NeedShare& share : shares_of(view)) {
    const Need& need = view.book.takeoff.needs[static_cast<std::size_t>(share.need)];
    const std::int64_t needed = needed_with_joins(view.book, view.purchase, share.need);
    if (needed == 0) continue;
    Json one = Json::object();
    one.set("id", need.id);
    one.set("part", part_json(need.part, units));
    one.set("needed", amount_json(need.by_length, needed, units));
    one.set("bought", amount_json(need.by_length, share.bought, units));
    one.set("spare", amount_json(need.by_length, share.bought - needed, units));
    Json items = Json::array();
    for (const int item : share.items) {
      const BookItem& sold = view.book.items[static_cast<std::size_t>(item)];
      const Catalog& catalog = catalog_at(view.book, sold.catalog);
      Json from = Json::object();
      from.set("supplier", catalog.id);
      from.set("sku", catalog.items[static_cast<std::size_t>(sold.item)].sku);
      items.push(std::move(from));
    }
    one.set("items", std::move(items));
    json.push(std::move(one));
  }
  return json;
}

Json leftovers_json(const OrderView& view, UnitSystem units) {
  Json json = Json::array();
  for (const LeftoverLine& left : leftovers_of(view)) {
    Json one = Json::object();
    one.set("supplier", left.catalog->id);
    one.set("sku", left.item->sku);
    one.set("name", left.item->name);
    one.set("left", amount_json(left.by_length, left.amount, units));
    one.set("worth", left.worth ? Json(to_string(*left.worth, left.catalog->currency)) : Json());
    json.push(std::move(one));
  }
  return json;
}

Json tubing_json(const OrderView& view, UnitSystem units) {
  Json json = Json::array();
  for (std::size_t s = 0; s < view.purchase.family_of_system.size(); ++s) {
    const int family = view.purchase.family_of_system[s];
    if (family < 0) continue;
    const FitFamily& fit = view.book.systems[s].families[static_cast<std::size_t>(family)];
    Json one = Json::object();
    one.set("system", view.book.takeoff.systems[s].name);
    one.set("inside", to_text(fit.inside, units));
    one.set("outside", to_text(fit.outside, units));
    json.push(std::move(one));
  }
  return json;
}

Json proof_json(const OrderView& view, const Currency& currency) {
  const Proof& proof = view.purchase.proof;
  Json json = Json::object();
  json.set("proven", proof.proven && !proof.floating);
  json.set("believed", proof.proven && proof.floating);
  json.set("ties_settled", proof.ties_settled);
  json.set("cost", to_string(proof.cost, currency));
  json.set("lower_bound", to_string(proof.lower_bound, currency));
  json.set("rests_on", proof.rests_on);
  return json;
}

Json shortfalls_json(const OrderView& view) {
  Json json = Json::array();
  for (const Shortfall& shortfall : view.purchase.shortfalls) {
    Json needs = Json::array();
    for (const int n : shortfall.needs) needs.push(view.book.takeoff.needs[static_cast<std::size_t>(n)].id);
    Json one = Json::object();
    one.set("needs", std::move(needs));
    one.set("why", shortfall.why);
    json.push(std::move(one));
  }
  return json;
}

}  // namespace

Json order_document(const OrderView& view, UnitSystem units) {
  const Currency& currency = view.book.catalogs.front()->currency;
  const bool bought = view.purchase.outcome == Outcome::bought;
  Json json = document_start("teetally/order", view.book.takeoff.name);
  json.set("outcome", to_text(view.purchase.outcome));
  json.set("works", verdict_json(view.sized));
  json.set("currency", currency.code);
  json.set("total", bought ? Json(to_string(view.purchase.total, currency)) : Json());
  json.set("orders", orders_json(view, units));
  json.set("needs", bought ? needs_json(view, units) : Json::array());
  json.set("leftovers", leftovers_json(view, units));
  json.set("coils", cut_list_json(view, units));
  json.set("joins", joins_json(view));
  json.set("tubing", tubing_json(view, units));
  json.set("proof", bought ? proof_json(view, currency) : Json());
  json.set("shortfalls", shortfalls_json(view));
  json.set("near_misses", near_misses_json(view.book, -1));
  json.set("cautions", words_json(view.book.takeoff.cautions));
  return json;
}

}  // namespace teetally
