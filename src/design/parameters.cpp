#include "design/parameters.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <set>

namespace teetally::design {

namespace {

struct Parameter {
  std::string value;
  Place place;
  bool used = false;
};
using Parameters = std::map<std::string, Parameter>;

constexpr std::string_view kCopyNumber = "n";

bool is_name(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
  });
}

// What stands for `${name}`; nothing leaves the words as they are.
using Meaning = std::function<std::optional<std::string>(const std::string& name)>;

std::string replaced(const std::string& text, const Meaning& meaning, bool& changed) {
  std::string out;
  std::size_t at = 0;
  while (true) {
    const std::size_t start = text.find("${", at);
    const std::size_t end = start == std::string::npos ? start : text.find('}', start);
    if (end == std::string::npos) return out + text.substr(at);
    const std::string name = text.substr(start + 2, end - start - 2);
    const std::optional<std::string> value = meaning(name);
    out += text.substr(at, start - at) + value.value_or(text.substr(start, end + 1 - start));
    changed = changed || value.has_value();
    at = end + 1;
  }
}

// A scalar with an unknown name, which has been complained about, becomes nothing at all.
void fill_in(YamlNode& node, const std::function<Meaning(const YamlNode&, bool& unknown)>& meaning_at) {
  if (node.kind == YamlNode::Kind::scalar && node.text.find("${") != std::string::npos) {
    bool changed = false, unknown = false;
    node.text = replaced(node.text, meaning_at(node, unknown), changed);
    // Flow style forces quotes around ${...}; what replaces it is read as if it stood there plainly.
    if (changed) node.quoted = false;
    if (unknown) node = YamlNode{};
  }
  for (YamlNode& item : node.items) fill_in(item, meaning_at);
  for (YamlEntry& entry : node.entries) fill_in(entry.value, meaning_at);
}

Parameters declared(const YamlNode* set, Diagnostics& diagnostics) {
  Parameters parameters;
  if (!set) return parameters;
  if (set->kind != YamlNode::Kind::mapping) {
    diagnostics.error("design/wrong-type", set->place,
                      fmt::format("'set' takes names with their defaults, found {}", describe(*set)));
    return parameters;
  }
  for (const YamlEntry& entry : set->entries) {
    if (!is_name(entry.key) || entry.key == kCopyNumber) {
      diagnostics
          .error("design/bad-parameter", entry.key_place, fmt::format("{} cannot name a parameter", quoted(entry.key)))
          .help = "use letters, digits, '-' and '_'; 'n' is the number of a copy";
    } else if (entry.value.kind != YamlNode::Kind::scalar) {
      diagnostics.error("design/bad-parameter", entry.value.place,
                        fmt::format("the default of {} must be one text or number, found {}", quoted(entry.key),
                                    describe(entry.value)));
    } else {
      parameters[entry.key] = {entry.value.text, entry.key_place, false};
    }
  }
  return parameters;
}

std::vector<std::string> names_of(const Parameters& parameters) {
  std::vector<std::string> names;
  for (const auto& [name, parameter] : parameters) names.push_back(name);
  return names;
}

std::string help_for(const std::string& name, const Parameters& parameters) {
  if (const auto near = nearest_word(name, names_of(parameters))) return fmt::format("did you mean {}?", quoted(*near));
  if (parameters.empty()) return "declare parameters with their defaults under 'set:'";
  return "declared are " + listed(names_of(parameters));
}

void override_defaults(Parameters& parameters, const std::map<std::string, std::string>& set,
                       Diagnostics& diagnostics) {
  for (const auto& [name, value] : set) {
    const auto found = parameters.find(name);
    if (found != parameters.end()) {
      found->second.value = value;
      continue;
    }
    diagnostics
        .error("design/unknown-parameter", Place{}, fmt::format("the design has no parameter {} to set", quoted(name)))
        .help = help_for(name, parameters);
  }
}

}  // namespace

void fill_in_parameters(YamlNode& root, const std::map<std::string, std::string>& set, Diagnostics& diagnostics) {
  const auto is_set = [](const YamlEntry& entry) { return entry.key == "set"; };
  const auto found = std::find_if(root.entries.begin(), root.entries.end(), is_set);
  Parameters parameters = declared(found == root.entries.end() ? nullptr : &found->value, diagnostics);
  override_defaults(parameters, set, diagnostics);
  const auto meaning_at = [&](const YamlNode& node, bool& unknown) -> Meaning {
    return [&, place = node.place](const std::string& name) -> std::optional<std::string> {
      if (name == kCopyNumber) return std::nullopt;
      const auto parameter = parameters.find(name);
      if (parameter != parameters.end()) {
        parameter->second.used = true;
        return parameter->second.value;
      }
      diagnostics.error("design/unknown-parameter", place, fmt::format("no parameter is named {}", quoted(name))).help =
          help_for(name, parameters);
      if (const auto near = nearest_word(name, names_of(parameters))) parameters[*near].used = true;
      unknown = true;
      return std::nullopt;
    };
  };
  for (YamlEntry& entry : root.entries) {
    if (!is_set(entry)) fill_in(entry.value, meaning_at);
  }
  for (const auto& [name, parameter] : parameters) {
    if (parameter.used) continue;
    diagnostics
        .warning("design/unused-parameter", parameter.place,
                 fmt::format("the parameter {} is never used", quoted(name)))
        .help = fmt::format("write ${{{}}} where its value belongs", name);
  }
}

void fill_in_number(YamlNode& node, std::int64_t n) {
  fill_in(node, [&](const YamlNode&, bool&) -> Meaning {
    return [&](const std::string& name) -> std::optional<std::string> {
      if (name == kCopyNumber) return std::to_string(n);
      return std::nullopt;
    };
  });
}

}  // namespace teetally::design
