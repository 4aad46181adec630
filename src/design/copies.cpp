#include "design/copies.h"

#include <fmt/format.h>

#include <algorithm>

#include "design/anchors_reader.h"
#include "design/measures.h"
#include "design/parameters.h"

namespace teetally::design {

namespace {

const YamlNode* value_of(const YamlNode& node, std::string_view key) {
  for (const YamlEntry& entry : node.entries) {
    if (entry.key == key) return &entry.value;
  }
  return nullptr;
}

std::string scalar_of(const YamlNode& node, std::string_view key) {
  const YamlNode* value = value_of(node, key);
  return value && value->kind == YamlNode::Kind::scalar ? value->text : std::string();
}

void drop(YamlNode& node, std::string_view key) {
  std::erase_if(node.entries, [&](const YamlEntry& entry) { return entry.key == key; });
}

bool holds(const std::vector<std::string>& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

// Resolves `like` for all elements of one list; each is settled once.
class Likes {
 public:
  Likes(const std::vector<const YamlNode*>& list, const CopyRules& rules, Diagnostics& diagnostics)
      : list_(list), rules_(rules), diagnostics_(diagnostics), state_(list.size(), State::fresh), done_(list.size()) {}

  const YamlNode& settled(std::size_t index) {
    if (state_[index] == State::fresh) settle(index);
    return done_[index];
  }

 private:
  enum class State { fresh, busy, done };

  void settle(std::size_t index) {
    state_[index] = State::busy;
    done_[index] = *list_[index];
    if (const YamlNode* like = value_of(*list_[index], "like")) take_from(index, *like);
    drop(done_[index], "like");
    state_[index] = State::done;
  }

  void take_from(std::size_t index, const YamlNode& like) {
    if (already_told(like)) return;
    const std::optional<std::size_t> model = find(like);
    if (!model) return take_from_another(index);
    if (state_[*model] == State::busy) {
      diagnostics_
          .error("design/circular-like", like.place,
                 fmt::format("{} {} is like {}, which is like it in turn", rules_.kind,
                             quoted(scalar_of(*list_[index], "name")), quoted(like.text)))
          .help = "state the settings of one of them";
      return;
    }
    take_settings(index, settled(*model));
  }

  void take_settings(std::size_t index, const YamlNode& settings) {
    for (const YamlEntry& entry : settings.entries) {
      if (may_take(index, entry.key)) done_[index].entries.push_back(entry);
    }
  }

  // The design is in error and will not be used: the settings that are wanted are not to be called missing as well.
  void take_from_another(std::size_t index) {
    for (std::size_t i = 0; i < list_.size(); ++i) {
      if (i != index && state_[i] != State::busy && list_[i]->kind == YamlNode::Kind::mapping) {
        take_settings(index, settled(i));
      }
    }
  }

  std::optional<std::size_t> find(const YamlNode& like) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < list_.size(); ++i) {
      names.push_back(scalar_of(*list_[i], "name"));
      if (like.kind == YamlNode::Kind::scalar && names.back() == like.text && !like.text.empty()) return i;
    }
    Diagnostic& diagnostic =
        diagnostics_.error("design/unknown-name", like.place,
                           fmt::format("'like' names {}; expected another {}", describe(like), rules_.kind));
    if (const auto near = nearest_word(like.text, names)) diagnostic.help = "did you mean " + quoted(*near) + "?";
    return std::nullopt;
  }

  bool may_take(std::size_t index, const std::string& key) const {
    if (key == "name" || key == "repeat" || holds(rules_.own, key) || value_of(done_[index], key)) return false;
    for (const std::vector<std::string>& group : rules_.alternatives) {
      if (!holds(group, key)) continue;
      for (const std::string& other : group) {
        if (value_of(*list_[index], other)) return false;
      }
    }
    return true;
  }

  const std::vector<const YamlNode*>& list_;
  const CopyRules& rules_;
  Diagnostics& diagnostics_;
  std::vector<State> state_;
  std::vector<YamlNode> done_;
};

struct Repeat {
  std::int64_t count = 1;
  Point step;
  Length along;
};

std::optional<Repeat> read_repeat(const YamlNode& node, const BareUnits& bare, Diagnostics& diagnostics) {
  Fields fields(node, "design", "repeat", bare, diagnostics);
  if (!fields.is_mapping()) return std::nullopt;
  Repeat repeat;
  fields.require("count");
  const std::optional<std::int64_t> count = fields.count("count", 1, kMostCopies);
  const YamlNode* step = fields.require("step");
  const std::optional<Point> move = step ? read_move(*step, bare, diagnostics) : std::nullopt;
  if (const auto along = fields.length("along")) repeat.along = *along;
  fields.finish();
  if (!count || !move) return std::nullopt;
  repeat.count = *count;
  repeat.step = *move;
  return repeat;
}

Copy copy_of(const YamlNode& element, std::int64_t number, const Repeat& repeat, bool repeated) {
  Copy copy;
  copy.node = element;
  copy.family = scalar_of(element, "name");
  copy.name = copy.family;
  copy.shift = {repeat.step.east * (number - 1), repeat.step.north * (number - 1), repeat.step.up * (number - 1)};
  copy.along = repeat.along * (number - 1);
  if (!repeated) return copy;
  if (copy.name.find("${n}") == std::string::npos) copy.name += fmt::format(" {}", number);
  for (YamlEntry& entry : copy.node.entries) {
    if (entry.key == "name" && entry.value.kind == YamlNode::Kind::scalar) entry.value.text = copy.name;
  }
  fill_in_number(copy.node, number);
  copy.name = scalar_of(copy.node, "name");
  return copy;
}

}  // namespace

std::vector<Copy> lay_out_copies(const std::vector<const YamlNode*>& list, const CopyRules& rules,
                                 const BareUnits& bare, Diagnostics& diagnostics) {
  Likes likes(list, rules, diagnostics);
  std::vector<Copy> copies;
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (already_told(*list[i])) continue;
    if (list[i]->kind != YamlNode::Kind::mapping) {
      diagnostics.error("design/wrong-type", list[i]->place,
                        fmt::format("expected a {} with its keys, found {}", rules.kind, describe(*list[i])));
      continue;
    }
    YamlNode element = likes.settled(i);
    std::optional<Repeat> repeat;
    const YamlNode* words = value_of(*list[i], "repeat");
    if (words) repeat = read_repeat(*words, bare, diagnostics);
    drop(element, "repeat");
    const Repeat laid_out = repeat.value_or(Repeat{});
    for (std::int64_t n = 1; n <= laid_out.count; ++n) {
      if (copies.size() >= kMostElements) {
        diagnostics.error("design/too-many", list[i]->place,
                          fmt::format("more than {} {}s after laying out 'repeat'", kMostElements, rules.kind));
        return copies;
      }
      copies.push_back(copy_of(element, n, laid_out, repeat.has_value()));
    }
  }
  return copies;
}

Point shifted(Point at, Point by) { return {at.east + by.east, at.north + by.north, at.up + by.up}; }

void shift_anchor(Anchor& anchor, const Copy& copy) {
  if (anchor.form == Anchor::Form::at) anchor.at = shifted(anchor.at, copy.shift);
  if (anchor.form == Anchor::Form::along) anchor.along += copy.along;
}

}  // namespace teetally::design
