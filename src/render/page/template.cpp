#include "render/page/template.h"

#include <kainjow/mustache.hpp>

#include "render/page/shapes.h"

namespace teetally {
namespace {

namespace mustache = kainjow::mustache;
using Kind = PageName::Kind;

// What is empty counts as nothing, so that a template can leave out its heading.
mustache::data text_data(const Json& json) {
  const auto* text = std::get_if<std::string>(&json.value());
  if (text == nullptr || text->empty()) return mustache::data{false};
  return mustache::data{*text};
}

mustache::data page_data(const Json& values, const std::vector<PageName>& names) {
  mustache::data data{mustache::data::type::object};
  for (const PageName& name : names) {
    const Json* value = member(values, name.name);
    if (value == nullptr) continue;
    const auto* array = std::get_if<Json::Array>(&value->value());
    if (array == nullptr) {
      data.set(name.name, text_data(*value));
      continue;
    }
    mustache::data list{mustache::data::type::list};
    for (const Json& one : *array) list.push_back(name.inside.empty() ? text_data(one) : page_data(one, name.inside));
    data.set(name.name, list);
  }
  return data;
}

}  // namespace

std::string fill_template(std::string_view text, const Json& values, const std::vector<PageName>& names) {
  mustache::mustache page{std::string(text)};
  page.set_custom_escape([](const std::string& value) { return escape_markup(value); });
  return page.render(page_data(values, names));
}

const Json* member(const Json& json, const std::string& name) {
  const auto* object = std::get_if<Json::Object>(&json.value());
  if (object == nullptr) return nullptr;
  for (const auto& [key, value] : *object) {
    if (key == name) return &value;
  }
  return nullptr;
}

}  // namespace teetally
