#include "render/page_template.h"

#include <algorithm>
#include <kainjow/mustache.hpp>

#include "render/plan_shapes.h"

namespace teetally {
namespace {

namespace mustache = kainjow::mustache;

mustache::data as_data(const Json& json) {
  if (const auto* object = std::get_if<Json::Object>(&json.value())) {
    mustache::data data{mustache::data::type::object};
    for (const auto& [key, value] : *object) data.set(key, as_data(value));
    return data;
  }
  if (const auto* array = std::get_if<Json::Array>(&json.value())) {
    mustache::data data{mustache::data::type::list};
    for (const Json& value : *array) data.push_back(as_data(value));
    return data;
  }
  if (const auto* text = std::get_if<std::string>(&json.value())) return mustache::data{*text};
  if (const auto* yes = std::get_if<bool>(&json.value())) return mustache::data{*yes};
  if (const auto* number = std::get_if<std::int64_t>(&json.value())) return mustache::data{std::to_string(*number)};
  return mustache::data{false};
}

Place place_at(const Source& source, std::size_t offset) {
  const std::string_view before = std::string_view(source->text).substr(0, offset);
  const auto line = static_cast<int>(std::count(before.begin(), before.end(), '\n')) + 1;
  const std::size_t start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
  int column = 1;
  for (const char c : before.substr(start)) column += (static_cast<unsigned char>(c) & 0xC0) != 0x80 ? 1 : 0;
  return {source, line, column};
}

std::string trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1));
}

const Json* member(const Json& json, const std::string& name) {
  const auto* object = std::get_if<Json::Object>(&json.value());
  if (object == nullptr) return nullptr;
  for (const auto& [key, value] : *object) {
    if (key == name) return &value;
  }
  return nullptr;
}

// What is open around a tag, innermost last. A list stands for its first member: all its members are alike.
class Scopes {
 public:
  explicit Scopes(const Json& root) : scopes_{&root} {}

  const Json* find(const std::string& name) const {
    if (name == ".") return scopes_.back();
    for (auto scope = scopes_.rbegin(); scope != scopes_.rend(); ++scope) {
      if (const Json* found = member(**scope, name)) return found;
    }
    return nullptr;
  }
  std::vector<std::string> names() const {
    std::vector<std::string> names;
    for (const Json* scope : scopes_) {
      if (const auto* object = std::get_if<Json::Object>(&scope->value())) {
        for (const auto& entry : *object) names.push_back(entry.first);
      }
    }
    return names;
  }
  void open(const Json* value) {
    const auto* array = value == nullptr ? nullptr : std::get_if<Json::Array>(&value->value());
    const Json* inner = array != nullptr && !array->empty() ? &array->front() : value;
    scopes_.push_back(inner == nullptr ? &kNothing : inner);
  }
  void close() { scopes_.pop_back(); }

 private:
  static const Json kNothing;
  std::vector<const Json*> scopes_;
};
const Json Scopes::kNothing;

}  // namespace

std::vector<TemplateTag> template_tags(const Source& source, Diagnostics& diagnostics) {
  std::vector<TemplateTag> tags;
  const std::string& text = source->text;
  for (std::size_t at = text.find("{{"); at != std::string::npos; at = text.find("{{", at)) {
    const bool triple = text.compare(at, 3, "{{{") == 0;
    const std::size_t end = text.find(triple ? "}}}" : "}}", at);
    if (end == std::string::npos) {
      diagnostics.error("render/open-tag", place_at(source, at), "this tag has no end; '}}' is expected");
      return tags;
    }
    std::string inside =
        trimmed(std::string_view(text).substr(at + 2 + (triple ? 1 : 0), end - at - 2 - (triple ? 1 : 0)));
    TemplateTag tag{triple ? '{' : '\0', {}, place_at(source, at)};
    if (!triple && !inside.empty() && std::string_view("#^/&!>=").find(inside.front()) != std::string_view::npos) {
      tag.sign = inside.front();
      inside = trimmed(std::string_view(inside).substr(1));
    }
    tag.name = inside;
    tags.push_back(std::move(tag));
    at = end + 2;
  }
  return tags;
}

void check_names(const Source& source, const Json& values, Diagnostics& diagnostics) {
  Scopes scopes(values);
  std::vector<TemplateTag> open;
  for (const TemplateTag& tag : template_tags(source, diagnostics)) {
    if (tag.sign == '!') continue;
    if (tag.sign == '/') {
      if (open.empty() || open.back().name != tag.name) {
        diagnostics.error("render/section-mismatch", tag.place, "nothing called " + quoted(tag.name) + " is open here");
        return;
      }
      open.pop_back();
      scopes.close();
      continue;
    }
    const Json* found = scopes.find(tag.name);
    if (found == nullptr) {
      Diagnostic& d = diagnostics.error("render/unknown-name", tag.place, "this page has no " + quoted(tag.name));
      if (const auto near = nearest_word(tag.name, scopes.names())) d.help = "did you mean " + quoted(*near) + "?";
    }
    if (tag.sign == '#' || tag.sign == '^') {
      open.push_back(tag);
      scopes.open(found);
    }
  }
  for (const TemplateTag& tag : open) {
    diagnostics.error("render/section-mismatch", tag.place, quoted(tag.name) + " is opened here and never closed");
  }
}

std::string fill_template(std::string_view text, const Json& values) {
  mustache::mustache page{std::string(text)};
  page.set_custom_escape([](const std::string& value) { return escape_markup(value); });
  return page.render(as_data(values));
}

}  // namespace teetally
