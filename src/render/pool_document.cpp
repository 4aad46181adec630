#include "render/pool_parts.h"
#include "teetally/base/csv.h"

namespace teetally {

bool all_known_alone(const PoolResult& result) {
  for (const auto* list : {&result.plots, &result.shared}) {
    for (const PlotShare& line : *list) {
      if (result.alone[line.basket].outcome != Outcome::bought) return false;
    }
  }
  return true;
}

Money alone_in_all(const PoolResult& result) {
  Money sum;
  for (const auto* list : {&result.plots, &result.shared}) {
    for (const PlotShare& line : *list) sum += result.alone[line.basket].cost;
  }
  return sum;
}

Json pool_document(const PoolResult& result, UnitSystem units) {
  const Currency& currency = result.pool.currency;
  const auto money = [&](Money amount) { return Json(to_string(amount, currency)); };
  const auto line_json = [&](const PlotShare& line) {
    const Plot& plot = result.pool.plots[line.plot];
    const Alone& alone = result.alone[line.basket];
    Json json = Json::object();
    json.set("name", plot.name).set("member", plot.member);
    json.set("alone", alone.outcome == Outcome::bought ? money(alone.cost) : Json());
    json.set("listed", money(line.share.listed)).set("top up", money(line.share.top_up));
    json.set("own parts", money(line.share.paid)).set("shared parts", money(line.for_shared));
    return json.set("pays", money(line.pays()));
  };
  Json plots = Json::array(), shared = Json::array();
  for (const PlotShare& line : result.plots) plots.push(line_json(line));
  for (const PlotShare& line : result.shared) shared.push(line_json(line));
  Json fairness = Json::object();
  fairness.set("rule", to_text(result.shares.rule)).set("plots that pay more than alone", result.shares.pay_more);
  fairness.set("listed", money(result.shares.listed)).set("top ups", money(result.shares.top_ups));
  fairness.set("largest top up", money(result.shares.largest_top_up)).set("rounding", money(result.shares.rounding));
  fairness.set("worst group excess", result.worst_excess ? Json(*result.worst_excess) : Json());
  fairness.set("unavoidable excess", result.unavoidable_excess ? Json(*result.unavoidable_excess) : Json());
  Json json = Json::object();
  json.set("document", "teetally/pool").set("version", 1).set("name", result.pool.name);
  json.set("currency", currency.code).set("total", money(result.purchase.total));
  json.set("order", order_document({result.book, result.purchase, nullptr}, units));
  json.set("plots", std::move(plots)).set("shared parts", std::move(shared));
  return json.set("fairness", std::move(fairness));
}

std::string pool_csv(const PoolResult& result) {
  const Currency& currency = result.pool.currency;
  std::string out =
      csv_row({"plot", "member", "alone", "listed", "top up", "own parts", "shared parts", "pays", "currency"});
  for (const PlotShare& line : result.plots) {
    const Plot& plot = result.pool.plots[line.plot];
    const Alone& alone = result.alone[line.basket];
    out += csv_row({plot.name, plot.member, alone.outcome == Outcome::bought ? to_string(alone.cost, currency) : "",
                    to_string(line.share.listed, currency), to_string(line.share.top_up, currency),
                    to_string(line.share.paid, currency), to_string(line.for_shared, currency),
                    to_string(line.pays(), currency), currency.code});
  }
  return out;
}

}  // namespace teetally
