#include "render/json_parts.h"
#include "render/pool/parts.h"
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

namespace {

Json line_json(const PoolResult& result, const PlotShare& line) {
  const auto money = [&](Money amount) { return Json(to_string(amount, result.pool.currency)); };
  const Plot& plot = result.pool.plots[line.plot];
  const Alone& alone = result.alone[line.basket];
  Json json = Json::object();
  json.set("name", plot.name);
  if (!plot.is_shared) json.set("member", plot.member);
  json.set("alone", alone.outcome == Outcome::bought ? money(alone.cost) : Json());
  json.set("listed", money(line.share.listed)).set("top_up", money(line.share.top_up));
  json.set("own_parts", money(line.share.paid));
  if (plot.is_shared) return json.set("paid_by", words_json(plot.paid_by));
  json.set("shared_parts", money(line.for_shared)).set("pays", money(line.pays()));
  return json.set("cash_limit", plot.cash_limit ? money(*plot.cash_limit) : Json());
}

Json fairness_json(const PoolResult& result) {
  const auto money = [&](Money amount) { return Json(to_string(amount, result.pool.currency)); };
  const auto figure = [](const std::optional<double>& value) { return value ? Json(*value) : Json(); };
  const Shares& shares = result.shares;
  Json json = Json::object();
  json.set("rule", to_text(shares.rule)).set("pay_more", shares.pay_more);
  json.set("listed", money(shares.listed)).set("top_ups", money(shares.top_ups));
  json.set("largest_top_up", money(shares.largest_top_up)).set("rounding", money(shares.rounding));
  json.set("worst_group", result.worst_excess ? words_json(result.worst_group) : Json());
  json.set("worst_group_pays_more", figure(result.worst_excess));
  return json.set("unavoidable", figure(result.unavoidable_excess));
}

}  // namespace

Json pool_document(const PoolResult& result, UnitSystem units) {
  Json json = document_start("teetally/pool", result.pool.name);
  json.set("currency", result.pool.currency.code);
  json.set("total", to_string(result.purchase.total, result.pool.currency));
  json.set("order", order_document({result.book, result.purchase, nullptr}, units));
  if (result.purchase.outcome != Outcome::bought) return json;
  Json plots = Json::array(), shared = Json::array();
  for (const PlotShare& line : result.plots) plots.push(line_json(result, line));
  for (const PlotShare& line : result.shared) shared.push(line_json(result, line));
  json.set("plots", std::move(plots)).set("shared", std::move(shared));
  json.set("left_out", result.left_out).set("refused", result.refused);
  Json unpaid = Json::array();
  for (const int part : result.unpaid) unpaid.push(result.pool.plots[part].name);
  json.set("shared_not_bought", std::move(unpaid));
  return json.set("fairness", fairness_json(result));
}

std::string pool_csv(const PoolResult& result) {
  const Currency& currency = result.pool.currency;
  std::string out =
      csv_row({"plot", "member", "alone", "listed", "top up", "own parts", "shared parts", "pays", "currency"});
  if (result.purchase.outcome != Outcome::bought) return out;
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
