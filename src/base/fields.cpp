#include <fmt/format.h>

#include <algorithm>

#include "base/decimal.h"
#include "teetally/base/text.h"
#include "teetally/base/words.h"
#include "teetally/base/yaml.h"

namespace teetally {
namespace {

std::string shortened(std::string_view text) {
  constexpr std::size_t kLongest = 60;
  if (text.size() <= kLongest) return quoted(text);
  std::size_t end = kLongest;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
  return quoted(std::string(text.substr(0, end)) + "...");
}

constexpr std::string_view kMissing = "{} has no key {}";

bool has_key_like(const YamlNode& mapping, std::string_view key) {
  return std::any_of(mapping.entries.begin(), mapping.entries.end(),
                     [&](const YamlEntry& entry) { return nearest_word(entry.key, {std::string(key)}).has_value(); });
}

}  // namespace

std::string describe(const YamlNode& node) {
  switch (node.kind) {
    case YamlNode::Kind::null:
      return "nothing";
    case YamlNode::Kind::scalar:
      return "the text " + shortened(node.text);
    case YamlNode::Kind::sequence:
      return "a list";
    case YamlNode::Kind::mapping:
      return "a mapping";
  }
  return {};
}

Fields::Fields(const YamlNode& node, std::string stage, std::string what, const BareUnits& bare,
               Diagnostics& diagnostics)
    : node_(node), stage_(std::move(stage)), what_(std::move(what)), bare_(bare), diagnostics_(diagnostics) {
  for (const YamlEntry& entry : node_.entries) by_key_.emplace(entry.key, &entry);
  // A node without a place stands for something that has been complained about already.
  if (is_mapping() || !node_.place.known()) return;
  Diagnostic& error =
      report("wrong-type", node_.place, fmt::format("{} is {}; expected keys and values", what_, describe(node_)));
  const bool glued = node_.kind == YamlNode::Kind::scalar && node_.text.find(':') != std::string::npos;
  if (glued) error.help = "put a space after the ':'";
}

Diagnostic& Fields::report(std::string_view slug, Place place, std::string message) {
  return diagnostics_.error(fmt::format("{}/{}", stage_, slug), std::move(place), std::move(message));
}

bool Fields::is_mapping() const { return node_.kind == YamlNode::Kind::mapping; }

const YamlEntry* Fields::entry(std::string_view key) const {
  const auto found = by_key_.find(key);
  return found == by_key_.end() ? nullptr : found->second;
}

const YamlNode* Fields::find(std::string_view key) {
  if (asked_.emplace(key).second) known_.emplace_back(key);
  const YamlEntry* found = entry(key);
  return found == nullptr ? nullptr : &found->value;
}

bool Fields::has(std::string_view key) { return find(key) != nullptr; }

const YamlNode* Fields::require(std::string_view key) {
  const YamlNode* found = find(key);
  if (found == nullptr && is_mapping()) {
    missing_.emplace_back(key);
    // A key that may be it, misspelt, makes finish() the one to complain: one mistake, one complaint.
    if (!has_key_like(node_, key)) report("missing-key", node_.place, fmt::format(kMissing, what_, quoted(key)));
  }
  return found;
}

Place Fields::place() const { return node_.place; }

Place Fields::place_of(std::string_view key) const {
  const YamlEntry* found = entry(key);
  if (found == nullptr) return node_.place;
  return found->value.place.known() ? found->value.place : found->key_place;
}

const YamlNode* Fields::scalar(std::string_view key, std::string_view expected) {
  const YamlNode* found = find(key);
  if (found == nullptr) return nullptr;
  if (found->kind == YamlNode::Kind::scalar) return found;
  // Without a place it stands for a refused alias, which has its own diagnostic.
  if (!found->place.known()) return nullptr;
  if (found->kind == YamlNode::Kind::null) {
    report("wrong-type", place_of(key), fmt::format("{} has no value; expected {}", quoted(key), expected));
  } else {
    report("wrong-type", place_of(key), fmt::format("{} is {}; expected {}", quoted(key), describe(*found), expected));
  }
  return nullptr;
}

template <typename Value, typename Parse>
std::optional<Value> Fields::parsed(std::string_view key, std::string_view expected, Parse parse) {
  const YamlNode* found = scalar(key, expected);
  if (found == nullptr) return std::nullopt;
  const tl::expected<Value, std::string> value = parse(std::string_view(found->text));
  if (value) return *value;
  report("bad-value", found->place, fmt::format("{}: {}", quoted(key), value.error()));
  return std::nullopt;
}

std::optional<std::string> Fields::text(std::string_view key) {
  return parsed<std::string>(key, "text", [](std::string_view text) -> tl::expected<std::string, std::string> {
    const std::string_view inner = trimmed(text);
    if (inner.empty()) return tl::unexpected(std::string("the text is empty"));
    return std::string(inner);
  });
}

std::optional<bool> Fields::yes_no(std::string_view key) {
  return parsed<bool>(key, "yes or no", [](std::string_view text) -> tl::expected<bool, std::string> {
    const std::string word = lower_case(trimmed(text));
    if (word == "yes" || word == "true") return true;
    if (word == "no" || word == "false") return false;
    return tl::unexpected(fmt::format("{} is neither yes nor no", shortened(text)));
  });
}

std::optional<std::int64_t> Fields::count(std::string_view key, std::int64_t least, std::int64_t most) {
  return parsed<std::int64_t>(
      key, "a whole number", [&](std::string_view text) -> tl::expected<std::int64_t, std::string> {
        const auto value = parse_count(text);
        if (value && (*value < least || *value > most)) {
          return tl::unexpected(fmt::format("{} is out of range; expected {} to {}", *value, least, most));
        }
        return value;
      });
}

std::optional<double> Fields::number(std::string_view key, double least, double most) {
  return parsed<double>(key, "a number", [&](std::string_view text) -> tl::expected<double, std::string> {
    const auto value = parse_number(text);
    if (value && (*value < least || *value > most)) {
      return tl::unexpected(fmt::format("{} is out of range; expected {} to {}", *value, least, most));
    }
    return value;
  });
}

std::optional<Length> Fields::length(std::string_view key) {
  return parsed<Length>(key, "a length such as 5 ft 6 in",
                        [&](std::string_view text) { return parse_length(text, bare_); });
}
std::optional<Diameter> Fields::diameter(std::string_view key) {
  return parsed<Diameter>(key, "a diameter such as 0.6 in",
                          [&](std::string_view text) { return parse_diameter(text, bare_); });
}
std::optional<Flow> Fields::flow(std::string_view key) {
  return parsed<Flow>(key, "a flow such as 0.5 gph", [&](std::string_view text) { return parse_flow(text, bare_); });
}
std::optional<Pressure> Fields::pressure(std::string_view key) {
  return parsed<Pressure>(key, "a pressure such as 25 psi",
                          [&](std::string_view text) { return parse_pressure(text, bare_); });
}
std::optional<Volume> Fields::volume(std::string_view key) {
  return parsed<Volume>(key, "a volume such as 5 gal",
                        [&](std::string_view text) { return parse_volume(text, bare_); });
}
std::optional<Money> Fields::money(std::string_view key, const Currency& currency) {
  return parsed<Money>(key, "an amount such as 12.50",
                       [&](std::string_view text) { return parse_money(text, currency); });
}
std::optional<Percent> Fields::percent(std::string_view key) {
  return parsed<Percent>(key, "a percentage such as 8.25 %", [](std::string_view text) { return parse_percent(text); });
}

std::optional<std::string> Fields::one_of(std::string_view key, std::initializer_list<std::string_view> words) {
  const std::vector<std::string> known(words.begin(), words.end());
  const YamlNode* found = scalar(key, "one of " + listed(known));
  if (found == nullptr) return std::nullopt;
  const std::string_view text = trimmed(found->text);
  if (std::find(known.begin(), known.end(), text) != known.end()) return std::string(text);
  Diagnostic& error = report("bad-value", found->place,
                             fmt::format("{}: {} is none of {}", quoted(key), shortened(text), listed(known)));
  if (const auto near = nearest_word(text, known)) error.help = fmt::format("did you mean {}?", quoted(*near));
  return std::nullopt;
}

std::vector<const YamlNode*> Fields::list(std::string_view key) {
  std::vector<const YamlNode*> out;
  const YamlNode* found = find(key);
  if (found == nullptr) return out;
  if (found->kind != YamlNode::Kind::sequence) {
    if (!found->place.known()) return out;
    const std::string state = found->kind == YamlNode::Kind::null ? "has no value" : "is " + describe(*found);
    report("wrong-type", place_of(key), fmt::format("{} {}; expected a list", quoted(key), state));
    return out;
  }
  for (const YamlNode& item : found->items) out.push_back(&item);
  return out;
}

std::vector<std::string> Fields::texts(std::string_view key) {
  const YamlNode* found = find(key);
  if (found == nullptr) return {};
  if (found->kind != YamlNode::Kind::sequence) {
    const auto single = text(key);
    return single ? std::vector<std::string>{*single} : std::vector<std::string>{};
  }
  std::vector<std::string> out;
  for (const YamlNode& item : found->items) {
    const std::string_view inner = trimmed(item.text);
    if (item.kind == YamlNode::Kind::scalar && !inner.empty()) {
      out.emplace_back(inner);
    } else if (item.place.known()) {
      report("wrong-type", item.place, fmt::format("an item of {} is {}; expected text", quoted(key), describe(item)));
    }
  }
  return out;
}

std::vector<std::string> Fields::unasked() const {
  std::vector<std::string> keys;
  for (const YamlEntry& entry : node_.entries) {
    if (asked_.find(entry.key) == asked_.end()) keys.push_back(entry.key);
  }
  return keys;
}

void Fields::forgive() { forgiven_ = true; }

void Fields::finish() {
  std::set<std::string> misspelt;
  for (const YamlEntry& entry : node_.entries) {
    if (forgiven_ || asked_.find(entry.key) != asked_.end()) continue;
    // A key that is missing is the likelier meaning of one that is not known.
    auto near = nearest_word(entry.key, missing_);
    if (near) misspelt.insert(*near);
    if (!near) near = nearest_word(entry.key, known_);
    Diagnostic& error =
        report("unknown-key", entry.key_place, fmt::format("unknown key {} in {}", shortened(entry.key), what_));
    if (near) {
      error.help = fmt::format("did you mean {}?", quoted(*near));
    } else if (!known_.empty()) {
      error.help = fmt::format("known keys: {}", listed(known_));
    }
  }
  for (const std::string& key : missing_) {
    if (misspelt.contains(key) || !has_key_like(node_, key)) continue;
    report("missing-key", node_.place, fmt::format(kMissing, what_, quoted(key)));
  }
}

}  // namespace teetally
