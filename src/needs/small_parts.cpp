// Hold-downs and the punch: what a drawing does not show and a gardener misses half way through.
#include <fmt/format.h>

#include "needs/rules.h"

namespace teetally {
namespace {

bool is_upright(const Garden& garden, const Leg& leg) {
  const Point& from = garden.nodes[static_cast<std::size_t>(leg.from)].at;
  const Point& to = garden.nodes[static_cast<std::size_t>(leg.to)].at;
  return from.east == to.east && from.north == to.north;
}

// Tubing over a bench hangs in the air; only what lies on soil can be held down.
bool is_over_bench(const Garden& garden, const Leg& leg) {
  return leg.element >= 0 && garden.elements[static_cast<std::size_t>(leg.element)].kind == "spray" &&
         garden.nodes[static_cast<std::size_t>(leg.to)].at.up.tenths_mm > 0;
}

const Setting<Length>& spacing_of(LegRole role, const Practice& practice) {
  return role == LegRole::row || role == LegRole::tape ? practice.hold_down_row : practice.hold_down_supply;
}

std::vector<Length> lying_lengths(const Garden& garden) {
  std::vector<Length> lengths(garden.runs.size());
  for (const Leg& leg : garden.legs) {
    if (leg.run < 0 || is_upright(garden, leg) || is_over_bench(garden, leg)) continue;
    lengths[static_cast<std::size_t>(leg.run)] += leg.length;
  }
  return lengths;
}

// One for each started spacing of a run, so that no stretch between two is longer than the spacing.
void hold_down(Worksheet& sheet) {
  const std::vector<Length> lengths = lying_lengths(sheet.garden);
  bool holds_supply = false;
  bool holds_rows = false;
  for (std::size_t i = 0; i < lengths.size(); ++i) {
    const Run& run = sheet.garden.runs[i];
    const Setting<Length>& spacing = spacing_of(run.role, sheet.practice);
    if (run.existing || run.role == LegRole::feeder || spacing.value.tenths_mm <= 0 || lengths[i].tenths_mm == 0)
      continue;
    const std::int64_t count = (lengths[i].tenths_mm + spacing.value.tenths_mm - 1) / spacing.value.tenths_mm;
    sheet.ask(sized_part("hold-down", run.size), {}, run.element,
              design_reason(fmt::format("one for each started {}", to_text(spacing.value, sheet.units)), run.name,
                            count, run.place));
    (&spacing == &sheet.practice.hold_down_row ? holds_rows : holds_supply) = true;
  }
  const auto state = [&](const Setting<Length>& spacing, const char* what) {
    sheet.assume(fmt::format("hold-downs every {} on {}", to_text(spacing.value, sheet.units), what), spacing.origin);
  };
  if (holds_supply) state(sheet.practice.hold_down_supply, "supply tubing");
  if (holds_rows) state(sheet.practice.hold_down_row, "rows");
}

void punch(Worksheet& sheet) {
  if (sheet.holes == 0) return;
  sheet.tally.add({"punch", {}}, {}, design_reason(fmt::format("{} to make", counted(sheet.holes, "hole")), "", 1, {}));
}

}  // namespace

void count_small_parts(Worksheet& sheet) {
  hold_down(sheet);
  punch(sheet);
}

}  // namespace teetally
