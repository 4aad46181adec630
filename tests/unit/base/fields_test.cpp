#include <boost/test/unit_test.hpp>

#include "teetally/base/report.h"
#include "teetally/base/yaml.h"

namespace teetally {
namespace {

const BareUnits kFeet{"ft", "", "", ""};

// One mapping and its reader, with all complaints.
struct Form {
  Diagnostics diagnostics;
  YamlNode root;
  Fields fields;
  explicit Form(const std::string& text)
      : root(read_yaml(source_from_text("f.yaml", text), diagnostics)),
        fields(root, "base", "the form", kFeet, diagnostics) {}

  // "line:column slug: message (help)" of every diagnostic, each on a line.
  std::string complaints() const {
    std::string out;
    for (const Diagnostic& entry : diagnostics.in_order()) {
      out += std::to_string(entry.place.line) + ":" + std::to_string(entry.place.column) + " " + entry.slug + ": " +
             entry.message + (entry.help.empty() ? "" : " (" + entry.help + ")") + "\n";
    }
    return out;
  }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(fields)

BOOST_AUTO_TEST_CASE(good_values_are_read) {
  Form form(
      "{t: ' a b ', y: yes, n: false, c: 3, x: -0.5, l: 6, d: 0.6 in, f: 1 gph, p: 25 psi, v: 5 gal,\n"
      " m: 1.25, r: 5 %, w: west, s: [a, b], one: a, list: [1, {}]}");
  Fields& f = form.fields;
  BOOST_TEST(f.text("t").value() == "a b");
  BOOST_TEST(f.yes_no("y").value());
  BOOST_TEST(!f.yes_no("n").value());
  BOOST_TEST(f.count("c", 1, 3).value() == 3);
  BOOST_TEST(f.number("x", -1, 1).value() == -0.5);
  BOOST_TEST(f.length("l").value().tenths_mm == feet(6).tenths_mm);
  BOOST_TEST(f.diameter("d").value().tenths_um == 152'400);
  BOOST_TEST(f.flow("f").value().nl_per_h == 3'785'411'784);
  BOOST_TEST(f.pressure("p").value().pa == 172'369);
  BOOST_TEST(f.volume("v").value().ul == 18'927'059);
  BOOST_TEST(f.money("m", Currency{}).value().minor == 125);
  BOOST_TEST(f.percent("r").value().ppm == 50'000);
  BOOST_TEST(f.one_of("w", {"west", "east"}).value() == "west");
  BOOST_TEST(f.texts("s").size() == 2u);
  BOOST_TEST(f.texts("one").size() == 1u);
  BOOST_TEST(f.list("list").size() == 2u);
  BOOST_TEST(!f.has("absent"));
  BOOST_TEST(!f.text("absent"));
  BOOST_TEST(f.list("absent").empty());
  f.finish();
  BOOST_TEST(form.complaints() == "");
}

BOOST_AUTO_TEST_CASE(yes_and_no_in_any_letters) {
  for (const char* word : {"Yes", "YES", "True", "yes"}) {
    Form form(std::string("{y: ") + word + "}");
    BOOST_TEST(form.fields.yes_no("y").value_or(false), word);
  }
  for (const char* word : {"No", "NO", "False", "no"}) {
    Form form(std::string("{y: ") + word + "}");
    BOOST_TEST(!form.fields.yes_no("y").value_or(true), word);
  }
}

BOOST_AUTO_TEST_CASE(wrong_types_and_values_say_what_was_found_and_expected) {
  Form form("t: [a]\ny: maybe\nc: 0x10\nk: 4\nx: 1e3\nl: 6 fet\nw: wset\ns: [a, [b]]\nlist: {a: 1}\nnothing:\n");
  Fields& f = form.fields;
  BOOST_TEST(!f.text("t"));
  BOOST_TEST(!f.yes_no("y"));
  BOOST_TEST(!f.count("c", 0, 9));
  BOOST_TEST(!f.count("k", 1, 3));
  BOOST_TEST(!f.number("x", 0, 1));
  BOOST_TEST(!f.length("l"));
  BOOST_TEST(!f.one_of("w", {"west", "east"}));
  BOOST_TEST(f.texts("s").size() == 1u);
  BOOST_TEST(f.list("list").empty());
  BOOST_TEST(!f.pressure("nothing"));
  f.finish();
  BOOST_TEST(form.complaints() ==
             "1:4 base/wrong-type: 't' is a list; expected text\n"
             "2:4 base/bad-value: 'y': 'maybe' is neither yes nor no\n"
             "3:4 base/bad-value: 'c': '0x10' is not a decimal number; write it with the digits 0 to 9\n"
             "4:4 base/bad-value: 'k': 4 is out of range; expected 1 to 3\n"
             "5:4 base/bad-value: 'x': '1e3' has an exponent; write the number out\n"
             "6:4 base/bad-value: 'l': '6 fet' is not a length: unknown length unit 'fet'; did you mean 'ft'? known "
             "units: ft, in, yd, m, cm and mm; write it like 5 ft 6 in\n"
             "7:4 base/bad-value: 'w': 'wset' is none of west and east (did you mean 'west'?)\n"
             "8:8 base/wrong-type: an item of 's' is a list; expected text\n"
             "9:7 base/wrong-type: 'list' is a mapping; expected a list\n"
             "10:1 base/wrong-type: 'nothing' has no value; expected a pressure such as 25 psi\n");
}

BOOST_AUTO_TEST_CASE(unknown_keys_name_the_nearest_known_one_or_all) {
  Form form("prise: 1\nwholly different: 2\nsize: 3\n");
  form.fields.has("price");
  form.fields.has("size");
  form.fields.finish();
  BOOST_TEST(form.complaints() ==
             "1:1 base/unknown-key: unknown key 'prise' in the form (did you mean 'price'?)\n"
             "2:1 base/unknown-key: unknown key 'wholly different' in the form (known keys: price and size)\n");
}

BOOST_AUTO_TEST_CASE(a_missing_key_is_the_likelier_meaning_of_an_unknown_one) {
  Form form("corer: 1\n");
  form.fields.has("cover");
  BOOST_TEST(form.fields.require("corner") == nullptr);
  form.fields.finish();
  BOOST_TEST(form.complaints() == "1:1 base/unknown-key: unknown key 'corer' in the form (did you mean 'corner'?)\n");
}

BOOST_AUTO_TEST_CASE(a_missing_key_that_another_key_is_like_is_missing_all_the_same) {
  Form form("cover: 1\n");
  BOOST_TEST(form.fields.require("corer") == nullptr);
  form.fields.has("cover");
  form.fields.finish();
  BOOST_TEST(form.complaints() == "1:1 base/missing-key: the form has no key 'corer'\n");
  Form forgiven("cover: 1\n");
  forgiven.fields.require("corer");
  forgiven.fields.forgive();
  forgiven.fields.finish();
  BOOST_TEST(forgiven.complaints() == "1:1 base/missing-key: the form has no key 'corer'\n");
}

BOOST_AUTO_TEST_CASE(one_mistake_is_one_message) {
  Form text("just text\n");
  text.fields.require("name");
  text.fields.text("name");
  text.fields.list("items");
  text.fields.finish();
  BOOST_TEST(text.complaints() == "1:1 base/wrong-type: the form is the text 'just text'; expected keys and values\n");
  Form glued("name:x\n");
  BOOST_TEST(glued.complaints() ==
             "1:1 base/wrong-type: the form is the text 'name:x'; expected keys and values (put a space "
             "after the ':')\n");
  Form unread("[1, 2\n");
  unread.fields.require("name");
  unread.fields.finish();
  BOOST_TEST(unread.diagnostics.in_order().size() == 1u);
  Form alias("a: &x 1\nb: *x\n");
  alias.fields.text("b");
  alias.fields.texts("b");
  alias.fields.list("b");
  alias.fields.count("a", 1, 1);
  alias.fields.finish();
  BOOST_TEST(alias.diagnostics.in_order().size() == 2u);
  Form forgiven("a: 1\n");
  forgiven.fields.forgive();
  forgiven.fields.finish();
  BOOST_TEST(forgiven.complaints() == "");
}

BOOST_AUTO_TEST_CASE(long_values_are_shortened_and_made_printable_in_messages) {
  Form form("y: \"" + std::string(5000, 'x') + "\"\nz: \"a\\tb\"\n");
  form.fields.yes_no("y");
  form.fields.yes_no("z");
  BOOST_TEST(form.complaints().size() < 250u);
  BOOST_TEST(form.complaints().find("'a\\tb' is neither yes nor no") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(places_of_values) {
  Form form("a: 1\nb:\n");
  const auto at = [&](std::string_view key) { return to_string(form.fields.place_of(key)); };
  BOOST_TEST(at("a") == "f.yaml:1:4");
  BOOST_TEST(at("b") == "f.yaml:2:1");
  BOOST_TEST(at("absent") == "f.yaml:1:1");
  BOOST_TEST(to_string(form.fields.place()) == "f.yaml:1:1");
  BOOST_TEST(form.fields.unasked().size() == 2u);
  form.fields.has("a");
  BOOST_TEST(form.fields.unasked().front() == "b");
}

BOOST_AUTO_TEST_CASE(a_file_declares_what_bare_numbers_mean) {
  Form form("units: {length: feet, flow: L/h, presure: psi}\n");
  const BareUnits units = read_bare_units(form.fields, "base", form.diagnostics);
  BOOST_TEST(units.length == "ft");
  BOOST_TEST(units.flow == "l/h");
  BOOST_TEST(units.pressure == "");
  BOOST_TEST(form.complaints() == "1:34 base/unknown-key: unknown key 'presure' in units (did you mean 'pressure'?)\n");
  Form wrong("units: {length: fet}\n");
  read_bare_units(wrong.fields, "base", wrong.diagnostics);
  BOOST_TEST(wrong.complaints() ==
             "1:17 base/bad-value: unknown length unit 'fet'; did you mean 'ft'? known units: ft, in, yd, m, cm and "
             "mm\n");
  Form none("a: 1\n");
  BOOST_TEST(read_bare_units(none.fields, "base", none.diagnostics).length == "");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
