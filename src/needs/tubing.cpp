#include <fmt/format.h>

#include <cassert>

#include "needs/rules.h"

namespace teetally {
namespace {

const char* rule_of(LegRole role) {
  switch (role) {
    case LegRole::supply:
      return "supply tubing along the line";
    case LegRole::riser:
      return "supply tubing from the line into the bed";
    case LegRole::header:
      return "supply tubing along the header";
    case LegRole::row:
      return "emitter line along the row";
    case LegRole::tape:
      return "drip tape along the row";
    case LegRole::feeder:
      return "feeder tubing to the outlet";
  }
  return "";
}

const Setting<Percent>& waste_of(LegRole role, const Practice& practice) {
  switch (role) {
    case LegRole::row:
      return practice.row_waste;
    case LegRole::tape:
      return practice.tape_waste;
    case LegRole::feeder:
      return practice.feeder_waste;
    default:
      return practice.tubing_waste;
  }
}

// A length times a percentage, to the nearest tenth of a millimetre, half up.
std::int64_t part_of(std::int64_t tenths_mm, Percent percent) {
  return (tenths_mm * percent.ppm + 500'000) / 1'000'000;
}

// One need's lengths by the allowance that applies to them.
struct Cut {
  Need* need;
  const Setting<Percent>* waste;
  std::int64_t length;
};

void note_cut(std::vector<Cut>& cuts, Need& need, const Setting<Percent>& waste, std::int64_t length) {
  for (Cut& cut : cuts) {
    if (cut.need == &need && cut.waste == &waste) {
      cut.length += length;
      return;
    }
  }
  cuts.push_back({&need, &waste, length});
}

void add_waste(const std::vector<Cut>& cuts, Worksheet& sheet) {
  for (const Cut& cut : cuts) {
    Reason reason;
    reason.reason_class = ReasonClass::waste;
    reason.rule = fmt::format("cutting allowance: {} of {}", to_string(cut.waste->value),
                              to_text(Length{cut.length}, sheet.units));
    reason.amount = part_of(cut.length, cut.waste->value);
    if (reason.amount > 0) Tally::add(*cut.need, std::move(reason));
  }
}

void state_waste(const std::vector<Cut>& cuts, Worksheet& sheet) {
  const auto state = [&](const Setting<Percent>& waste, const char* what) {
    for (const Cut& cut : cuts) {
      if (cut.waste != &waste) continue;
      sheet.assume(fmt::format("{} more {} than measured, for cutting", to_string(waste.value), what), waste.origin);
      return;
    }
  };
  state(sheet.practice.tubing_waste, "supply tubing");
  state(sheet.practice.row_waste, "emitter line");
  state(sheet.practice.tape_waste, "drip tape");
  state(sheet.practice.feeder_waste, "feeder tubing");
}

}  // namespace

void count_tubing(Worksheet& sheet) {
  const Garden& garden = sheet.garden;
  std::vector<std::vector<const Piece*>> pieces_of_run(garden.runs.size());
  for (const Piece& piece : garden.pieces) pieces_of_run[static_cast<std::size_t>(piece.run)].push_back(&piece);
  std::vector<Cut> cuts;
  for (std::size_t i = 0; i < garden.runs.size(); ++i) {
    const Run& run = garden.runs[i];
    if (run.existing || pieces_of_run[i].empty()) continue;
    PartSpec tubing = run.tubing;
    tubing.attributes["size"] = word_value(run.size);
    std::int64_t length = 0;
    for (const Piece* piece : pieces_of_run[i]) length += piece->length.tenths_mm;
    const int system = sheet.system_of(pieces_of_run[i].front()->legs.front());
    Need& need =
        sheet.ask(tubing, {system}, run.element, design_reason(rule_of(run.role), run.name, length, run.place));
    for (const Piece* piece : pieces_of_run[i]) need.pieces.push_back({piece->length, piece->where, run.may_join});
    note_cut(cuts, need, waste_of(run.role, sheet.practice), length);
  }
  add_waste(cuts, sheet);
  state_waste(cuts, sheet);
}

}  // namespace teetally
