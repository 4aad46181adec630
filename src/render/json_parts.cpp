#include "render/json_parts.h"

#include "render/order_parts.h"
#include "render/phrases.h"
#include "render/walk.h"

namespace teetally {

Json document_start(std::string_view document, std::string_view name) {
  Json json = Json::object();
  json.set("document", std::string(document));
  json.set("version", 1);
  if (!name.empty()) json.set("name", std::string(name));
  return json;
}

Json amount_json(bool by_length, std::int64_t amount, UnitSystem units) {
  Json json = Json::object();
  json.set("amount", amount);
  json.set("unit", by_length ? "0.1 mm" : "piece");
  json.set("text", amount_phrase(by_length, amount, units));
  return json;
}

Json place_json(const Place& place) {
  if (!place.known()) return nullptr;
  Json json = Json::object();
  json.set("file", place.source->name);
  json.set("line", place.line);
  json.set("column", place.column);
  return json;
}

Json part_json(const PartSpec& part, UnitSystem units) {
  Json json = to_json(part);
  json.set("text", to_text(part, units));
  return json;
}

Json verdict_json(const SizedGarden* sized) {
  if (sized == nullptr) return nullptr;
  Json json = Json::object();
  json.set("verdict", to_text(sized->verdict));
  json.set("words", sized->words);
  return json;
}

Json words_json(const std::vector<std::string>& words) {
  Json json = Json::array();
  for (const std::string& word : words) json.push(word);
  return json;
}

Json reasons_json(const Need& need, UnitSystem units) {
  Json json = Json::array();
  for (const Reason& reason : need.reasons) {
    Json one = Json::object();
    one.set("class", to_text(reason.reason_class));
    one.set("element", reason.element);
    one.set("rule", reason.rule);
    one.set("where", reason.where);
    one.set("amount", amount_json(need.by_length, reason.amount, units));
    one.set("place", place_json(reason.place));
    json.push(std::move(one));
  }
  return json;
}

Json near_misses_json(const OfferBook& book, int need) {
  Json json = Json::array();
  for (const NearMiss& miss : book.near_misses) {
    if (need >= 0 && miss.need != need) continue;
    const MissedItem missed = missed_item(book, miss);
    Json one = Json::object();
    one.set("need", book.takeoff.needs[static_cast<std::size_t>(miss.need)].id);
    one.set("supplier", missed.catalog->id);
    one.set("sku", missed.item->sku);
    one.set("name", missed.item->name);
    one.set("why", miss.why);
    json.push(std::move(one));
  }
  return json;
}

Json line_json(const Catalog& catalog, const OrderLine& line, UnitSystem units) {
  const LineParts parts = parts_of(catalog, line, units);
  Json json = Json::object();
  json.set("sku", parts.sku);
  json.set("text", parts.what);
  json.set("bundle", line.bundle >= 0);
  json.set("count", line.count);
  if (line.bundle < 0) {
    const Pack& pack = catalog.items[static_cast<std::size_t>(line.item)].packs[static_cast<std::size_t>(line.pack)];
    const bool cut = pack.length.tenths_mm > 0;
    json.set("each_holds", amount_json(cut, cut ? pack.length.tenths_mm : pack.count, units));
  }
  json.set("price", parts.price ? Json(to_string(*parts.price, catalog.currency)) : Json());
  json.set("goods", to_string(line.goods, catalog.currency));
  json.set("changes", words_json(parts.changes));
  return json;
}

Json supplier_json(const Catalog& catalog) {
  Json json = Json::object();
  json.set("id", catalog.id);
  json.set("name", catalog.name);
  json.set("notice", catalog.notice);
  return json;
}

}  // namespace teetally
