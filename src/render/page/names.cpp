#include "render/page/names.h"

#include <array>
#include <map>

#include "render/page/template.h"

namespace teetally {
namespace {

constexpr std::array<std::pair<Paper, std::string_view>, 14> kTemplates = {{
    {Paper::order, "order.mustache"},
    {Paper::comparison, "comparison.mustache"},
    {Paper::cut_list, "cut-list.mustache"},
    {Paper::parts, "parts.mustache"},
    {Paper::van_list, "van-list.mustache"},
    {Paper::plan, "plan.mustache"},
    {Paper::run_card, "run-card.mustache"},
    {Paper::quote, "quote.mustache"},
    {Paper::internal_quote, "internal-quote.mustache"},
    {Paper::pool, "pool.mustache"},
    {Paper::picks, "picks.mustache"},
    {Paper::packing, "packing.mustache"},
    {Paper::statements, "statements.mustache"},
    {Paper::round, "round.mustache"},
}};

PageName text(std::string name) { return {std::move(name), PageName::Kind::text, {}}; }
PageName markup(std::string name) { return {std::move(name), PageName::Kind::markup, {}}; }
PageName list(std::string name, std::vector<PageName> inside = {}) {
  return {std::move(name), PageName::Kind::list, std::move(inside)};
}

std::vector<PageName> order_names() {
  return {
      markup("style"),
      text("name"),
      text("verdict"),
      text("total_words"),
      text("currency"),
      text("total"),
      list("orders",
           {text("supplier"), text("notice"), text("prices_until"), text("supplier_total"),
            list("lines", {text("sku"), text("what"), text("packs"), text("price"), text("goods"), list("changes")}),
            list("costs", {text("cost"), text("amount")})}),
      list("on_hand", {text("sku"), text("what"), text("packs")}),
      list("needs", {text("need"), text("part"), text("needed"), text("bought"), text("spare")}),
      list("joins", {text("need"), text("words")}),
      list("leftovers", {text("amount"), text("what"), text("sku"), text("worth"), markup("bar")}),
      list("tubing"),
      text("proof"),
      text("no_order"),
      list("shortfalls", {list("short_needs", {text("need"), text("amount"), text("part")}), text("why")}),
      list("cautions"),
  };
}

std::vector<PageName> comparison_names() {
  return {
      markup("style"),
      text("name"),
      text("advice"),
      text("no_order"),
      text("currency"),
      list("key", {markup("sample"), text("stands_for")}),
      list("ways", {text("way"), text("remark"), text("suppliers"), text("goods"), text("delivery"), text("tax"),
                    text("total"), text("dearer"), markup("bar"), text("verdict"), list("changes"), list("order"),
                    list("left_over"), text("same_as")}),
      text("idle_bundles"),
      list("fewer", {text("suppliers"), text("costs")}),
      list("deep",
           {list("orders", {text("order"), text("total")}), list("packs", {text("sku"), text("what"), text("rise")}),
            list("needs", {text("need"), text("part"), text("one"), text("more"), text("fewer"), text("spares")}),
            text("all_spares"), text("orders_end")}),
      text("how"),
      list("grounds"),
      list("cautions"),
  };
}

std::vector<PageName> cut_list_names() {
  return {
      markup("style"),
      text("name"),
      text("summary"),
      list("coils",
           {text("number"), text("length"), text("what"), text("sku"), text("supplier"), text("left"),
            text("left_words"), list("cuts", {text("cut"), text("piece_length"), text("need"), text("where")})}),
      list("joins", {text("need"), text("words")}),
  };
}

std::vector<PageName> parts_names() {
  return {
      markup("style"),
      text("name"),
      text("verdict"),
      list("needs", {text("need"), text("part"), text("design"), text("waste"), text("spare"), text("on_site"),
                     text("amount"), list("reasons", {text("reason_amount"), text("reason")})}),
      list("on_site_already", {text("need"), text("part")}),
      list("assumptions", {text("assumption"), text("origin")}),
      list("cautions"),
  };
}

std::vector<PageName> van_list_names() {
  const std::vector<PageName> part = {text("amount"), text("part"), text("need"), list("spots"),
                                      list("pieces", {text("piece_length"), text("where")})};
  return {markup("style"), text("name"), list("places", {text("place"), list("parts", part)}), list("besides", part),
          list("cautions")};
}

std::vector<PageName> plan_names() {
  return {markup("style"),
          text("name"),
          text("verdict"),
          markup("drawing"),
          text("left_out"),
          list("signs", {markup("sign"), text("words")}),
          text("figures"),
          list("noted", {list("notes", {text("numbers"), text("words")})}),
          list("pressures", {text("zone"), markup("curve"),
                             list("points", {text("where"), text("along"), text("up"), text("pressure")})}),
          list("cautions")};
}

std::vector<PageName> run_card_names() {
  return {markup("style"),
          text("name"),
          text("warning"),
          list("zones",
               {text("zone"), text("starts"), text("each"), text("in_all"), text("water"), text("onto"), text("rate")}),
          list("reckoning"),
          list("cautions")};
}

std::vector<PageName> quote_names() {
  return {
      markup("style"),
      text("name"),
      text("number"),
      text("revision"),
      text("business"),
      text("customer"),
      text("site"),
      text("scope"),
      text("made_on"),
      text("valid_until"),
      text("currency"),
      list("sections", {text("what"), text("amount")}),
      text("price"),
      text("tax_words"),
      text("tax"),
      text("total"),
      list("payments", {text("what"), text("amount")}),
      list("parts", {text("part"), text("amount")}),
      list("choices", {list("options", {text("option"), text("differs"), text("price"), text("tax"), text("total")})}),
      list("exclusions"),
      list("cautions")};
}

std::vector<PageName> internal_quote_names() {
  std::vector<PageName> names = quote_names();
  names.push_back(
      list("costs", {text("supplier"), text("sku"), text("what"), text("count"), text("each"), text("cost")}));
  names.push_back(list("sums", {text("what"), text("amount")}));
  names.push_back(list("choice_costs", {list("option_costs", {text("option"), text("cost"), text("profit"),
                                                              text("price"), text("margin")})}));
  names.push_back(list("left_out"));
  return names;
}

std::vector<PageName> pool_names() {
  return {markup("style"),
          text("name"),
          text("lead"),
          text("currency"),
          text("proof"),
          list("absences"),
          list("orders", {text("supplier"), text("lines"), text("supplier_total")}),
          text("total"),
          list("plots", {text("plot"), text("member"), text("alone"), text("own_parts"), text("saves"),
                         text("saves_percent"), text("shared_parts"), text("pays")}),
          text("rule"),
          list("shared", {text("part"), text("alone"), text("costs"), text("paid_by")}),
          text("fairness"),
          list("limits"),
          text("savings"),
          list("within_reach"),
          list("left_over", {text("what"), text("amount")}),
          list("cautions")};
}

PageName pick_list(std::string name) {
  return list(std::move(name), {text("amount"), text("what"), text("where"), text("from")});
}

std::vector<PageName> picks_names() {
  return {markup("style"), text("name"), text("in_all"),
          list("sheets", {text("position"), text("kind"), text("plot"), text("member"), pick_list("picks")}),
          list("to_stock", {pick_list("stock")})};
}

std::vector<PageName> packing_names() {
  return {markup("style"), text("name"), text("lead"), list("steps", {text("position"), text("who"), list("opens")}),
          list("to_stock", {pick_list("stock")})};
}

std::vector<PageName> statements_names() {
  return {markup("style"), text("name"), text("currency"),
          list("members",
               {text("member"),
                list("plots", {text("plot"), text("alone"), text("own_parts"), text("shared_parts"), text("pays")}),
                text("to_pay"), text("saves_words"), list("explained", {text("whose"), list("steps")})})};
}

std::vector<PageName> round_names() {
  return {markup("style"),
          text("name"),
          text("round"),
          text("lead"),
          text("currency"),
          list("lines", {text("plot"), text("member"), text("share"), text("leaving"), text("deliveries"), text("owes"),
                         text("note")}),
          text("total"),
          text("left"),
          text("next")};
}

void compare(const Json& values, const std::vector<PageName>& names, const std::string& path,
             std::vector<std::string>& differences) {
  const auto* object = std::get_if<Json::Object>(&values.value());
  if (object == nullptr) {
    differences.push_back(path + " has no names");
    return;
  }
  for (const PageName& name : names) {
    const Json* value = member(values, name.name);
    const std::string at = path + name.name;
    if (value == nullptr) {
      differences.push_back(at + " is missing");
    } else if (name.kind != PageName::Kind::list) {
      if (!std::holds_alternative<std::string>(value->value())) differences.push_back(at + " is no text");
    } else if (const auto* array = std::get_if<Json::Array>(&value->value()); array == nullptr) {
      differences.push_back(at + " is no list");
    } else if (!name.inside.empty()) {
      for (const Json& one : *array) compare(one, name.inside, at + ".", differences);
    }
  }
  if (object->size() > names.size()) differences.push_back(path + " has more than is promised");
}

}  // namespace

const std::vector<PageName>& names_of(Paper paper) {
  static const std::map<Paper, std::vector<PageName>> kNames = {{Paper::order, order_names()},
                                                                {Paper::comparison, comparison_names()},
                                                                {Paper::cut_list, cut_list_names()},
                                                                {Paper::parts, parts_names()},
                                                                {Paper::van_list, van_list_names()},
                                                                {Paper::plan, plan_names()},
                                                                {Paper::run_card, run_card_names()},
                                                                {Paper::quote, quote_names()},
                                                                {Paper::internal_quote, internal_quote_names()},
                                                                {Paper::pool, pool_names()},
                                                                {Paper::picks, picks_names()},
                                                                {Paper::packing, packing_names()},
                                                                {Paper::statements, statements_names()},
                                                                {Paper::round, round_names()}};
  return kNames.at(paper);
}

std::string template_of(Paper paper) {
  for (const auto& [kind, name] : kTemplates) {
    if (kind == paper) return std::string(name);
  }
  return {};
}

std::optional<Paper> paper_of(std::string_view template_name) {
  for (const auto& [kind, name] : kTemplates) {
    if (name == template_name) return kind;
  }
  return std::nullopt;
}

std::vector<std::string> template_names() {
  std::vector<std::string> names;
  for (const auto& entry : kTemplates) names.emplace_back(entry.second);
  names.emplace_back(kStyleSheet);
  return names;
}

std::vector<std::string> unlike(const Json& values, const std::vector<PageName>& names) {
  std::vector<std::string> differences;
  compare(values, names, "", differences);
  return differences;
}

}  // namespace teetally
