#include "render/json_parts.h"
#include "render/order_parts.h"
#include "render/walk.h"

namespace teetally {
namespace {

Json bought_json(const WalkView& view, int need, UnitSystem units) {
  Json json = Json::array();
  for (const BoughtAs& bought : bought_for(view, need)) {
    const Catalog& catalog = *view.book->catalogs[static_cast<std::size_t>(bought.catalog)];
    Json one = line_json(catalog, *bought.line, units);
    one.set("supplier", catalog.id);
    json.push(std::move(one));
  }
  return json;
}

Json offers_json(const OfferBook& book, int need) {
  Json json = Json::array();
  for (const Serving& serving : book.servings) {
    if (serving.need != need) continue;
    const BookItem& sold = book.items[static_cast<std::size_t>(serving.item)];
    const Catalog& catalog = *book.catalogs[static_cast<std::size_t>(sold.catalog)];
    const Item& item = catalog.items[static_cast<std::size_t>(sold.item)];
    Json one = Json::object();
    one.set("supplier", catalog.id);
    one.set("sku", item.sku);
    one.set("name", item.name);
    json.push(std::move(one));
  }
  return json;
}

}  // namespace

Json walk_document(const WalkView& view, UnitSystem units) {
  Json json = document_start("teetally/explanation", view.takeoff.name);
  Json needs = Json::array();
  for (const int n : view.needs) {
    const Need& need = view.takeoff.needs[static_cast<std::size_t>(n)];
    Json one = Json::object();
    one.set("id", need.id);
    one.set("part", part_json(need.part, units));
    one.set("needed", amount_json(need.by_length, need.amount, units));
    if (view.purchase != nullptr) one.set("bought_as", bought_json(view, n, units));
    if (view.book != nullptr) {
      one.set("offers", offers_json(*view.book, n));
      one.set("near_misses", near_misses_json(*view.book, n));
    }
    one.set("reasons", reasons_json(need, units));
    needs.push(std::move(one));
  }
  json.set("needs", std::move(needs));
  return json;
}

Json catalogs_document(const std::vector<Catalog>& catalogs) {
  Json json = document_start("teetally/catalogs", "");
  Json all = Json::array();
  for (const Catalog& catalog : catalogs) all.push(to_json(catalog));
  json.set("catalogs", std::move(all));
  return json;
}

}  // namespace teetally
