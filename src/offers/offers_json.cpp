#include "teetally/offers.h"

namespace teetally {

namespace {

Json item_json(const OfferBook& book, const BookItem& at) {
  const Catalog& catalog = *book.catalogs[static_cast<std::size_t>(at.catalog)];
  const Item& item = catalog.items[static_cast<std::size_t>(at.item)];
  return Json::object().set("supplier", catalog.id).set("sku", item.sku).set("name", item.name);
}

Json system_json(const OfferBook& book, const SystemFamilies& system) {
  Json families = Json::array();
  for (const FitFamily& family : system.families) {
    families.push(Json::object()
                      .set("inside_tenths_um", family.inside.tenths_um)
                      .set("outside_tenths_um", family.outside.tenths_um));
  }
  return Json::object()
      .set("system", book.takeoff.systems[static_cast<std::size_t>(system.system)].name)
      .set("families", families);
}

Json serving_json(const OfferBook& book, const Serving& serving) {
  Json conditions = Json::array();
  for (const FitCondition& condition : serving.conditions) {
    Json families = Json::array();
    for (const int family : condition.families) families.push(family);
    conditions.push(Json::object().set("system", condition.system).set("families", families));
  }
  return Json::object()
      .set("need", book.takeoff.needs[static_cast<std::size_t>(serving.need)].id)
      .set("item", serving.item)
      .set("conditions", conditions)
      .set("least_coil_tenths_mm", serving.least_coil.tenths_mm);
}

}  // namespace

Json to_json(const OfferBook& book) {
  Json items = Json::array(), systems = Json::array(), servings = Json::array(), misses = Json::array();
  for (const BookItem& item : book.items) items.push(item_json(book, item));
  for (const SystemFamilies& system : book.systems) systems.push(system_json(book, system));
  for (const Serving& serving : book.servings) servings.push(serving_json(book, serving));
  for (const NearMiss& miss : book.near_misses) {
    misses.push(Json::object()
                    .set("need", book.takeoff.needs[static_cast<std::size_t>(miss.need)].id)
                    .set("item", miss.item)
                    .set("why", miss.why));
  }
  return Json::object()
      .set("takeoff", to_json(book.takeoff))
      .set("items", items)
      .set("systems", systems)
      .set("servings", servings)
      .set("near_misses", misses);
}

}  // namespace teetally
