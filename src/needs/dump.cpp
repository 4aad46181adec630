// A takeoff as JSON: amounts are pieces, or tenths of a millimetre where "by_length" is true.
#include "teetally/needs.h"

namespace teetally {

std::string to_text(ReasonClass reason_class) {
  switch (reason_class) {
    case ReasonClass::design:
      return "design";
    case ReasonClass::waste:
      return "waste";
    case ReasonClass::spare:
      return "spare";
    case ReasonClass::on_site:
      return "on site";
  }
  return {};
}

namespace {

Json reasons_of(const Need& need) {
  Json reasons = Json::array();
  for (const Reason& reason : need.reasons) {
    reasons.push(Json::object()
                     .set("class", to_text(reason.reason_class))
                     .set("element", reason.element)
                     .set("rule", reason.rule)
                     .set("where", reason.where)
                     .set("amount", reason.amount)
                     .set("place", to_string(reason.place)));
  }
  return reasons;
}

Json pieces_of(const Need& need) {
  Json pieces = Json::array();
  for (const NeededPiece& piece : need.pieces) {
    pieces.push(
        Json::object().set("length", piece.length.tenths_mm).set("where", piece.where).set("may_join", piece.may_join));
  }
  return pieces;
}

Json needs_as_json(const std::vector<Need>& needs) {
  Json all = Json::array();
  for (const Need& need : needs) {
    Json systems = Json::array();
    for (const int system : need.systems) systems.push(system);
    Json entry = Json::object();
    entry.set("id", need.id)
        .set("part", to_json(need.part))
        .set("systems", std::move(systems))
        .set("by_length", need.by_length)
        .set("amount", need.amount)
        .set("reasons", reasons_of(need));
    if (need.by_length) entry.set("pieces", pieces_of(need));
    all.push(std::move(entry));
  }
  return all;
}

}  // namespace

Json to_json(const Takeoff& takeoff) {
  Json systems = Json::array();
  for (const TubingSystem& system : takeoff.systems) {
    systems.push(Json::object().set("name", system.name).set("size", system.size));
  }
  Json assumptions = Json::array();
  for (const Assumption& assumption : takeoff.assumptions) {
    assumptions.push(Json::object().set("text", assumption.text).set("origin", assumption.origin));
  }
  Json cautions = Json::array();
  for (const std::string& caution : takeoff.cautions) cautions.push(caution);
  return Json::object()
      .set("name", takeoff.name)
      .set("systems", std::move(systems))
      .set("needs", needs_as_json(takeoff.needs))
      .set("covered", needs_as_json(takeoff.covered))
      .set("assumptions", std::move(assumptions))
      .set("cautions", std::move(cautions));
}

}  // namespace teetally
