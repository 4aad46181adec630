// The editors' schemas that `init` writes know exactly the keys that the readers know.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "places.h"
#include "teetally/base.h"

using namespace teetally;
namespace fs = std::filesystem;

namespace {

std::string text_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

void add_keys(const YamlNode& node, std::set<std::string>& keys) {
  for (const YamlEntry& entry : node.entries) {
    if (entry.key == "properties") {
      for (const YamlEntry& property : entry.value.entries) keys.insert(property.key);
    }
    add_keys(entry.value, keys);
  }
  for (const YamlNode& item : node.items) add_keys(item, keys);
}

// JSON is YAML in flow style.
std::set<std::string> keys_of_schema(const std::string& name) {
  Diagnostics diagnostics;
  const std::string path = TEETALLY_SOURCE_DIR "/templates/starter/schemas/" + name + ".schema.json";
  const YamlNode root = read_yaml(source_from_text(name, text_of(path)), diagnostics);
  BOOST_TEST(!diagnostics.has_errors());
  std::set<std::string> keys;
  add_keys(root, keys);
  return keys;
}

// The literal that starts at `at`, which is its opening quote.
std::string literal_at(const std::string& text, std::size_t at) {
  return text.substr(at + 1, text.find('"', at + 1) - at - 1);
}

// Keys that readers ask a mapping for: `.getter("key"`, or `reader(fields, "key"`.
std::set<std::string> keys_of_readers(const std::string& stage, const std::vector<std::string>& files) {
  static const std::vector<std::string> kGetters = {
      ".text(\"",     ".yes_no(\"",  ".count(\"",    ".number(\"",   ".length(\"",  ".diameter(\"", ".flow(\"",
      ".pressure(\"", ".volume(\"",  ".money(\"",    ".percent(\"",  ".one_of(\"",  ".list(\"",     ".texts(\"",
      ".find(\"",     ".require(\"", ".distance(\"", ".interval(\"", "(fields, \"", "(root, \"",    "(units, \""};
  std::set<std::string> keys;
  for (const std::string& file : files) {
    const std::string text = text_of(fs::path(TEETALLY_SOURCE_DIR) / "src" / stage / file);
    BOOST_TEST(!text.empty(), stage << "/" << file);
    for (const std::string& getter : kGetters) {
      for (auto at = text.find(getter); at != std::string::npos; at = text.find(getter, at + 1)) {
        const std::string key = literal_at(text, at + getter.size() - 1);
        // A stage's name, and words that start or end in a space, are pieces of messages.
        if (key != stage && !key.empty() && key.front() != ' ' && key.back() != ' ') keys.insert(key);
      }
    }
  }
  return keys;
}

// Names of a stage's readers, by the ending that all readers have.
std::vector<std::string> readers(const std::string& stage, const std::string& but) {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(fs::path(TEETALLY_SOURCE_DIR) / "src" / stage)) {
    const std::string name = entry.path().filename().string();
    if (name.find("_reader.cpp") != std::string::npos && name.find(but) == std::string::npos) names.push_back(name);
  }
  return names;
}

std::set<std::string> vocabulary_keys() {
  std::set<std::string> keys = {"kind"};
  for (const KindType& kind : shipped_vocabulary().kinds) {
    for (const AttributeType& attribute : kind.attributes) keys.insert(attribute.name);
  }
  return keys;
}

std::string listed(const std::set<std::string>& keys) {
  std::string text;
  for (const std::string& key : keys) text += "'" + key + "' ";
  return text;
}

std::set<std::string> without(const std::set<std::string>& keys, const std::set<std::string>& others) {
  std::set<std::string> rest;
  std::set_difference(keys.begin(), keys.end(), others.begin(), others.end(), std::inserter(rest, rest.end()));
  return rest;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(schemas)

BOOST_AUTO_TEST_CASE(the_catalog_schema_has_the_readers_keys) {
  const auto read = keys_of_readers("catalog", readers("catalog", "on_hand"));
  const auto schema = keys_of_schema("catalog");
  BOOST_TEST(listed(without(read, schema)) == "");
  auto known = vocabulary_keys();
  known.merge(std::set<std::string>(read));
  known.insert({"teetally", "units", "length", "flow", "pressure", "volume"});
  BOOST_TEST(listed(without(schema, known)) == "");
}

BOOST_AUTO_TEST_CASE(the_job_schema_has_the_readers_keys) {
  const auto read = keys_of_readers("quote", {"job_reader.cpp"});
  BOOST_TEST(read.size() > 30u);
  const auto schema = keys_of_schema("job");
  BOOST_TEST(listed(without(read, schema)) == "");
  auto known = std::set<std::string>(read);
  known.insert({"units", "length", "flow", "pressure", "volume"});
  BOOST_TEST(listed(without(schema, known)) == "");
}

BOOST_AUTO_TEST_CASE(every_part_schema_has_the_vocabularys_attributes) {
  const auto attributes = vocabulary_keys();
  for (const char* name : {"catalog", "parts-list", "design"}) {
    BOOST_TEST(listed(without(attributes, keys_of_schema(name))) == "", name);
  }
}

BOOST_AUTO_TEST_SUITE_END()
