#include <fmt/format.h>

#include "needs/rules.h"

namespace teetally {
namespace {

const char* way_of(LegRole role) {
  switch (role) {
    case LegRole::supply:
      return "along the line";
    case LegRole::riser:
      return "from the line into the bed";
    case LegRole::header:
      return "along the header";
    case LegRole::row:
    case LegRole::tape:
      return "along the row";
    case LegRole::feeder:
      return "to the outlet";
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

// One run's share of one need: a piece may go on through a joint that needs no fitting into the next run, so
// lengths are credited leg by leg.
std::vector<Length> lengths_of_runs(const Garden& garden) {
  std::vector<Length> lengths(garden.runs.size());
  for (const Piece& piece : garden.pieces) {
    for (const int leg : piece.legs) {
      const Leg& of = garden.legs[static_cast<std::size_t>(leg)];
      lengths[static_cast<std::size_t>(of.run)] += of.length;
    }
  }
  return lengths;
}

PartSpec tubing_of(const Run& run) {
  PartSpec tubing = run.tubing;
  tubing.attributes["size"] = word_value(run.size);
  return tubing;
}

std::vector<int> first_leg_of_runs(const Garden& garden) {
  std::vector<int> first(garden.runs.size(), -1);
  for (std::size_t leg = garden.legs.size(); leg-- > 0;) {
    if (garden.legs[leg].run >= 0) first[static_cast<std::size_t>(garden.legs[leg].run)] = static_cast<int>(leg);
  }
  return first;
}

}  // namespace

void count_tubing(Worksheet& sheet) {
  const Garden& garden = sheet.garden;
  const std::vector<Length> lengths = lengths_of_runs(garden);
  const std::vector<int> first = first_leg_of_runs(garden);
  std::vector<Need*> need_of_run(garden.runs.size());
  std::vector<Cut> cuts;
  for (std::size_t i = 0; i < garden.runs.size(); ++i) {
    const Run& run = garden.runs[i];
    if (run.existing || lengths[i].tenths_mm == 0) continue;
    Need& need = sheet.ask(tubing_of(run), {sheet.system_of(first[i])}, run.element,
                           design_reason(fmt::format("{} {}", run.tubing.kind, way_of(run.role)), run.name,
                                         lengths[i].tenths_mm, run.place));
    need_of_run[i] = &need;
    note_cut(cuts, need, waste_of(run.role, sheet.practice), lengths[i].tenths_mm);
  }
  for (const Piece& piece : garden.pieces) {
    const auto run = static_cast<std::size_t>(piece.run);
    if (need_of_run[run] == nullptr) continue;
    need_of_run[run]->pieces.push_back({piece.length, piece.where, garden.runs[run].may_join});
  }
  add_waste(cuts, sheet);
  state_waste(cuts, sheet);
}

}  // namespace teetally
