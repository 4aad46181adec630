#pragma once
// YAML files as our own tree: every node knows its place, every scalar whether it was quoted. Duplicate keys,
// second documents, aliases, anchors, merge keys, tags, bad UTF-8, depth over 64 and files over 16 MB are
// diagnostics. Fields reads one mapping: it checks types, and names unknown keys with the nearest known one.
#include <initializer_list>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "teetally/base/diagnostic.h"
#include "teetally/base/money.h"
#include "teetally/base/place.h"
#include "teetally/base/quantity.h"

namespace teetally {

struct YamlEntry;

struct YamlNode {
  enum class Kind { null, scalar, sequence, mapping };
  Kind kind = Kind::null;
  Place place;
  std::string text;                // scalars only
  bool quoted = false;             // scalars only
  std::vector<YamlNode> items;     // sequences only
  std::vector<YamlEntry> entries;  // mappings only, in file order, keys unique
};

struct YamlEntry {
  std::string key;
  Place key_place;
  YamlNode value;
};

inline constexpr std::size_t kLargestFile = 16u << 20;
inline constexpr int kDeepestNesting = 64;

// Reads a whole file; a missing or unreadable one is a diagnostic (base/no-such-file) and no source.
Source read_source(const std::string& path, Diagnostics& diagnostics);
Source source_from_text(std::string name, std::string text);

// The document's root; kind null without a place, and diagnostics added, when it cannot be read or is empty.
// Places of parts that were refused (an alias, a duplicate) are unknown, and Fields is silent about those.
YamlNode read_yaml(const Source& source, Diagnostics& diagnostics);

// "a mapping", "a list", "the text 'x'", "nothing": for messages.
std::string describe(const YamlNode& node);

// Reads one mapping. Each getter marks its key as known; finish() reports the keys nobody asked for, each
// with the nearest known one. `stage` starts the slugs ("design" gives "design/unknown-key",
// "design/wrong-type", "design/bad-value", "design/missing-key"). Errors do not cascade: on something that is
// not a mapping every getter answers nothing in silence after the first diagnostic. `bare` is looked at when a
// quantity is read, so a file's own `units` may be filled in after the Fields of its root are made.
class Fields {
 public:
  Fields(const YamlNode& node, std::string stage, std::string what, const BareUnits& bare, Diagnostics& diagnostics);

  bool is_mapping() const;
  bool has(std::string_view key);                 // marks the key as known
  const YamlNode* find(std::string_view key);     // nullptr when absent; marks the key as known
  const YamlNode* require(std::string_view key);  // nullptr and a diagnostic when absent
  Place place() const;
  Place place_of(std::string_view key) const;  // the value's place, else the key's, else the mapping's

  // Absent answers nullopt; present but wrong adds a diagnostic and answers nullopt.
  std::optional<std::string> text(std::string_view key);
  std::optional<bool> yes_no(std::string_view key);  // true/false/yes/no
  std::optional<std::int64_t> count(std::string_view key, std::int64_t least, std::int64_t most);
  std::optional<double> number(std::string_view key, double least, double most);
  std::optional<Length> length(std::string_view key);
  std::optional<Diameter> diameter(std::string_view key);
  std::optional<Flow> flow(std::string_view key);
  std::optional<Pressure> pressure(std::string_view key);
  std::optional<Volume> volume(std::string_view key);
  std::optional<Money> money(std::string_view key, const Currency& currency);
  std::optional<Percent> percent(std::string_view key);
  std::optional<std::string> one_of(std::string_view key, std::initializer_list<std::string_view> words);
  std::vector<const YamlNode*> list(std::string_view key);  // items of a sequence; a wrong type is a diagnostic
  std::vector<std::string> texts(std::string_view key);     // a scalar or a list of scalars

  // The keys nobody has asked for yet, in file order.
  std::vector<std::string> unasked() const;
  // Silences finish(): what the mapping is about is itself unknown, and so are its keys.
  void forgive();
  void finish();

 private:
  Diagnostic& report(std::string_view slug, Place place, std::string message);
  const YamlEntry* entry(std::string_view key) const;
  const YamlNode* scalar(std::string_view key, std::string_view expected);
  template <typename Value, typename Parse>
  std::optional<Value> parsed(std::string_view key, std::string_view expected, Parse parse);

  const YamlNode& node_;
  std::string stage_;
  std::string what_;  // "bed 'Bed 2'": names the mapping in messages
  const BareUnits& bare_;
  Diagnostics& diagnostics_;
  std::map<std::string_view, const YamlEntry*> by_key_;
  std::set<std::string, std::less<>> asked_;
  std::vector<std::string> known_;    // as asked for, in that order
  std::vector<std::string> missing_;  // required and absent
  bool forgiven_ = false;
};

// Reads the key `units` ({length: ft, flow: gph, pressure: psi, volume: gal}), which says what a bare number
// of a file means; absent, every bare number is an error.
BareUnits read_bare_units(Fields& fields, const std::string& stage, Diagnostics& diagnostics);

}  // namespace teetally
