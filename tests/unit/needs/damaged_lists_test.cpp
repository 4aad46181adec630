// Parts lists with one thing broken. Each must be refused with an error on the line that was broken; broken at any
// byte, a list is either read or refused with a place, and never crashes the reader.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <string>
#include <vector>

#include "teetally/needs.h"

using namespace teetally;

namespace {

const std::string kYaml =
    "teetally: parts list 1\n"
    "name: Back garden\n"
    "units: {length: ft, flow: gph, pressure: psi}\n"
    "connected: yes\n"
    "parts:\n"
    "  - {kind: tee, size: 1/2 in, branch size: 1/4 in, count: 3}\n"
    "  - {kind: supply tubing, size: 1/2 in, length: 84 ft 6 in}\n"
    "  - {kind: emitter line, size: 1/4 in, spacing: 12 in, flow: 0.5 gph, length: 12, count: 6}\n"
    "  - {kind: hold-down, size: [1/4 in, 1/2 in], count: 40, for: beds}\n"
    "  - {kind: pressure regulator, thread: 3/4 in hose, pressure: 25, flow: 10 gph to 200 gph, count: 1}\n"
    "  - {kind: other, name: rain barrel, colour: green, count: 1}\n";

const std::string kCsv =
    "kind,size,branch size,spacing,count,length (ft),for\n"
    "tee,1/2 in,1/4 in,,3,,\n"
    "supply tubing,1/2 in,,,,84.5,\"trunk, long\"\n"
    "emitter line,1/4 in,,12 in,6,12,beds\n"
    "hold-down,1/4 in | 1/2 in,,,40,,\n"
    "punch,,,,1,,\n";

struct Damage {
  const char* from;
  const char* to;
};

// The first occurrence of `from` becomes `to`.
const std::vector<Damage> kYamlDamages = {
    {"teetally: parts list 1", "teetally: parts list 2"},
    {"teetally: parts list 1", "teetally: design 1"},
    {"teetally: parts list 1", "teetally:"},
    {"teetally: parts list 1", "teetally: [parts list 1]"},
    {"teetally:", "tetally:"},
    {"name: Back garden", "name: [Back, garden]"},
    {"name: Back garden", "nmae: Back garden"},
    {"name: Back garden", "name: {a: b}"},
    {"name: Back garden", "teetally: parts list 1"},
    {"{length: ft,", "{length: furlong,"},
    {"{length: ft,", "{lenght: ft,"},
    {"{length: ft,", "{length: [ft],"},
    {"flow: gph, pres", "flow: psi, pres"},
    {"pressure: psi}", "pressure: gph}"},
    {"units: {length: ft, flow: gph, pressure: psi}", "units: ft"},
    {"connected: yes", "connected: maybe"},
    {"connected: yes", "connected: [yes]"},
    {"connected: yes", "conected: yes"},
    {"connected: yes", "connected: &a yes"},
    {"connected: yes", "connected: *a"},
    {"connected: yes", "connected: !!bool yes"},
    {"connected: yes", "\xff\xfe: yes"},
    {"connected: yes", "connected: y\x01s"},
    {"parts:\n", "parts: 3\nothers:\n"},
    {"parts:\n", "patrs:\n"},
    {"kind: tee", "kind: te"},
    {"kind: tee", "kind: [tee]"},
    {"kind: tee", "kind:"},
    {"kind: tee", "knid: tee"},
    {"kind: tee", "kind: {tee: 1}"},
    {"{kind: tee, ", "{"},
    {"kind: tee,", "kind: tee, kind: elbow,"},
    {"size: 1/2 in, branch", "sise: 1/2 in, branch"},
    {"size: 1/2 in, branch", "size: {a: b}, branch"},
    {"size: 1/2 in, branch", "size: , branch"},
    {"branch size: 1/4 in", "brunch size: 1/4 in"},
    {"count: 3}", "count: 0}"},
    {"count: 3}", "count: -3}"},
    {"count: 3}", "count: 3.5}"},
    {"count: 3}", "count: three}"},
    {"count: 3}", "count: 0x3}"},
    {"count: 3}", "count: 1e3}"},
    {"count: 3}", "count: 99999999999999999999}"},
    {"count: 3}", "count: [3]}"},
    {"count: 3}", "count: }"},
    {"count: 3}", "cuont: 3}"},
    {", count: 3}", "}"},
    {"count: 3}", "count: 3, count: 4}"},
    {"count: 3}", "count: 3, length: 4 ft}"},
    {"count: 3}", "count: 3, system: [a, b]}"},
    {"length: 84 ft 6 in", "length: 84 ft 6"},
    {"length: 84 ft 6 in", "length: -84 ft"},
    {"length: 84 ft 6 in", "length: 0 ft"},
    {"length: 84 ft 6 in", "length: long"},
    {"length: 84 ft 6 in", "length: 84 psi"},
    {"length: 84 ft 6 in", "length: 6 in 84 ft 6 in 3 parsec"},
    {"length: 84 ft 6 in", "length: 9999999999999999 m"},
    {"length: 84 ft 6 in", "length: [84 ft]"},
    {", length: 84 ft 6 in", ""},
    {"spacing: 12 in", "spacing: twelve"},
    {"spacing: 12 in", "spacing: 12 gph"},
    {"flow: 0.5 gph", "flow: 0.5 in"},
    {"flow: 0.5 gph", "flow: half"},
    {"count: 6}", "count: 6000000}"},
    {"[1/4 in, 1/2 in]", "[1/4 in, [1/2 in]]"},
    {"for: beds", "for: [beds]"},
    {"pressure: 25,", "pressure: 25 ft,"},
    {"10 gph to 200 gph", "200 gph to 10 gph"},
    {"10 gph to 200 gph", "10 gph to"},
    {"colour: green", "colour: {a: b}"},
};

const std::vector<Damage> kCsvDamages = {
    {"kind,size", "part,size"},
    {"kind,size", "size,size"},
    {"kind,size", "kind,kind"},
    {"length (ft)", "length (furlong)"},
    {"branch size", "brunch size"},
    {"spacing,count", "spacing,"},
    {",for\n", ",for,for\n"},
    {"tee,1/2 in", "te,1/2 in"},
    {"tee,1/2 in", "tee"},
    {"tee,1/2 in", ",1/2 in"},
    {"punch,,,,1,,", "punch,,,,1,,\"beds"},
    {"tee,1/2 in", "tee,\"1/2\" in"},
    {"tee,1/2 in", "tee,1/2\" in"},
    {"tee,1/2 in", "tee,\xff in"},
    {"tee,1/2 in", "tee,1/2\x01 in"},
    {"1/4 in,,3,,", "1/4 in,,3,,,"},
    {"1/4 in,,3,,", "1/4 in,,3,4,"},
    {"1/4 in,,3,,", "1/4 in,,0,,"},
    {"1/4 in,,3,,", "1/4 in,,many,,"},
    {"1/4 in,,3,,", "1/4 in,,3.5,,"},
    {"1/4 in,,3,,", "1/4 in,,,,"},
    {"1/4 in,,3,,", "1/4 in,12 in,3,,"},
    {"1/4 in,,3,,", "1/4 in;;3;;"},
    {"84.5", "84,5"},
    {"84.5", "eighty"},
    {"84.5", "-84.5"},
    {"84.5", "0"},
    {"84.5", "84.5 psi"},
    {"84.5", ""},
    {"84.5", "1e99"},
    {"\"trunk, long\"", "trunk, long"},
    {"\"trunk, long\"", "\"trunk, long"},
    {"\"trunk, long\"", "\"trunk\", long\""},
    {"12 in,6", "12 furlongs,6"},
    {"12 in,6", "12,6"},
    {"12 in,6", "12 in,-6"},
    {"12 in,6", "12 in,999999"},
    {"40,,", "40,3,"},
    {"punch,,", "punch,1/2 in,"},
    {",1,,\n", ",99999999999999999999,,\n"},
};

struct Outcome {
  bool is_read = false;
  std::vector<Diagnostic> errors;
};

const Vocabulary& vocabulary() {
  static const Vocabulary shipped = shipped_vocabulary();
  return shipped;
}

Outcome read(const std::string& name, const std::string& text) {
  Diagnostics diagnostics;
  Outcome outcome;
  outcome.is_read = read_parts_list(source_from_text(name, text), vocabulary(), diagnostics).has_value();
  for (const Diagnostic& diagnostic : diagnostics.in_order()) {
    if (diagnostic.severity == Severity::error) outcome.errors.push_back(diagnostic);
  }
  return outcome;
}

void check_damages(const std::string& name, const std::string& whole, const std::vector<Damage>& damages) {
  for (const Damage& damage : damages) {
    std::string text = whole;
    const std::size_t at = text.find(damage.from);
    BOOST_REQUIRE_MESSAGE(at != std::string::npos, damage.from);
    text.replace(at, std::string(damage.from).size(), damage.to);
    const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n');
    const Outcome outcome = read(name, text);
    BOOST_TEST(!outcome.is_read, damage.to << " was accepted");
    const bool on_line = std::any_of(outcome.errors.begin(), outcome.errors.end(),
                                     [&](const Diagnostic& error) { return error.place.line == line; });
    const std::string first = outcome.errors.empty() ? "no error" : to_text(outcome.errors.front());
    BOOST_TEST(on_line, damage.from << " -> " << damage.to << " is not placed on line " << line << ": " << first);
    for (const Diagnostic& error : outcome.errors) BOOST_TEST(!error.message.empty(), damage.to);
  }
}

// Read, or refused with at least one error that has a place in the file.
void check_sound(const std::string& name, const std::string& text) {
  const Outcome outcome = read(name, text);
  BOOST_TEST(outcome.is_read == outcome.errors.empty(), text);
  const auto lines = 1 + std::count(text.begin(), text.end(), '\n');
  for (const Diagnostic& error : outcome.errors) {
    const bool is_placed = error.place.known() && error.place.line <= lines && error.place.column >= 1;
    BOOST_TEST(is_placed, to_text(error) << text);
  }
}

void check_every_byte(const std::string& name, const std::string& whole) {
  for (std::size_t at = 0; at < whole.size(); ++at) {
    check_sound(name, whole.substr(0, at));
    for (const char byte : {'"', '[', '}', ':', ',', '\n', '#', '\x80', '\0', '9'}) {
      std::string text = whole;
      text[at] = byte;
      check_sound(name, text);
    }
    std::string shorter = whole;
    check_sound(name, shorter.erase(at, 3));
  }
}

}  // namespace

BOOST_AUTO_TEST_SUITE(damaged_lists)

BOOST_AUTO_TEST_CASE(the_undamaged_lists_are_read) {
  BOOST_TEST(read("list.yaml", kYaml).is_read);
  BOOST_TEST(read("list.csv", kCsv).is_read);
  BOOST_TEST(kYamlDamages.size() + kCsvDamages.size() >= 100u);
}

BOOST_AUTO_TEST_CASE(yaml_damage_is_refused_where_it_is) { check_damages("list.yaml", kYaml, kYamlDamages); }

BOOST_AUTO_TEST_CASE(csv_damage_is_refused_where_it_is) { check_damages("list.csv", kCsv, kCsvDamages); }

BOOST_AUTO_TEST_CASE(yaml_broken_at_any_byte_is_read_or_refused_with_a_place) { check_every_byte("list.yaml", kYaml); }

BOOST_AUTO_TEST_CASE(csv_broken_at_any_byte_is_read_or_refused_with_a_place) { check_every_byte("list.csv", kCsv); }

BOOST_AUTO_TEST_SUITE_END()
