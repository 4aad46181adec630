#pragma once
// From the events of a YAML parser to our own tree. Duplicate keys, merge keys, aliases, anchors, tags, keys
// that are not text, control characters behind escapes, too deep nesting and second documents are diagnostics;
// the tree goes on without what was refused, so that one reading finds as much as it can.
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/source_text.h"
#include "teetally/base/yaml.h"

namespace teetally {

// Ends a reading that cannot go on; its diagnostic has been added.
struct Abandoned {};

// Where an event stands: line and byte column from 0, as the parser counts.
struct Spot {
  int line = 0;
  int column = 0;
};

// What a parser says of a node besides its value.
struct Trimmings {
  bool anchored = false;
  bool quoted = false;
  std::string tag;  // empty when the file gives none
};

class TreeBuilder {
 public:
  TreeBuilder(const Source& source, Diagnostics& diagnostics);

  void document(Spot spot);  // throws Abandoned on the second
  void null(Spot spot, const Trimmings& trimmings);
  void alias(Spot spot);
  void scalar(Spot spot, const Trimmings& trimmings, const std::string& value);
  void open(YamlNode::Kind kind, Spot spot, const Trimmings& trimmings);
  void close();

  // Whether anything was refused: an empty root may then stand for it.
  bool has_refused() const { return refused_; }
  YamlNode take_root() { return std::move(root_); }
  Place place_of(Spot spot) const { return lines_.place_of(spot.line, spot.column); }

 private:
  // A collection whose end has not come yet.
  struct Open {
    YamlNode node;
    bool expects_key = true;                      // mappings only
    YamlEntry entry;                              // the key whose value is awaited
    bool drop_entry = false;                      // that key was refused
    std::unordered_map<std::string, Place> seen;  // keys given so far
  };

  Diagnostic& refuse(std::string slug, const Place& place, std::string message);
  Place place_of_null(Spot spot) const;
  void add(YamlNode node);
  bool is_usable_key(Open& parent, const YamlNode& key);
  void refuse_trimmings(Spot spot, const Trimmings& trimmings);
  void refuse_open_quote(Spot spot);
  void refuse_control(const YamlNode& node);

  std::string_view text_;
  LineIndex lines_;
  Diagnostics& diagnostics_;
  std::vector<Open> stack_;
  YamlNode root_;
  int documents_ = 0;
  bool refused_ = false;
};

}  // namespace teetally
