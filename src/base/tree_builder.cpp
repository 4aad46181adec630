#include "base/tree_builder.h"

#include <fmt/format.h>

#include "base/unclosed.h"
#include "base/utf8.h"
#include "teetally/base/words.h"

namespace teetally {

TreeBuilder::TreeBuilder(const Source& source, Diagnostics& diagnostics)
    : text_(source->text), lines_(source), diagnostics_(diagnostics) {}

Diagnostic& TreeBuilder::refuse(std::string slug, const Place& place, std::string message) {
  refused_ = true;
  return diagnostics_.error(std::move(slug), place, std::move(message));
}

void TreeBuilder::document(Spot spot) {
  if (++documents_ < 2) return;
  const std::size_t at = lines_.offset_of(spot.line, spot.column);
  const bool marked = text_.substr(at, 3) == "---";
  Diagnostic& error = refuse("base/second-document", place_of(spot),
                             marked ? "a second document starts here; a file holds one"
                                    : "the document has ended before this; a file holds one document");
  error.help = marked ? "put it into a file of its own, or remove the '---'"
                      : "remove what follows, or look for a stray sign or a wrong indentation here";
  throw Abandoned{};
}

void TreeBuilder::null(Spot spot, const Trimmings& trimmings) {
  refuse_trimmings(spot, trimmings);
  YamlNode node;
  node.place = place_of_null(spot);
  add(std::move(node));
}

void TreeBuilder::alias(Spot spot) {
  refuse("base/alias", place_of(spot), "this refers to another part of the file, which is not done here").help =
      "write the value out, or put quotes around text that starts with '*'";
  add({});
}

void TreeBuilder::scalar(Spot spot, const Trimmings& trimmings, const std::string& value) {
  refuse_trimmings(spot, trimmings);
  if (trimmings.quoted) refuse_open_quote(spot);
  YamlNode node;
  node.kind = YamlNode::Kind::scalar;
  node.place = place_of(spot);
  node.text = value;
  node.quoted = trimmings.quoted;
  refuse_control(node);
  add(std::move(node));
}

void TreeBuilder::open(YamlNode::Kind kind, Spot spot, const Trimmings& trimmings) {
  refuse_trimmings(spot, trimmings);
  if (stack_.size() >= static_cast<std::size_t>(kDeepestNesting)) {
    refuse("base/too-deep", place_of(spot),
           fmt::format("lists and mappings are nested more than {} deep", kDeepestNesting))
        .help = "look for a bracket that is never closed";
    throw Abandoned{};
  }
  Open opened;
  opened.node.kind = kind;
  opened.node.place = place_of(spot);
  stack_.push_back(std::move(opened));
}

void TreeBuilder::close() {
  YamlNode node = std::move(stack_.back().node);
  stack_.pop_back();
  add(std::move(node));
}

// The parser puts an absent value at the next token. The value of a key is better placed at its key, an item
// of a list at the sign that announced it.
Place TreeBuilder::place_of_null(Spot spot) const {
  if (stack_.empty()) return place_of(spot);
  const Open& parent = stack_.back();
  if (parent.node.kind == YamlNode::Kind::mapping) {
    return parent.expects_key ? place_of(spot) : parent.entry.key_place;
  }
  const std::size_t at = lines_.offset_of(spot.line, spot.column);
  const std::size_t before = at == 0 ? std::string_view::npos : text_.find_last_not_of(" \t\r\n", at - 1);
  const bool announced = before != std::string_view::npos && std::string_view("-[,").find(text_[before]) < 3;
  return announced ? lines_.place_at(before) : place_of(spot);
}

void TreeBuilder::add(YamlNode node) {
  if (stack_.empty()) {
    root_ = std::move(node);
    return;
  }
  Open& parent = stack_.back();
  if (parent.node.kind == YamlNode::Kind::sequence) {
    parent.node.items.push_back(std::move(node));
  } else if (parent.expects_key) {
    parent.expects_key = false;
    parent.drop_entry = !is_usable_key(parent, node);
    parent.entry = {std::move(node.text), node.place, {}};
  } else {
    parent.expects_key = true;
    parent.entry.value = std::move(node);
    if (!parent.drop_entry) parent.node.entries.push_back(std::move(parent.entry));
  }
}

bool TreeBuilder::is_usable_key(Open& parent, const YamlNode& key) {
  if (key.kind != YamlNode::Kind::scalar) {
    const Place& where = key.place.known() ? key.place : parent.node.place;
    Diagnostic& error = refuse("base/key-not-text", where, fmt::format("a key is {}; expected a word", describe(key)));
    if (key.kind == YamlNode::Kind::null) error.help = "look for a ',' or a ':' too many";
    return false;
  }
  if (key.text == "<<" && !key.quoted) {
    refuse("base/merge-key", key.place, "'<<' would merge another mapping in, which is not done here").help =
        "write the keys out";
    return false;
  }
  const auto [first, fresh] = parent.seen.emplace(key.text, key.place);
  if (fresh) return true;
  Diagnostic& error =
      refuse("base/duplicate-key", key.place, fmt::format("the key {} is given twice", quoted(key.text)));
  error.help = "remove one of the two";
  error.notes.push_back({"first given here", first->second});
  return false;
}

void TreeBuilder::refuse_trimmings(Spot spot, const Trimmings& trimmings) {
  if (trimmings.anchored) {
    refuse("base/alias", place_of(spot), "this is marked for use elsewhere, which is not done here").help =
        "remove the mark, or put quotes around text that starts with '&'";
  }
  if (!trimmings.tag.empty()) {
    refuse("base/tag", place_of(spot), fmt::format("the tag {} is not used here", quoted(trimmings.tag))).help =
        "remove it, or put quotes around text that starts with '!'";
  }
}

// The parser lets a quote run to the end of the file when the last line is ended.
void TreeBuilder::refuse_open_quote(Spot spot) {
  const std::size_t at = lines_.offset_of(spot.line, spot.column);
  const bool quote = at < text_.size() && (text_[at] == '"' || text_[at] == '\'');
  if (!quote || end_of_quote(text_, at) != std::string_view::npos) return;
  refuse("base/bad-yaml", place_of(spot), "the quote opened here is never closed").help = "close it";
  throw Abandoned{};
}

// Escapes in double quotes can bring in what the file itself may not hold.
void TreeBuilder::refuse_control(const YamlNode& node) {
  for (std::size_t at = 0; at < node.text.size();) {
    const Character c = character_at(node.text, at);
    const bool blank = c.code == U'\n' || c.code == U'\t';
    if (!c.valid || (c.code < 0xA0 && is_control(c.code) && !blank)) {
      refuse("base/bad-text", node.place, fmt::format("the text {} has a control character in it", quoted(node.text)));
      return;
    }
    at += c.bytes;
  }
}

}  // namespace teetally
