#include "design/anchors_reader.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "design/measures.h"
#include "teetally/base/text.h"

namespace teetally::design {

namespace {

struct Direction {
  std::string_view word;
  int east, north, up;
};
constexpr Direction kDirections[] = {
    {"north", 0, 1, 0},     {"south", 0, -1, 0},     {"east", 1, 0, 0},       {"west", -1, 0, 0},
    {"northeast", 1, 1, 0}, {"northwest", -1, 1, 0}, {"southeast", 1, -1, 0}, {"southwest", -1, -1, 0},
    {"up", 0, 0, 1},        {"down", 0, 0, -1},
};

// Splits "a WORD b" at the first or last WORD between spaces; the second part is empty when there is none.
std::pair<std::string_view, std::string_view> parted(std::string_view text, std::string_view word) {
  const std::size_t at = text.find(word);
  if (at == std::string_view::npos) return {trimmed(text), {}};
  return {trimmed(text.substr(0, at)), trimmed(text.substr(at + word.size()))};
}

YamlNode scalar_at(const YamlNode& node, std::string_view text) {
  YamlNode scalar;
  scalar.kind = YamlNode::Kind::scalar;
  scalar.place = node.place;
  scalar.text = std::string(trimmed(text));
  return scalar;
}

// "[12 ft, 4 ft]" written inside a longer text.
YamlNode sequence_at(const YamlNode& node, std::string_view text) {
  YamlNode sequence;
  sequence.kind = YamlNode::Kind::sequence;
  sequence.place = node.place;
  text = text.substr(1, text.size() - 2);
  while (true) {
    const std::size_t comma = text.find(',');
    sequence.items.push_back(scalar_at(node, text.substr(0, comma)));
    if (comma == std::string_view::npos) return sequence;
    text = text.substr(comma + 1);
  }
}

std::optional<Anchor> anchor_at_point(const YamlNode& node, const YamlNode& position, const BareUnits& bare,
                                      Diagnostics& diagnostics) {
  const std::optional<Point> at = read_point(position, bare, diagnostics);
  if (!at) return std::nullopt;
  Anchor anchor;
  anchor.form = Anchor::Form::at;
  anchor.at = *at;
  anchor.place = node.place;
  return anchor;
}

std::optional<Anchor> anchor_from_text(const YamlNode& node, std::string_view text, const BareUnits& bare,
                                       Diagnostics& diagnostics) {
  text = trimmed(text);
  if (text.size() >= 2 && text.front() == '[' && text.back() == ']') {
    return anchor_at_point(node, sequence_at(node, text), bare, diagnostics);
  }
  Anchor anchor;
  anchor.place = node.place;
  if (text == "tap" || text == "source") return anchor;
  const std::pair<std::string_view, Anchor::Form> forms[] = {{"nearest point of ", Anchor::Form::nearest},
                                                             {"start of ", Anchor::Form::start},
                                                             {"middle of ", Anchor::Form::middle},
                                                             {"end of ", Anchor::Form::end}};
  for (const auto& [words, form] : forms) {
    if (!text.starts_with(words)) continue;
    anchor.form = form;
    anchor.name = std::string(trimmed(text.substr(words.size())));
    return anchor;
  }
  const auto [distance, line] = parted(text, " along ");
  if (!line.empty()) {
    const std::optional<Length> along = read_length(scalar_at(node, distance), bare, diagnostics);
    if (!along) return std::nullopt;
    anchor.form = Anchor::Form::along;
    anchor.along = *along;
    anchor.name = std::string(line);
    return anchor;
  }
  anchor.form = Anchor::Form::named;
  anchor.name = std::string(text);
  if (!text.empty()) return anchor;
  diagnostics.error("design/bad-anchor", node.place, "expected where it joins, found nothing").help =
      "for example 'tap', '12 ft along trunk', 'nearest point of trunk' or 'end of trunk'";
  return std::nullopt;
}

std::vector<std::string> direction_words() {
  std::vector<std::string> words;
  for (const Direction& direction : kDirections) words.emplace_back(direction.word);
  words.emplace_back("to");
  return words;
}

void complain_about_step(const YamlNode& node, std::string_view first, Diagnostics& diagnostics) {
  Diagnostic& diagnostic = diagnostics.error(
      "design/bad-step", node.place,
      fmt::format("expected a direction and a length, or 'to' and a place, found {}", quoted(node.text)));
  const std::optional<std::string> near = nearest_word(first, direction_words());
  diagnostic.help = near && *near != first ? fmt::format("did you mean {}?", quoted(*near))
                                           : "for example 'east 18 ft', 'up 12 in' or 'to [12 ft, 4 ft]'";
}

// "east 18 ft", "northeast 10 m rising 50 cm".
std::optional<Point> move_from_text(const YamlNode& node, std::string_view text, const BareUnits& bare,
                                    Diagnostics& diagnostics) {
  const auto [word, measure] = parted(text, " ");
  const Direction* direction = nullptr;
  for (const Direction& candidate : kDirections) {
    if (candidate.word == word) direction = &candidate;
  }
  if (!direction || measure.empty()) {
    complain_about_step(node, word, diagnostics);
    return std::nullopt;
  }
  const auto [flat, rise] = parted(measure, " rising ");
  const auto [level, fall] = parted(flat, " falling ");
  const std::optional<Length> length = read_length(scalar_at(node, level), bare, diagnostics);
  if (!length) return std::nullopt;
  Length up;
  if (!rise.empty() || !fall.empty()) {
    const std::optional<Length> height = read_length(scalar_at(node, rise.empty() ? fall : rise), bare, diagnostics);
    if (!height) return std::nullopt;
    up = rise.empty() ? -*height : *height;
  }
  const bool diagonal = direction->east != 0 && direction->north != 0;
  const double part = static_cast<double>(length->tenths_mm) / std::numbers::sqrt2;
  const Length each{diagonal ? std::llround(part) : length->tenths_mm};
  return Point{each * direction->east, each * direction->north, each * direction->up + up};
}

std::optional<WalkStep> step_from_text(const YamlNode& node, std::string_view text, const BareUnits& bare,
                                       Diagnostics& diagnostics) {
  WalkStep step;
  step.words = std::string(trimmed(text));
  step.place = node.place;
  const std::size_t as = text.rfind(" as ");
  if (as != std::string_view::npos) {
    step.as = std::string(trimmed(text.substr(as + 4)));
    text = text.substr(0, as);
  }
  text = trimmed(text);
  if (text.starts_with("to ")) {
    step.to = anchor_from_text(node, text.substr(3), bare, diagnostics);
    if (!step.to) return std::nullopt;
    return step;
  }
  const std::optional<Point> by = move_from_text(node, text, bare, diagnostics);
  if (!by) return std::nullopt;
  step.by = *by;
  return step;
}

// {to: [12 ft, 4 ft], as: gate} or {go: east 18 ft, as: gate}.
std::optional<WalkStep> step_from_mapping(const YamlNode& node, const BareUnits& bare, Diagnostics& diagnostics) {
  Fields fields(node, "design", "step", bare, diagnostics);
  const YamlNode* to = fields.find("to");
  const YamlNode* go = fields.find("go");
  const std::optional<std::string> as = fields.text("as");
  fields.finish();
  if ((to != nullptr) == (go != nullptr)) {
    diagnostics.error("design/bad-step", node.place, "a step has either 'to' or 'go'").help =
        "for example {to: [12 ft, 4 ft], as: gate} or {go: east 18 ft, as: gate}";
    return std::nullopt;
  }
  WalkStep step;
  if (to) {
    step.to = read_anchor(*to, bare, diagnostics);
    if (!step.to) return std::nullopt;
  } else {
    const std::optional<Point> by = read_move(*go, bare, diagnostics);
    if (!by) return std::nullopt;
    step.by = *by;
  }
  step.as = as.value_or("");
  step.words = to ? "to " + to->text : go->text;
  step.place = node.place;
  return step;
}

}  // namespace

std::optional<Anchor> read_anchor(const YamlNode& node, const BareUnits& bare, Diagnostics& diagnostics) {
  if (already_told(node)) return std::nullopt;
  if (node.kind == YamlNode::Kind::sequence) return anchor_at_point(node, node, bare, diagnostics);
  if (node.kind == YamlNode::Kind::scalar) return anchor_from_text(node, node.text, bare, diagnostics);
  diagnostics.error("design/wrong-type", node.place, fmt::format("expected where it joins, found {}", describe(node)))
      .help = "for example 'tap', '12 ft along trunk', 'nearest point of trunk' or [12 ft, 4 ft]";
  return std::nullopt;
}

std::optional<WalkStep> read_step(const YamlNode& node, const BareUnits& bare, Diagnostics& diagnostics) {
  if (already_told(node)) return std::nullopt;
  if (node.kind == YamlNode::Kind::mapping) return step_from_mapping(node, bare, diagnostics);
  if (node.kind == YamlNode::Kind::scalar) return step_from_text(node, node.text, bare, diagnostics);
  diagnostics.error("design/wrong-type", node.place,
                    fmt::format("expected a step such as 'east 18 ft', found {}", describe(node)));
  return std::nullopt;
}

std::optional<Point> read_move(const YamlNode& node, const BareUnits& bare, Diagnostics& diagnostics) {
  if (already_told(node)) return std::nullopt;
  if (node.kind == YamlNode::Kind::sequence) return read_point(node, bare, diagnostics);
  if (node.kind == YamlNode::Kind::scalar) return move_from_text(node, trimmed(node.text), bare, diagnostics);
  diagnostics.error("design/wrong-type", node.place,
                    fmt::format("expected a move such as 'east 5 ft', found {}", describe(node)));
  return std::nullopt;
}

std::optional<Side> read_side(Fields& fields, std::string_view key) {
  const std::optional<std::string> word = fields.one_of(key, {"north", "south", "east", "west"});
  if (!word) return std::nullopt;
  if (*word == "north") return Side::north;
  if (*word == "south") return Side::south;
  return *word == "east" ? Side::east : Side::west;
}

}  // namespace teetally::design

namespace teetally {

std::string to_text(Side side) {
  switch (side) {
    case Side::north:
      return "north";
    case Side::south:
      return "south";
    case Side::east:
      return "east";
    case Side::west:
      return "west";
  }
  return {};
}

}  // namespace teetally
