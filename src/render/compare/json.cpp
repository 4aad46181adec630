#include "render/compare/ways.h"
#include "render/json_parts.h"

namespace teetally {
namespace {

struct Writer {
  const CompareView& view;
  UnitSystem units;
  const Currency& currency;

  Json money(Money amount) const { return to_string(amount, currency); }

  Json between(const Difference& difference) const {
    Json json = Json::object();
    json.set("least", money(difference.least));
    json.set("most", difference.most ? money(*difference.most) : Json());
    return json;
  }
  Json between(const std::optional<Difference>& difference) const { return difference ? between(*difference) : Json(); }

  Json lines(const Purchase& purchase) const {
    Json json = Json::array();
    for (const SupplierOrder& order : purchase.orders) {
      const Catalog& catalog = catalog_at(view.book, order.catalog);
      for (const OrderLine& line : order.lines) {
        Json one = line_json(catalog, line, units);
        one.set("supplier", catalog.id);
        json.push(std::move(one));
      }
    }
    return json;
  }

  // Any order among the answers.
  Json answer(const Purchase& purchase) const {
    Json json = Json::object();
    const bool bought = purchase.outcome == Outcome::bought;
    json.set("outcome", to_text(purchase.outcome));
    json.set("total", bought ? money(purchase.total) : Json());
    json.set("proven", is_settled(purchase) && !purchase.proof.floating);
    json.set("lower_bound", bought ? money(purchase.proof.lower_bound) : Json());
    json.set("dearer_by", bought ? between(difference(purchase, view.comparison.best)) : Json());
    Json suppliers = Json::array();
    for (const SupplierOrder& order : purchase.orders) suppliers.push(catalog_at(view.book, order.catalog).id);
    json.set("suppliers", std::move(suppliers));
    json.set("rests_on", purchase.proof.rests_on);
    return json;
  }

  Json turn(const std::optional<Turn>& turn, Money now) const {
    if (!turn) return nullptr;
    Json json = Json::object();
    json.set("now", money(now));
    json.set("price", turn->by ? money(now + *turn->by) : Json());
    json.set("sure", money(now + turn->sure));
    json.set("exact", turn->exact);
    return json;
  }

  Json way(const Way& way) const {
    Json json = answer(*way.purchase);
    json.set("way", way.kind);
    json.set("text", way.what);
    json.set("supplier", way.catalog >= 0 ? Json(catalog_at(view.book, way.catalog).id) : Json());
    if (way.verdict != nullptr) {
      const Bundle& bundle = catalog_at(view.book, way.catalog).bundles[static_cast<std::size_t>(way.verdict->bundle)];
      json.set("sku", bundle.sku);
      json.set("chosen", way.verdict->chosen);
      json.set("verdict", verdict_phrase(view, *way.verdict));
      json.set("without", answer(way.verdict->without));
      json.set("turn", turn(way.verdict->turn, bundle.price));
      json.set("changes", words_json(change_words(view, way, units)));
    }
    json.set("lines", lines(*way.purchase));
    json.set("left_over", words_json(left_words(view, way, units)));
    Json missing = Json::array();
    for (const Shortfall& shortfall : way.purchase->shortfalls) {
      for (const int n : shortfall.needs) missing.push(view.book.takeoff.needs[static_cast<std::size_t>(n)].id);
    }
    json.set("missing", std::move(missing));
    return json;
  }

  Json front() const {
    Json json = Json::array();
    std::int64_t most = 0;
    for (const Purchase& purchase : view.comparison.front) {
      Json one = answer(purchase);
      one.set("most_suppliers", ++most);
      json.push(std::move(one));
    }
    return json;
  }

  Json without() const {
    Json json = Json::array();
    for (const SupplierAnswer& each : view.comparison.without) {
      Json one = answer(each.purchase);
      one.set("supplier", catalog_at(view.book, each.catalog).id);
      json.push(std::move(one));
    }
    return json;
  }

  Json plans() const {
    Json json = Json::array();
    for (const Purchase& purchase : view.comparison.plans) {
      Json one = answer(purchase);
      one.set("lines", lines(purchase));
      json.push(std::move(one));
    }
    return json;
  }

  Json plans_end() const {
    switch (view.comparison.plans_end) {
      case PlansEnd::not_asked:
        return {};
      case PlansEnd::enough:
        return "as many as wanted";
      case PlansEnd::no_other:
        return "no other";
      case PlansEnd::out_of_time:
        return "out of time";
      case PlansEnd::many_alike:
        return "many alike";
    }
    return {};
  }

  Json packs() const {
    Json json = Json::array();
    for (const LineVerdict& line : view.comparison.lines) {
      const Catalog& catalog = catalog_at(view.book, line.catalog);
      const Pack& pack = catalog.items[static_cast<std::size_t>(line.item)].packs[static_cast<std::size_t>(line.pack)];
      Json one = answer(line.without);
      one.set("supplier", catalog.id);
      one.set("sku", pack.sku);
      one.set("turn", turn(line.turn, pack.prices.front().price));
      json.push(std::move(one));
    }
    return json;
  }

  Json needs() const {
    Json json = Json::array();
    for (const NeedVerdict& verdict : view.comparison.needs) {
      const Need& need = view.book.takeoff.needs[static_cast<std::size_t>(verdict.need)];
      Json one = Json::object();
      one.set("id", need.id);
      one.set("one", amount_json(need.by_length, verdict.step, units));
      one.set("one_more_costs", between(verdict.one_more));
      one.set("one_fewer_saves", between(verdict.one_fewer));
      one.set("spares", amount_json(need.by_length, verdict.spares, units));
      one.set("spares_cost", between(verdict.spares_cost));
      json.push(std::move(one));
    }
    return json;
  }
};

}  // namespace

Json compare_document(const CompareView& view, UnitSystem units) {
  const Comparison& all = view.comparison;
  const Writer writer{view, units, view.book.catalogs.front()->currency};
  const bool bought = all.best.outcome == Outcome::bought;
  Json json = document_start("teetally/comparison", view.book.takeoff.name);
  json.set("outcome", to_text(all.best.outcome));
  json.set("currency", writer.currency.code);
  json.set("advice", bought ? Json(advice_sentence(view)) : Json());
  Json ways = Json::array();
  if (bought) {
    for (const Way& way : ways_of(view)) ways.push(writer.way(way));
  }
  json.set("ways", std::move(ways));
  json.set("front", writer.front());
  json.set("without", writer.without());
  json.set("different_orders", writer.plans());
  json.set("different_orders_end", writer.plans_end());
  json.set("packs", writer.packs());
  json.set("needs", writer.needs());
  json.set("all_spares_cost", writer.between(all.all_spares));
  json.set("rests_on", words_json(all.rests_on));
  json.set("cautions", words_json(view.book.takeoff.cautions));
  return json;
}

}  // namespace teetally
