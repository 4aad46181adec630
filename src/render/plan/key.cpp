#include "render/plan/key.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "render/page/symbols.h"
#include "render/phrases.h"
#include "render/plan/tubing.h"

namespace teetally {
namespace {

constexpr double kColumn = 376, kWords = 46, kTextSize = 11, kLine = 14, kGap = 5;

std::string line_sign(const std::string& look) { return line_element({{-14, 0}, {14, 0}}, look); }

std::string need_words(const PlanSubject& subject, int need, std::string_view otherwise, UnitSystem units) {
  if (need < 0) return std::string(otherwise);
  const Need& one = subject.takeoff.needs[static_cast<std::size_t>(need)];
  return fmt::format("{}  {}", one.id, part_phrase(one.part, units));
}

std::string_view role_words(LegRole role) {
  switch (role) {
    case LegRole::supply:
      return "supply line";
    case LegRole::header:
    case LegRole::riser:
      return "header and riser of a bed";
    case LegRole::row:
      return "row of emitter line";
    case LegRole::tape:
      return "row of drip tape";
    case LegRole::feeder:
      return "feeder tubing";
  }
  return "tubing";
}

// One entry for each role and need of tubing that the garden has.
std::vector<SignMeaning> tubing_entries(const PlanSubject& subject, const PlanNumbers& numbers, UnitSystem units) {
  std::vector<SignMeaning> entries;
  std::set<std::pair<std::string_view, int>> seen;
  for (const Run& run : subject.sized.garden.runs) {
    const int need = numbers.of_run(run);
    if (!seen.insert({role_words(run.role), need}).second) continue;
    std::string sign = line_sign(tubing_look(run.role, usual_width(run.role)));
    if (run.existing) {
      sign += line_sign(fmt::format("stroke=\"{}\" stroke-width=\"{}\"", plan_ink::kPaper,
                                    sheet_number(usual_width(run.role) * 0.45)));
    }
    const std::string otherwise = run.existing ? "there already" : "";
    entries.push_back({sign, fmt::format("{}: {}", role_words(run.role), need_words(subject, need, otherwise, units))});
  }
  return entries;
}

std::vector<SignMeaning> part_entries(const PlanSubject& subject, const std::vector<PlanPart>& parts,
                                      UnitSystem units) {
  std::map<int, std::pair<std::string, std::int64_t>> by_need;
  std::map<std::string, std::int64_t> there;
  for (const PlanPart& part : parts) {
    if (part.need < 0) {
      there[part.kind] += part.count;
    } else {
      auto& [kind, count] = by_need[part.need];
      kind = part.kind;
      count += part.count;
    }
  }
  std::vector<SignMeaning> entries;
  for (const auto& [need, shown] : by_need) {
    entries.push_back({symbol_element(shown.first, {}),
                       fmt::format("{}: {} here", need_words(subject, need, "", units), shown.second)});
  }
  for (const auto& [kind, count] : there) {
    entries.push_back({symbol_element(kind, {}), fmt::format("{}, there already: {} here", kind, count)});
  }
  return entries;
}

std::vector<SignMeaning> place_entries(const PlanSubject& subject, const PlanNumbers& numbers) {
  std::vector<SignMeaning> entries;
  std::vector<std::string> head;
  for (const int need : numbers.of_head()) head.push_back(subject.takeoff.needs[static_cast<std::size_t>(need)].id);
  entries.push_back(
      {symbol_element("tap", {}), head.empty() ? "tap" : fmt::format("tap, with the head assembly: {}", listed(head))});
  const std::string bed = fmt::format("fill=\"{}\" stroke=\"{}\"", plan_ink::kSoil, plan_ink::kSide);
  const auto& beds = subject.site.beds;
  const auto raised = [](const Bed& one) { return one.height.tenths_mm > 0; };
  if (std::any_of(beds.begin(), beds.end(), raised)) {
    entries.push_back({box_element({-13, -6, 13, 6}, bed) + box_element({-10.5, -3.5, 10.5, 3.5}, bed),
                       "raised bed, with the height of its rim"});
  }
  if (!std::all_of(beds.begin(), beds.end(), raised)) entries.push_back({box_element({-13, -6, 13, 6}, bed), "bed"});
  return entries;
}

}  // namespace

std::string layer_words(PlanLayer layer) {
  switch (layer) {
    case PlanLayer::lengths:
      return "Lengths are of each piece between two fittings, heights climbed included.";
    case PlanLayer::flow:
      return "Figures are flows through each stretch of tubing; the wider a line, the more it carries.";
    case PlanLayer::pressure:
      return "Figures are pressures at the far end of each stretch; the wider a line, the more it carries.";
  }
  return {};
}

std::vector<SignMeaning> sign_meanings(const PlanSubject& subject, const PlanNumbers& numbers,
                                       const std::vector<PlanPart>& parts, UnitSystem units) {
  std::vector<SignMeaning> entries = place_entries(subject, numbers);
  for (SignMeaning& entry : tubing_entries(subject, numbers, units)) entries.push_back(std::move(entry));
  for (SignMeaning& entry : part_entries(subject, parts, units)) entries.push_back(std::move(entry));
  return entries;
}

PlanKey plan_key(const PlanSubject& subject, const PlanNumbers& numbers, const std::vector<PlanPart>& parts,
                 PlanLayer layer, UnitSystem units, double top) {
  const std::vector<SignMeaning> entries = sign_meanings(subject, numbers, parts, units);
  PlanKey key;
  key.elements = fmt::format("<g font-size=\"{}\">\n", sheet_number(kTextSize)) +
                 text_element({kSheetMargin, top + 12}, "What the signs mean", "font-weight=\"700\"");
  double y[2] = {top + 34, top + 34};
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const int column = y[1] < y[0] ? 1 : 0;
    const double x = kSheetMargin + column * (kColumn + 0.0);
    key.elements += fmt::format("<g transform=\"translate({} {})\" stroke=\"{}\" stroke-width=\"1.2\">\n{}</g>\n",
                                sheet_number(x + 18), sheet_number(y[column] - 4), plan_ink::kInk, entries[i].sign);
    for (const std::string& line : wrap_text(entries[i].words, kTextSize, kColumn - kWords)) {
      key.elements += text_element({x + kWords, y[column]}, line, "");
      y[column] += kLine;
    }
    y[column] += kGap;
  }
  key.bottom = std::max(y[0], y[1]) + 4;
  key.elements +=
      text_element({kSheetMargin, key.bottom}, layer_words(layer), fmt::format("fill=\"{}\"", plan_ink::kQuiet));
  key.elements += "</g>\n";
  return key;
}

}  // namespace teetally
