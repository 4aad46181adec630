// The one file that names the YAML library. Its event interface feeds our own tree; everything the library
// lets pass in silence (duplicate keys, second documents, merge keys, aliases, tags) is refused here.
#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/yaml.h>

#include <exception>
#include <sstream>
#include <unordered_map>

#include "base/source_text.h"
#include "base/unclosed.h"
#include "base/utf8.h"
#include "teetally/base/words.h"
#include "teetally/base/yaml.h"

namespace teetally {
namespace {

// Ends a reading that cannot go on; its diagnostic has been added.
struct Abandoned {};

// A collection whose end has not come yet.
struct Open {
  YamlNode node;
  bool expects_key = true;                      // mappings only
  YamlEntry entry;                              // the key whose value is awaited
  bool drop_entry = false;                      // that key was refused
  std::unordered_map<std::string, Place> seen;  // keys given so far
};

class Builder : public YAML::EventHandler {
 public:
  Builder(const Source& source, Diagnostics& diagnostics) : lines_(source), diagnostics_(diagnostics) {}

  YamlNode take_root() { return std::move(root_); }
  int documents() const { return documents_; }
  const LineIndex& lines() const { return lines_; }

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (++documents_ < 2) return;
    diagnostics_.error("base/second-document", place_of(mark), "a second document starts here; expected one document")
        .help = "put it into a file of its own, or remove the '---' before it";
    throw Abandoned{};
  }
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    refuse_anchor(mark, anchor);
    YamlNode node;
    node.place = place_of_null(mark);
    add(std::move(node));
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
    diagnostics_
        .error("base/alias", place_of(mark), "this refers to another part of the file ('*'), which is not used here")
        .help = "write the value out, or put quotes around text that starts with '*'";
    add({});
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    refuse_anchor(mark, anchor);
    refuse_tag(mark, tag);
    YamlNode node;
    node.kind = YamlNode::Kind::scalar;
    node.place = place_of(mark);
    node.text = value;
    node.quoted = tag == "!";
    refuse_control(node);
    add(std::move(node));
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override {
    open(YamlNode::Kind::sequence, mark, tag, anchor);
  }
  void OnSequenceEnd() override { close(); }

  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override {
    open(YamlNode::Kind::mapping, mark, tag, anchor);
  }
  void OnMapEnd() override { close(); }

 private:
  Place place_of(const YAML::Mark& mark) const { return lines_.place_of(mark.line, mark.column); }

  // The library's mark of an absent value points at the next token: a value of a key stands where its key
  // does, an item of a list where the text before the mark ends.
  Place place_of_null(const YAML::Mark& mark) const {
    if (!stack_.empty() && stack_.back().node.kind == YamlNode::Kind::mapping && !stack_.back().expects_key) {
      return stack_.back().entry.key_place;
    }
    if (stack_.empty()) return place_of(mark);
    const Place next = place_of(mark);
    const Place& list = stack_.back().node.place;
    return next.line < list.line ? list : next;
  }

  void open(YamlNode::Kind kind, const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor) {
    refuse_anchor(mark, anchor);
    refuse_tag(mark, tag);
    if (stack_.size() >= static_cast<std::size_t>(kDeepestNesting)) {
      diagnostics_
          .error("base/too-deep", place_of(mark),
                 fmt::format("lists and mappings are nested more than {} deep", kDeepestNesting))
          .help = "look for a bracket that is never closed";
      throw Abandoned{};
    }
    Open opened;
    opened.node.kind = kind;
    opened.node.place = place_of(mark);
    stack_.push_back(std::move(opened));
  }

  void close() {
    YamlNode node = std::move(stack_.back().node);
    stack_.pop_back();
    add(std::move(node));
  }

  void add(YamlNode node) {
    if (stack_.empty()) {
      root_ = std::move(node);
      return;
    }
    Open& parent = stack_.back();
    if (parent.node.kind == YamlNode::Kind::sequence) {
      parent.node.items.push_back(std::move(node));
    } else if (parent.expects_key) {
      take_key(parent, std::move(node));
    } else {
      parent.entry.value = std::move(node);
      if (!parent.drop_entry) parent.node.entries.push_back(std::move(parent.entry));
      parent.expects_key = true;
    }
  }

  void take_key(Open& parent, YamlNode key) {
    parent.expects_key = false;
    parent.entry = {key.text, key.place, {}};
    parent.drop_entry = !is_usable_key(parent, key);
  }

  bool is_usable_key(Open& parent, const YamlNode& key) {
    if (key.kind != YamlNode::Kind::scalar) {
      const Place where = key.place.known() ? key.place : parent.node.place;
      diagnostics_.error("base/key-not-text", where, fmt::format("a key is {}; expected a word", describe(key)));
      return false;
    }
    if (key.text == "<<" && !key.quoted) {
      diagnostics_.error("base/merge-key", key.place, "'<<' would merge another mapping in, which is not done here")
          .help = "write the keys out";
      return false;
    }
    const auto [first, fresh] = parent.seen.emplace(key.text, key.place);
    if (fresh) return true;
    Diagnostic& error =
        diagnostics_.error("base/duplicate-key", key.place, fmt::format("the key {} is given twice", quoted(key.text)));
    error.help = "remove one of the two";
    error.notes.push_back({"first given here", first->second});
    return false;
  }

  void refuse_anchor(const YAML::Mark& mark, YAML::anchor_t anchor) {
    if (anchor == YAML::NullAnchor) return;
    diagnostics_.error("base/alias", place_of(mark), "this is marked for use elsewhere ('&'), which is not used here")
        .help = "remove the mark, or put quotes around text that starts with '&'";
  }

  void refuse_tag(const YAML::Mark& mark, const std::string& tag) {
    if (tag.empty() || tag == "?" || tag == "!") return;
    diagnostics_.error("base/tag", place_of(mark), fmt::format("the tag {} is not used here", quoted(tag))).help =
        "remove it, or put quotes around text that starts with '!'";
  }

  // Escapes in double quotes can bring in what the file itself may not hold.
  void refuse_control(const YamlNode& node) {
    for (std::size_t at = 0; at < node.text.size();) {
      const Character c = character_at(node.text, at);
      const bool blank = c.code == U'\n' || c.code == U'\t';
      if (!c.valid || (c.code < 0xA0 && is_control(c.code) && !blank)) {
        diagnostics_.error("base/bad-text", node.place,
                           fmt::format("the text {} has a control character in it", quoted(node.text)));
        return;
      }
      at += c.bytes;
    }
  }

  LineIndex lines_;
  Diagnostics& diagnostics_;
  std::vector<Open> stack_;
  YamlNode root_;
  int documents_ = 0;
};

void report_syntax(const Source& source, const LineIndex& lines, const YAML::Exception& trouble,
                   Diagnostics& diagnostics) {
  Diagnostic& error = diagnostics.error("base/bad-yaml", lines.place_of(trouble.mark.line, trouble.mark.column),
                                        "this is not YAML: " + trouble.msg);
  if (const auto opened = last_unclosed(source)) error.notes.push_back({opened->text, opened->place});
}

// The library's loop over documents never ends on a text that starts with a comma, so at most two are asked for.
void parse(const Source& source, Builder& builder) {
  std::istringstream stream(source->text);
  YAML::Parser parser(stream);
  if (parser.HandleNextDocument(builder)) parser.HandleNextDocument(builder);
}

}  // namespace

YamlNode read_yaml(const Source& source, Diagnostics& diagnostics) {
  if (source == nullptr) return {};
  if (source->text.size() > kLargestFile) {
    diagnostics.error("base/file-too-large", {source, 1, 1}, "the file is larger than 16 MB").help =
        "split it into several files";
    return {};
  }
  if (!is_clean_text(source, diagnostics)) return {};
  Builder builder(source, diagnostics);
  try {
    parse(source, builder);
  } catch (const Abandoned&) {
    return {};
  } catch (const YAML::Exception& trouble) {
    report_syntax(source, builder.lines(), trouble, diagnostics);
    return {};
  }
  YamlNode root = builder.take_root();
  if (root.kind == YamlNode::Kind::null && !diagnostics.has_errors()) {
    diagnostics.error("base/empty-file", {source, 1, 1}, "the file is empty").help = "start from an example";
    root.place = {};
  }
  return root;
}

}  // namespace teetally
