// The order as a page: a sheet for each supplier, and what each need gets.
#include "render/order/words.h"
#include "render/page/pictures.h"
#include "render/page/template.h"
#include "render/page/values.h"
#include "render/phrases.h"
#include "render/shares.h"

namespace teetally {
namespace {

const Catalog& catalog_at(const OrderView& view, int catalog) {
  return *view.book.catalogs[static_cast<std::size_t>(catalog)];
}

Json line_values(const Catalog& catalog, const OrderLine& line, UnitSystem units) {
  const LineParts parts = parts_of(catalog, line, units);
  Json values = Json::object();
  values.set("sku", parts.sku).set("what", parts.what).set("packs", std::to_string(line.count));
  values.set("price", price_words(catalog, line, parts)).set("goods", to_text(line.goods, catalog.currency));
  return values.set("changes", plain_texts(parts.changes));
}

Json order_values(const Catalog& catalog, const SupplierOrder& order, UnitSystem units) {
  Json lines = Json::array(), costs = Json::array();
  for (const OrderLine& line : order.lines) lines.push(line_values(catalog, line, units));
  for (const CostStep& step : cost_steps(order.cost, catalog)) {
    costs.push(Json::object().set("cost", step.what).set("amount", to_text(step.amount, catalog.currency)));
  }
  Json values = Json::object();
  values.set("supplier", supplier_words(catalog)).set("notice", catalog.notice);
  values.set("prices_until", catalog.valid_until.value_or(""));
  values.set("supplier_total", to_text(order.cost.total, catalog.currency));
  return values.set("lines", std::move(lines)).set("costs", std::move(costs));
}

Json orders_values(const OrderView& view, UnitSystem units) {
  Json list = Json::array();
  for (const SupplierOrder& order : view.purchase.orders) {
    const Catalog& catalog = catalog_at(view, order.catalog);
    if (catalog.id != kOnHandId) list.push(order_values(catalog, order, units));
  }
  return list;
}

Json on_hand_values(const OrderView& view, UnitSystem units) {
  Json list = Json::array();
  for (const SupplierOrder& order : view.purchase.orders) {
    const Catalog& catalog = catalog_at(view, order.catalog);
    if (catalog.id != kOnHandId) continue;
    for (const OrderLine& line : order.lines) {
      const LineParts parts = parts_of(catalog, line, units);
      list.push(Json::object().set("sku", parts.sku).set("what", parts.what).set("packs", std::to_string(line.count)));
    }
  }
  return list;
}

Json needs_values(const OrderView& view, UnitSystem units) {
  Json list = Json::array();
  for (const NeedShare& share : shares_of(view)) {
    const Need& need = view.book.takeoff.needs[static_cast<std::size_t>(share.need)];
    const std::int64_t needed = needed_with_joins(view.book, view.purchase, share.need);
    if (needed == 0) continue;
    Json values = Json::object();
    values.set("need", need.id).set("part", to_text(need.part, units));
    values.set("needed", amount_text(need, needed, units)).set("bought", amount_text(need, share.bought, units));
    values.set("spare", share.bought == needed ? "" : amount_text(need, share.bought - needed, units));
    list.push(std::move(values));
  }
  return list;
}

Json leftovers_values(const OrderView& view, UnitSystem units) {
  Json list = Json::array();
  const std::vector<LeftoverLine> lines = leftovers_by_worth(view);
  const Money most = lines.empty() ? Money{} : lines.front().worth.value_or(Money{});
  for (const LeftoverLine& left : lines) {
    const Currency& currency = left.catalog->currency;
    const bool priced = left.worth && left.worth->minor > 0;
    Json values = Json::object();
    values.set("amount", amount_phrase(left.by_length, left.amount, units));
    values.set("what", left.item->name.empty() ? left.item->sku : left.item->name).set("sku", left.item->sku);
    values.set("worth", left.worth ? to_text(*left.worth, currency) : "");
    list.push(values.set("bar", priced ? amount_bar(*left.worth, most, currency) : ""));
  }
  return list;
}

// What is short for the same reason stands together.
Json shortfalls_values(const OrderView& view, UnitSystem units) {
  const std::vector<Shortfall>& all = view.purchase.shortfalls;
  Json list = Json::array();
  for (std::size_t from = 0, to = 0; from < all.size(); from = to) {
    Json needs = Json::array();
    for (to = from; to < all.size() && all[to].why == all[from].why; ++to) {
      for (const int n : all[to].needs) {
        const Need& need = view.book.takeoff.needs[static_cast<std::size_t>(n)];
        Json values = Json::object();
        values.set("need", need.id).set("amount", amount_text(need, need.amount, units));
        needs.push(values.set("part", to_text(need.part, units)));
      }
    }
    list.push(Json::object().set("short_needs", std::move(needs)).set("why", all[from].why));
  }
  return list;
}

std::string no_order_words(Outcome outcome) {
  switch (outcome) {
    case Outcome::bought:
      return {};
    case Outcome::infeasible:
      return kNothingFeasible;
    case Outcome::out_of_time:
      return kOutOfTime;
  }
  return {};
}

}  // namespace

Json plain_texts(const std::vector<std::string>& texts) {
  Json list = Json::array();
  for (const std::string& text : texts) list.push(text);
  return list;
}

std::string page_title(const std::string& name, std::string_view otherwise) {
  return name.empty() ? std::string(otherwise) : name;
}

Json joins_values(const OrderView& view, UnitSystem units) {
  Json list = Json::array();
  for (const JoinReason& join : view.purchase.joins) {
    list.push(Json::object().set("need", need_of_join(view, join).id).set("words", join_words(view, join, units)));
  }
  return list;
}

Json order_page_values(const OrderView& view, UnitSystem units) {
  const bool bought = view.purchase.outcome == Outcome::bought;
  const Currency& currency = view.book.catalogs.front()->currency;
  Json values = Json::object();
  values.set("name", page_title(view.book.takeoff.name, "Parts"));
  values.set("verdict", view.sized == nullptr ? std::string() : verdict_sentence(*view.sized));
  values.set("total_words", bought ? total_words(view) : "");
  values.set("currency", currency.code).set("total", bought ? to_text(view.purchase.total, currency) : "");
  values.set("orders", orders_values(view, units)).set("on_hand", on_hand_values(view, units));
  values.set("needs", bought ? needs_values(view, units) : Json::array()).set("joins", joins_values(view, units));
  values.set("leftovers", leftovers_values(view, units)).set("tubing", plain_texts(family_words(view, units)));
  values.set("proof", bought ? proof_words(view) : "").set("no_order", no_order_words(view.purchase.outcome));
  values.set("shortfalls", shortfalls_values(view, units));
  return values.set("cautions", plain_texts(view.book.takeoff.cautions));
}

std::string order_page(const OrderView& view, UnitSystem units, const OwnTemplates& own, Diagnostics& diagnostics) {
  return fill_paper(Paper::order, order_page_values(view, units), own, diagnostics);
}

}  // namespace teetally
