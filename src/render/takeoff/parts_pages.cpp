// Pages of a takeoff: the parts with their reasons, the van list.
#include "render/page/template.h"
#include "render/page/values.h"
#include "render/phrases.h"
#include "render/takeoff/by_place.h"
#include "render/takeoff/reason_lines.h"

namespace teetally {
namespace {

Json reasons_values(const Need& need, UnitSystem units) {
  Json list = Json::array();
  for (const ReasonLine& line : gathered(need)) {
    list.push(
        Json::object().set("reason_amount", amount_text(need, line.amount, units)).set("reason", reason_phrase(line)));
  }
  return list;
}

// Nothing where there is none, as in the text.
std::string class_amount(const Need& need, ReasonClass reason_class, UnitSystem units) {
  const std::int64_t sum = sum_of(need, reason_class);
  return sum == 0 ? std::string() : amount_text(need, sum, units);
}

Json need_values(const Need& need, UnitSystem units) {
  Json values = Json::object();
  values.set("need", need.id).set("part", to_text(need.part, units));
  values.set("design", class_amount(need, ReasonClass::design, units));
  values.set("waste", class_amount(need, ReasonClass::waste, units));
  values.set("spare", class_amount(need, ReasonClass::spare, units));
  values.set("on_site", class_amount(need, ReasonClass::on_site, units));
  return values.set("amount", amount_text(need, need.amount, units)).set("reasons", reasons_values(need, units));
}

// "bed 'greens' row 2" stands below the heading "bed 'greens'": "row 2" will do. Not so "shut-off valve of bed 'greens'
// to 3 ft", which has no other word for it.
std::string without_place(std::string words, const std::string& place) {
  if (place.empty()) return words;
  const std::string said = place + " ";
  for (std::size_t at = words.find(said); at != std::string::npos; at = words.find(said, at)) {
    if (words.compare(at + said.size(), 3, "to ") == 0) {
      at += said.size();
    } else {
      words.erase(at, said.size());
    }
  }
  return words;
}

Json placed_values(const std::vector<PlacedPart>& parts, const std::string& place, UnitSystem units) {
  Json list = Json::array();
  for (const PlacedPart& part : parts) {
    Json pieces = Json::array();
    for (const NeededPiece* piece : part.pieces) {
      Json values = Json::object().set("piece_length", to_text(piece->length, units));
      pieces.push(values.set("where", without_place(piece->where, place)));
    }
    Json values = Json::object();
    values.set("amount", amount_text(*part.need, part.amount, units)).set("part", to_text(part.need->part, units));
    // Pieces say better than runs where tubing goes.
    values.set("need", part.need->id);
    Json spots = Json::array();
    for (const std::string& spot : part.pieces.empty() ? part.spots : std::vector<std::string>()) {
      spots.push(without_place(spot, place));
    }
    values.set("spots", std::move(spots));
    list.push(values.set("pieces", std::move(pieces)));
  }
  return list;
}

}  // namespace

Json parts_page_values(const Takeoff& takeoff, const SizedGarden* sized, UnitSystem units) {
  Json needs = Json::array(), covered = Json::array(), assumptions = Json::array();
  for (const Need& need : takeoff.needs) needs.push(need_values(need, units));
  for (const Need& need : takeoff.covered) {
    covered.push(Json::object().set("need", need.id).set("part", to_text(need.part, units)));
  }
  for (const Assumption& assumption : takeoff.assumptions) {
    assumptions.push(Json::object().set("assumption", assumption.text).set("origin", assumption.origin));
  }
  Json values = Json::object();
  values.set("name", page_title(takeoff.name, "Parts"));
  values.set("verdict", sized == nullptr ? std::string() : verdict_sentence(*sized));
  values.set("needs", std::move(needs)).set("on_site_already", std::move(covered));
  return values.set("assumptions", std::move(assumptions)).set("cautions", plain_texts(takeoff.cautions));
}

Json van_list_page_values(const Takeoff& takeoff, UnitSystem units) {
  const PlacedTakeoff placed = by_place(takeoff);
  Json places = Json::array();
  for (const GardenPlace& place : placed.places) {
    places.push(Json::object().set("place", place.name).set("parts", placed_values(place.parts, place.name, units)));
  }
  Json values = Json::object();
  values.set("name", page_title(takeoff.name, "Parts")).set("places", std::move(places));
  return values.set("besides", placed_values(placed.besides, "", units)).set("cautions", plain_texts(takeoff.cautions));
}

std::string parts_page(const Takeoff& takeoff, const SizedGarden* sized, UnitSystem units, const OwnTemplates& own,
                       Diagnostics& diagnostics) {
  return fill_paper(Paper::parts, parts_page_values(takeoff, sized, units), own, diagnostics);
}

std::string van_list_page(const Takeoff& takeoff, UnitSystem units, const OwnTemplates& own, Diagnostics& diagnostics) {
  return fill_paper(Paper::van_list, van_list_page_values(takeoff, units), own, diagnostics);
}

}  // namespace teetally
