// What must hold for the plan of any garden: labels keep apart, stay in the field and cover no part; none is lost
// without a word; and the parts drawn are those that the design asks for, need by need.
#include <boost/test/unit_test.hpp>
#include <map>

#include "places.h"
#include "property/garden_random.h"
#include "render/plan/drawing.h"
#include "teetally/hydraulics.h"
#include "teetally/needs/take_off.h"

using namespace teetally;
using namespace teetally::testing;

namespace {

struct RandomPlan {
  Site site;
  SizedGarden sized;
  Takeoff takeoff;
};

// Nothing for a garden with complaints. Every third one is crowded.
std::optional<RandomPlan> random_plan(std::uint32_t seed) {
  RandomPlan plan;
  plan.site = random_site(seed);
  Random random(seed);
  if (seed % 3 == 0) {
    for (int beds = 0; beds < 12; ++beds) add_random_bed(plan.site, random);
  }
  Diagnostics diagnostics;
  Garden garden = lay_out(plan.site, shipped_practice(), diagnostics);
  if (diagnostics.has_errors()) return std::nullopt;
  plan.sized = size_garden(std::move(garden), shipped_practice(), UnitSystem::us, diagnostics);
  plan.takeoff = take_off(plan.sized, shipped_practice(), shipped_vocabulary(), UnitSystem::us, diagnostics);
  if (diagnostics.has_errors()) return std::nullopt;
  return plan;
}

void check_labels(const PlanDrawing& drawing, const std::string& garden) {
  const std::vector<PlacedLabel>& placed = drawing.labels.placed;
  for (std::size_t i = 0; i < placed.size(); ++i) {
    BOOST_TEST(holds(drawing.field, placed[i].box), garden);
    for (std::size_t j = i + 1; j < placed.size(); ++j) {
      BOOST_TEST(!overlap(placed[i].box, placed[j].box),
                 garden << ": " << placed[i].label.lines.front() << " and " << placed[j].label.lines.front());
    }
    for (const Box& symbol : drawing.symbols) BOOST_TEST(!overlap(placed[i].box, symbol), garden);
  }
  BOOST_TEST(without_room_words(drawing).empty() == drawing.labels.without_room.empty(), garden);
}

void check_parts(const PlanDrawing& drawing, const Takeoff& takeoff, const std::string& garden) {
  std::map<int, std::int64_t> drawn;
  for (const PlanPart& part : drawing.parts) drawn[part.need] += part.count;
  for (const auto& [n, count] : drawn) {
    BOOST_TEST_REQUIRE(n >= 0, garden);  // nothing is there already in these gardens
    const Need& need = takeoff.needs[static_cast<std::size_t>(n)];
    std::int64_t asked = 0;
    for (const Reason& reason : need.reasons) {
      asked += reason.reason_class == ReasonClass::design ? reason.amount : 0;
    }
    BOOST_TEST(count == asked, garden << ": " << need.id << " " << to_text(need.part, UnitSystem::us) << ": " << count
                                      << " drawn, " << asked << " asked for");
  }
}

}  // namespace

BOOST_AUTO_TEST_SUITE(plan_labels)

BOOST_AUTO_TEST_CASE(labels_keep_apart_and_parts_are_those_of_the_list) {
  std::size_t looked_at = 0, with_notes = 0;
  for (std::uint32_t seed = 1; seed <= 240; seed += TEETALLY_EVERY) {
    const std::optional<RandomPlan> plan = random_plan(seed);
    if (!plan) continue;
    const PlanSubject subject{plan->site, plan->sized, plan->takeoff};
    const PlanNumbers numbers(subject);
    for (const PlanLayer layer : {PlanLayer::lengths, PlanLayer::flow, PlanLayer::pressure}) {
      const PlanDrawing drawing = draw_plan(subject, numbers, layer, UnitSystem::us, 0);
      check_labels(drawing, "garden " + std::to_string(seed));
      check_parts(drawing, plan->takeoff, "garden " + std::to_string(seed));
      with_notes += drawing.notes.empty() ? 0 : 1;
    }
    ++looked_at;
  }
  BOOST_TEST_MESSAGE(looked_at << " gardens, " << with_notes << " of their drawings with notes");
  if (TEETALLY_EVERY == 1) {
    BOOST_TEST(looked_at > 100U);
    BOOST_TEST(with_notes > 10U);
  }
}

BOOST_AUTO_TEST_SUITE_END()
