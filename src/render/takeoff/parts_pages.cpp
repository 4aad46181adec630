// Pages of a takeoff: the parts with their reasons, the van list, the plan.
#include "render/page/pictures.h"
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

Json placed_values(const std::vector<PlacedPart>& parts, UnitSystem units) {
  Json list = Json::array();
  for (const PlacedPart& part : parts) {
    Json pieces = Json::array();
    for (const NeededPiece* piece : part.pieces) {
      pieces.push(Json::object().set("piece_length", to_text(piece->length, units)).set("where", piece->where));
    }
    Json values = Json::object();
    values.set("amount", amount_text(*part.need, part.amount, units)).set("part", to_text(part.need->part, units));
    // Pieces say better than runs where tubing goes.
    values.set("need", part.need->id);
    values.set("spots", part.pieces.empty() ? plain_texts(part.spots) : Json::array());
    list.push(values.set("pieces", std::move(pieces)));
  }
  return list;
}

Json points_values(const std::vector<PathPoint>& path, UnitSystem units) {
  Json list = Json::array();
  for (const PathPoint* point : points_to_show(path)) {
    Json values = Json::object();
    values.set("where", point->where).set("along", to_text(point->along, units)).set("up", to_text(point->up, units));
    list.push(values.set("pressure", pressure_phrase(point->pa, units)));
  }
  return list;
}

Json pressures_values(const SizedGarden& sized, UnitSystem units) {
  Json list = Json::array();
  for (const ZoneHydraulics& zone : sized.zones) {
    std::string curve = pressure_picture(zone, units);
    if (curve.empty()) continue;
    const bool alone = zone.zone < 0 || sized.garden.zones.size() == 1;
    const std::string name = alone ? "" : sized.garden.zones[static_cast<std::size_t>(zone.zone)].name;
    Json values = Json::object();
    values.set("zone", name).set("curve", std::move(curve));
    list.push(values.set("points", points_values(zone.worst_path, units)));
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
    places.push(Json::object().set("place", place.name).set("parts", placed_values(place.parts, units)));
  }
  Json values = Json::object();
  values.set("name", page_title(takeoff.name, "Parts")).set("places", std::move(places));
  return values.set("besides", placed_values(placed.besides, units)).set("cautions", plain_texts(takeoff.cautions));
}

Json plan_page_values(const PlanSubject& subject, PlanLayer layer, UnitSystem units) {
  Json values = Json::object();
  values.set("name", page_title(subject.sized.garden.name, "Garden"));
  values.set("verdict", verdict_sentence(subject.sized)).set("drawing", plan_svg(subject, layer, units));
  values.set("pressures", pressures_values(subject.sized, units));
  return values.set("cautions", plain_texts(subject.takeoff.cautions));
}

std::string parts_page(const Takeoff& takeoff, const SizedGarden* sized, UnitSystem units, const OwnTemplates& own,
                       Diagnostics& diagnostics) {
  return fill_paper(Paper::parts, parts_page_values(takeoff, sized, units), own, diagnostics);
}

std::string van_list_page(const Takeoff& takeoff, UnitSystem units, const OwnTemplates& own, Diagnostics& diagnostics) {
  return fill_paper(Paper::van_list, van_list_page_values(takeoff, units), own, diagnostics);
}

std::string plan_page(const PlanSubject& subject, PlanLayer layer, UnitSystem units, const OwnTemplates& own,
                      Diagnostics& diagnostics) {
  return fill_paper(Paper::plan, plan_page_values(subject, layer, units), own, diagnostics);
}

}  // namespace teetally
