#include "render/json_parts.h"
#include "render/phrases.h"

namespace teetally {
namespace {

Json pieces_json(const Need& need, UnitSystem units) {
  Json json = Json::array();
  for (const NeededPiece& piece : need.pieces) {
    Json one = Json::object();
    one.set("length", amount_json(true, piece.length.tenths_mm, units));
    one.set("where", piece.where);
    one.set("may_join", piece.may_join);
    json.push(std::move(one));
  }
  return json;
}

Json need_json(const Need& need, UnitSystem units) {
  Json json = Json::object();
  json.set("id", need.id);
  json.set("part", part_json(need.part, units));
  json.set("needed", amount_json(need.by_length, need.amount, units));
  Json classes = Json::object();
  for (const ReasonClass c : {ReasonClass::design, ReasonClass::waste, ReasonClass::spare, ReasonClass::on_site}) {
    classes.set(to_text(c), amount_json(need.by_length, sum_of(need, c), units));
  }
  json.set("by_class", std::move(classes));
  json.set("reasons", reasons_json(need, units));
  if (need.by_length) json.set("pieces", pieces_json(need, units));
  return json;
}

}  // namespace

Json takeoff_document(const Takeoff& takeoff, const SizedGarden* sized, UnitSystem units) {
  Json json = document_start("teetally/takeoff", takeoff.name);
  json.set("works", verdict_json(sized));
  Json needs = Json::array();
  for (const Need& need : takeoff.needs) needs.push(need_json(need, units));
  json.set("needs", std::move(needs));
  Json covered = Json::array();
  for (const Need& need : takeoff.covered) covered.push(need_json(need, units));
  json.set("covered", std::move(covered));
  Json assumptions = Json::array();
  for (const Assumption& a : takeoff.assumptions) {
    Json one = Json::object();
    one.set("text", a.text);
    one.set("origin", a.origin);
    assumptions.push(std::move(one));
  }
  json.set("assumptions", std::move(assumptions));
  json.set("cautions", words_json(takeoff.cautions));
  return json;
}

}  // namespace teetally
