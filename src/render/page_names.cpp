#include "render/page_names.h"

#include <array>
#include <map>

#include "render/page_template.h"

namespace teetally {
namespace {

constexpr std::array<std::pair<Paper, std::string_view>, 2> kTemplates = {{
    {Paper::order, "order.mustache"},
    {Paper::cut_list, "cut-list.mustache"},
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
      list("leftovers", {text("amount"), text("what"), text("sku")}),
      list("tubing"),
      text("proof"),
      text("no_order"),
      list("shortfalls", {list("short_needs", {text("need"), text("amount"), text("part")}), text("why")}),
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
                                                                {Paper::cut_list, cut_list_names()}};
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
