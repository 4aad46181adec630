// Whole gardens, as lists of needs, can be bought from a single demo supplier: there is a choice of fit families
// under which every need is served.
#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "places.h"
#include "unit/offers/offer_case.h"

using namespace offer_case;

namespace {

Catalog shipped(const std::string& id) {
  Diagnostics diagnostics;
  const auto source = read_source(std::string(TEETALLY_SOURCE_DIR) + "/catalogs/" + id + ".yaml", diagnostics);
  return read_catalog(source, vocabulary(), diagnostics).value();
}

bool holds(const Serving& serving, const std::vector<int>& chosen) {
  return std::all_of(serving.conditions.begin(), serving.conditions.end(), [&](const FitCondition& condition) {
    const int family = chosen[static_cast<std::size_t>(condition.system)];
    return std::find(condition.families.begin(), condition.families.end(), family) != condition.families.end();
  });
}

std::vector<std::string> unserved(const OfferBook& book, const std::vector<int>& chosen) {
  std::vector<bool> served(book.takeoff.needs.size(), false);
  for (const Serving& serving : book.servings) {
    if (holds(serving, chosen)) served[static_cast<std::size_t>(serving.need)] = true;
  }
  std::vector<std::string> left;
  for (std::size_t n = 0; n < served.size(); ++n) {
    if (!served[n]) left.push_back(to_text(book.takeoff.needs[n].part, UnitSystem::us));
  }
  return left;
}

// The fewest needs left unserved over every choice of families.
std::vector<std::string> best_unserved(const OfferBook& book, std::vector<int> chosen = {}) {
  if (chosen.size() == book.systems.size()) return unserved(book, chosen);
  std::vector<std::string> best(book.takeoff.needs.size() + 1, "?");
  const std::size_t families = std::max<std::size_t>(book.systems[chosen.size()].families.size(), 1);
  for (std::size_t f = 0; f < families; ++f) {
    chosen.push_back(static_cast<int>(f));
    auto left = best_unserved(book, chosen);
    if (left.size() < best.size()) best = std::move(left);
    chosen.pop_back();
  }
  return best;
}

void check_buyable(const Takeoff& wanted, const std::string& supplier) {
  const auto book = offers(wanted, {shipped(supplier)});
  const auto left = best_unserved(book);
  BOOST_TEST(left.empty(), supplier << " lacks " << listed(left));
}

std::vector<Need> head(const std::string& thread, const std::string& pressure, int mesh, const std::string& flow) {
  const std::string t = "thread: " + thread;
  return {need("{kind: timer, " + t + ", outlets: 1}"),
          need("{kind: backflow preventer, " + t + ", type: hose connection vacuum breaker}"),
          need("{kind: filter, " + t + ", mesh: " + std::to_string(mesh) + ", flow: " + flow + "}"),
          need("{kind: pressure regulator, " + t + ", pressure: " + pressure + ", flow: " + flow + "}"),
          need("{kind: hole plug}"),
          need("{kind: punch}")};
}

void add(std::vector<Need>& needs, std::vector<Need> more) {
  for (Need& one : more) needs.push_back(std::move(one));
}

// Half-inch supply, quarter-inch rows, pots and a sprayer.
Takeoff beds_and_pots() {
  auto needs = head("3/4 in hose", "25 psi", 150, "40 gph");
  add(needs, {tubing("{kind: supply tubing, size: 1/2 in}", 0, feet(60)),
              tubing("{kind: emitter line, size: 1/4 in, spacing: 12 in, flow: 0.5 gph}", 1, feet(20)),
              tubing("{kind: feeder tubing, size: 1/4 in}", 1, feet(4)),
              need("{kind: tubing adapter, thread: 3/4 in hose, size: 1/2 in}", {0}),
              need("{kind: tee, size: 1/2 in, branch size: 1/2 in}", {0, 0, 0}),
              need("{kind: elbow, size: 1/2 in}", {0, 0}),
              need("{kind: cross, size: 1/2 in}", {0, 0, 0, 0}),
              need("{kind: coupling, size: 1/2 in}", {0, 0}),
              need("{kind: end closure, size: 1/2 in}", {0}),
              need("{kind: shut-off valve, size: 1/2 in}", {0, 0}),
              need("{kind: zone valve, size: 1/2 in}", {0, 0}),
              need("{kind: barbed connector, size: 1/4 in}", {1}),
              need("{kind: flush cap, size: 1/4 in}", {1}),
              need("{kind: coupling, size: 1/4 in}", {1, 1}),
              need("{kind: end closure, size: 1/4 in}", {1}),
              need("{kind: emitter, size: 1/4 in, flow: 1 gph, compensating: yes}", {1}),
              need("{kind: sprayer, size: 1/4 in, flow: 10 gph, pattern: half}", {1}),
              need("{kind: bubbler, size: 1/4 in, flow: 10 gph}", {1}),
              need("{kind: hold-down, size: 1/2 in}"),
              need("{kind: hold-down, size: 1/4 in}")});
  return takeoff({"1/2 in", "1/4 in"}, needs);
}

// Rows of half-inch emitter line on a three-quarter-inch supply.
Takeoff half_inch_rows() {
  auto needs = head("3/4 in hose", "20 psi", 120, "300 gph");
  add(needs,
      {tubing("{kind: supply tubing, size: 3/4 in}", 0, feet(90)),
       tubing("{kind: emitter line, size: 1/2 in, spacing: 18 in, flow: 0.9 gph, compensating: yes}", 1, feet(40)),
       need("{kind: tubing adapter, thread: 3/4 in hose, size: 3/4 in}", {0}),
       need("{kind: tee, size: 3/4 in, branch size: 1/2 in}", {0, 0, 1}),
       need("{kind: tee, size: 3/4 in, branch size: 3/4 in}", {0, 0, 0}),
       need("{kind: reducer, size: 3/4 in, small size: 1/2 in}", {0, 1}), need("{kind: elbow, size: 3/4 in}", {0, 0}),
       need("{kind: end closure, size: 3/4 in}", {0}), need("{kind: coupling, size: 3/4 in}", {0, 0}),
       need("{kind: flush cap, size: 1/2 in}", {1}), need("{kind: shut-off valve, size: 3/4 in}", {0, 0}),
       need("{kind: hold-down, size: 3/4 in}")});
  return takeoff({"3/4 in", "1/2 in"}, needs);
}

Takeoff tape_rows() {
  auto needs = head("3/4 in hose", "10 psi", 200, "200 gph");
  add(needs, {tubing("{kind: supply tubing, size: 3/4 in}", 0, feet(90)),
              tubing("{kind: drip tape, size: 5/8 in, spacing: 12 in, flow: 0.2 gph}", 1, feet(100)),
              need("{kind: tubing adapter, thread: 3/4 in hose, size: 3/4 in}", {0}),
              need("{kind: tape connector, size: 5/8 in, from size: 3/4 in}", {1, 0}),
              need("{kind: flush cap, size: 5/8 in}", {1}), need("{kind: coupling, size: 5/8 in}", {1, 1}),
              need("{kind: elbow, size: 3/4 in}", {0, 0}), need("{kind: end closure, size: 3/4 in}", {0}),
              need("{kind: hold-down, size: 5/8 in}")});
  return takeoff({"3/4 in", "5/8 in"}, needs);
}

Takeoff metric_garden() {
  auto needs = head("3/4 in BSP", "1.7 bar", 150, "400 l/h");
  add(needs,
      {tubing("{kind: supply tubing, size: 20 mm}", 0, metres(30)),
       tubing("{kind: emitter line, size: 16 mm, spacing: 30 cm, flow: 2 l/h}", 1, metres(12)),
       tubing("{kind: feeder tubing, size: 4 mm}", 2, metres(2)),
       need("{kind: tubing adapter, thread: 3/4 in BSP, size: 20 mm}", {0}),
       need("{kind: tee, size: 20 mm, branch size: 16 mm}", {0, 0, 1}),
       need("{kind: reducer, size: 20 mm, small size: 16 mm}", {0, 1}), need("{kind: elbow, size: 20 mm}", {0, 0}),
       need("{kind: coupling, size: 20 mm}", {0, 0}), need("{kind: end closure, size: 20 mm}", {0}),
       need("{kind: flush cap, size: 16 mm}", {1}), need("{kind: shut-off valve, size: 20 mm}", {0, 0}),
       need("{kind: barbed connector, size: 4 mm}", {2}),
       need("{kind: emitter, size: 4 mm, flow: 4 l/h, compensating: yes}", {2}), need("{kind: hold-down, size: 20 mm}"),
       need("{kind: hold-down, size: 16 mm}"), need("{kind: hold-down, size: 4 mm}")});
  return takeoff({"20 mm", "16 mm", "4 mm"}, needs);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(shipped_suppliers)

BOOST_AUTO_TEST_CASE(beds_and_pots_from_either_of_two) {
  check_buyable(beds_and_pots(), "fernhollow");
  check_buyable(beds_and_pots(), "tarnwick");
}

BOOST_AUTO_TEST_CASE(half_inch_rows_from_either_of_two) {
  check_buyable(half_inch_rows(), "fernhollow");
  check_buyable(half_inch_rows(), "tarnwick");
}

BOOST_AUTO_TEST_CASE(tape_rows_from_either_of_two) {
  check_buyable(tape_rows(), "fernhollow");
  check_buyable(tape_rows(), "tarnwick");
}

BOOST_AUTO_TEST_CASE(a_metric_garden_from_the_third) { check_buyable(metric_garden(), "brackenmere"); }

BOOST_AUTO_TEST_SUITE_END()
