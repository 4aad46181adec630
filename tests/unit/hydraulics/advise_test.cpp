// Advice is solved before it is given, and its edits, pasted into the design, give what it promises.
#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "hydraulics/changes.h"
#include "hydraulics/regroup.h"
#include "hydraulics/verdict.h"
#include "unit/hydraulics/made_garden.h"
#include "unit/hydraulics/pasted_edits.h"

using namespace teetally;
using namespace teetally::hydraulics;

namespace {

// A trunk past beds that lie one after another to the north, each of four rows that run east.
std::string beds(int count, int row_feet, const std::string& tap, const std::string& line) {
  std::string text =
      "teetally: design 1\n"
      "name: beds\n"
      "units: {length: ft, flow: gph, pressure: psi}\n"
      "source:\n"
      "  at: [0, 0, 0]\n"
      "  thread: 3/4 in hose\n";
  text += tap;
  text += "lines:\n  - name: trunk\n    from: tap\n    walk: [north 60 ft]\nbeds:\n";
  for (int i = 0; i < count; ++i) {
    text += "  - name: bed " + std::to_string(i + 1) + "\n    corner: [2 ft, " + std::to_string(2 + 8 * i) +
            " ft]\n    size: [" + std::to_string(row_feet) +
            " ft, 4 ft]\n    rows: {count: 4}\n    emitter line: " + line +
            "\n    header: west\n    feed: nearest point of trunk\n";
  }
  return text;
}

const std::string kGoodTap = "  pressure: 60 psi\n  flow: 400 gph\n";
const std::string kLine = "{size: 1/4 in, spacing: 12 in, flow: 0.5 gph}";

struct Worked {
  Site site;
  SizedGarden sized;
};

Worked work(const std::string& text, const Practice& practice = shipped_practice()) {
  Diagnostics diagnostics;
  Worked worked;
  worked.site =
      read_design(std::make_shared<SourceText>(SourceText{"garden.yaml", text}), shipped_vocabulary(), {}, diagnostics);
  if (!diagnostics.has_errors()) {
    Garden garden = lay_out(worked.site, practice, diagnostics);
    if (!diagnostics.has_errors()) worked.sized = size_garden(std::move(garden), practice, UnitSystem::us, diagnostics);
  }
  std::string said;
  for (const Diagnostic& diagnostic : diagnostics.in_order()) {
    if (diagnostic.severity == Severity::error) said += to_text(diagnostic);
  }
  BOOST_TEST_REQUIRE(said.empty(), said << text);
  return worked;
}

Practice with_edits(const std::vector<Edit>& edits) {
  std::string text = "teetally: practice 1\n";
  for (const Edit& edit : edits) {
    if (edit.file == "practice") text += edit.text + "\n";
  }
  Diagnostics diagnostics;
  const Practice practice = read_practice(std::make_shared<SourceText>(SourceText{"practice.yaml", text}), diagnostics);
  BOOST_TEST(!diagnostics.has_errors(), text);
  return practice;
}

std::vector<Advice> advice(const std::string& text) {
  const Worked worked = work(text);
  return advise(worked.site, worked.sized, 0, shipped_practice(), UnitSystem::us);
}

Verdict verdict_with(const std::string& text, const std::vector<Edit>& edits) {
  return work(pasted::into(text, edits), with_edits(edits)).sized.verdict;
}

const Advice* saying(const std::vector<Advice>& all, const std::string& part) {
  const auto found = std::find_if(all.begin(), all.end(),
                                  [&](const Advice& one) { return one.words.find(part) != std::string::npos; });
  return found == all.end() ? nullptr : &*found;
}

// Every change that can be made, whether it helps or not, pasted into the design: the same verdict in the same words
// as for the site that the change itself made.
void pasted_is_solved(const std::string& text, std::vector<std::string> expected) {
  const Worked worked = work(text);
  for (const Change& change : changes_for(worked.site, worked.sized, 0, shipped_practice(), UnitSystem::us)) {
    Diagnostics diagnostics;
    const Practice practice = with_edits(change.edits);
    Garden garden = lay_out(change.site, practice, diagnostics);
    if (diagnostics.has_errors()) continue;
    const SizedGarden solved = size_garden(std::move(garden), practice, UnitSystem::us, diagnostics);
    const SizedGarden pasted = work(pasted::into(text, change.edits), practice).sized;
    BOOST_TEST(pasted.words == solved.words, change.words << "\n" << pasted::into(text, change.edits));
    expected.erase(
        std::remove_if(expected.begin(), expected.end(),
                       [&](const std::string& part) { return change.words.find(part) != std::string::npos; }),
        expected.end());
  }
  for (const std::string& part : expected) BOOST_ERROR("no change says " + part);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(advising)

BOOST_AUTO_TEST_CASE(a_garden_that_works_needs_none) { BOOST_TEST(advice(beds(2, 12, kGoodTap, kLine)).empty()); }

// Six beds of four rows, on a tap that gives 100 gph.
BOOST_AUTO_TEST_CASE(too_much_at_once_is_split_into_the_fewest_zones) {
  const std::string text = beds(6, 12, "  pressure: 55 psi\n  flow: 100 gph\n", kLine);
  const std::vector<Advice> all = advice(text);
  const Advice* split = saying(all, "zones, one after another");
  BOOST_REQUIRE(split != nullptr);
  BOOST_TEST(split->words.find("bed 'bed 1'") != std::string::npos, split->words);
  const int parts = split->words.find("run it as 2") == 0 ? 2 : split->words.find("run it as 3") == 0 ? 3 : 4;
  BOOST_TEST((verdict_with(text, split->edits) == Verdict::works));
  const Worked worked = work(text);
  if (parts > 2) {
    const auto fewer = split_zone(worked.site, worked.sized.garden, 0, parts - 1);
    BOOST_REQUIRE(fewer.has_value());
    BOOST_TEST((verdict_with(text, fewer->edits) != Verdict::works));
  }
}

BOOST_AUTO_TEST_CASE(every_edit_pasted_gives_the_promised_verdict) {
  for (const std::string& text : {beds(6, 12, "  pressure: 55 psi\n  flow: 100 gph\n", kLine),
                                  beds(2, 70, "  pressure: 60 psi\n  flow: 900 gph\n", kLine),
                                  beds(4, 60, "  pressure: 60 psi\n  flow: 210 gph\n", kLine),
                                  beds(2, 20, "  pressure: 34 psi\n  flow: 400 gph\n",
                                       "{size: 1/4 in, spacing: 12 in, flow: 0.5 gph, compensating: yes}")}) {
    const Worked before = work(text);
    const std::vector<Advice> all = advice(text);
    BOOST_TEST(!all.empty(), before.sized.words);
    for (const Advice& one : all) {
      BOOST_TEST(!one.edits.empty(), one.words);
      BOOST_TEST((verdict_with(text, one.edits) == one.then), one.words << pasted::into(text, one.edits));
      BOOST_TEST(rank(one.then) < rank(before.sized.verdict), one.words);
    }
  }
}

BOOST_AUTO_TEST_CASE(every_kind_of_change_is_the_same_pasted) {
  pasted_is_solved(beds(3, 70, "  pressure: 60 psi\n  flow: 900 gph\n", kLine),
                   {"pressure regulator of 20 psi", "next size of tubing (line 'trunk'", "bed 1' header: 3/4 in",
                    "from its middle", "run it as 2 zones", "run it as 3 zones", "the short way", "halve the rows",
                    "compensating emitter line", "half the flow", "half as many emitters"});
}

BOOST_AUTO_TEST_CASE(zones_and_tape_are_the_same_pasted) {
  const std::string text =
      "teetally: design 1\nname: tape\nunits: {length: ft, flow: gph, pressure: psi}\n"
      "source:\n  at: [0, 0, 0]\n  thread: 3/4 in hose\n  pressure: 40 psi\n  flow: 150 gph\n"
      "lines:\n  - name: main\n    from: tap\n    walk: [north 40 ft]\n"
      "  - name: spur\n    from: end of main\n    walk: [west 6 ft]\n"
      "tape rows:\n  - name: corn\n    start: [4 ft, 4 ft]\n    direction: east\n    length: 80 ft\n    count: 6\n"
      "    spacing: 30 in\n    toward: north\n    tape: {size: 5/8 in, spacing: 12 in, flow: 0.2 gph}\n"
      "    feed: nearest point of main\n"
      "  - name: squash\n    like: corn\n    start: [4 ft, 22 ft]\n    count: 2\n"
      "containers:\n  - name: pots\n    at: [[-4 ft, 42 ft], [-6 ft, 42 ft]]\n    emitter: {flow: 1 gph}\n"
      "    feed: nearest point of spur\n"
      "zones:\n  field: [corn, squash]\n  pots: [pots]\n";
  pasted_is_solved(text, {"regulator of 15 psi", "from its middle", "run it as 2 zones", "halve the rows",
                          "half the flow", "half as many emitters"});
}

// Rows too long and a tap too weak: no single change does it.
BOOST_AUTO_TEST_CASE(changes_are_combined_when_none_does_it_alone) {
  const std::vector<Advice> all = advice(beds(4, 60, "  pressure: 60 psi\n  flow: 130 gph\n", kLine));
  BOOST_REQUIRE(!all.empty());
  for (const Advice& one : all) {
    BOOST_TEST((one.then == Verdict::works), one.words << ": " << one.outcome);
    BOOST_TEST(one.words.find("; and run it as") != std::string::npos, one.words);
  }
}

BOOST_AUTO_TEST_CASE(without_a_bucket_test_it_says_how_to_measure) {
  const std::vector<Advice> all = advice(beds(2, 12, "  pressure: 60 psi\n", kLine));
  BOOST_REQUIRE(all.size() == 1u);
  BOOST_TEST(saying(all, "fill a bucket") != nullptr);
}

BOOST_AUTO_TEST_CASE(groups_are_balanced) {
  made::Maker maker;
  const int counts[] = {10, 7, 6, 5, 2};
  for (int i = 0; i < 5; ++i) maker.outlet(0, made::emitter(1), maker.element("pots"), counts[i]);
  const auto groups = balanced_groups(maker.garden, 0, 2);
  BOOST_REQUIRE(groups.size() == 2u);
  BOOST_TEST(groups[0] == (std::vector<int>{0, 3}), boost::test_tools::per_element());
  BOOST_TEST(groups[1] == (std::vector<int>{1, 2, 4}), boost::test_tools::per_element());
  BOOST_TEST(balanced_groups(maker.garden, 0, 9).size() == 5u);
}

BOOST_AUTO_TEST_SUITE_END()
