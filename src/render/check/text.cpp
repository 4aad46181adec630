#include <fmt/format.h>

#include <algorithm>

#include "render/check/parts.h"
#include "render/phrases.h"

namespace teetally {
namespace {

std::string element_counts(const Garden& garden) {
  std::vector<std::pair<std::string, std::int64_t>> counts;
  for (const Element& element : garden.elements) {
    if (element.kind == "source") continue;
    const auto same =
        std::find_if(counts.begin(), counts.end(), [&](const auto& c) { return c.first == element.kind; });
    if (same == counts.end()) {
      counts.emplace_back(element.kind, 1);
    } else {
      ++same->second;
    }
  }
  std::vector<std::string> words;
  for (const auto& [kind, n] : counts) words.push_back(counted(n, kind));
  return listed(words);
}

// Runs that are sized; rows and feeders come with the outlets they carry.
bool is_sized(LegRole role) { return role == LegRole::supply || role == LegRole::riser || role == LegRole::header; }

std::string sizes_text(const SizedGarden& sized, const Page& page) {
  TextTable table{{{"Size", Column::Side::left},
                   {"Run", Column::Side::left, true},
                   {"Flow", Column::Side::right},
                   {"Rule of thumb", Column::Side::left},
                   {"Computed", Column::Side::left}},
                  {}};
  bool disagree = false, none_passes = false;
  for (const RunHydraulics& run : sized.runs) {
    const Run& laid = sized.garden.runs[static_cast<std::size_t>(run.run)];
    if (!is_sized(laid.role)) continue;
    const bool chosen = !run.size_by_rule.empty() || !run.size_by_computation.empty();
    disagree = disagree || (!run.size_by_rule.empty() && !run.size_by_computation.empty() &&
                            run.size_by_rule != run.size_by_computation);
    none_passes = none_passes || (chosen && run.size_by_computation.empty());
    table.rows.push_back({size_phrase(run.size), printable(laid.name), flow_phrase(run.flow_m3_per_s, page.units),
                          chosen ? size_phrase(run.size_by_rule) : "stated",
                          chosen ? size_phrase(run.size_by_computation) : "-"});
  }
  if (table.rows.empty()) return {};
  std::string out = heading("Sizes") + laid_out(table, page.width, 2);
  if (disagree && sized.limits.rule_of_thumb) {
    out += wrapped(
        "Where the two disagree the larger is taken. 'rule of thumb: no' under 'checks' in a practice file "
        "leaves it to computing.",
        page.width, 2, 2);
  }
  if (none_passes)
    out += wrapped("By computing, no size of tubing on its own makes the garden work.", page.width, 2, 2);
  return out;
}

std::string taken_text(const SizedGarden& sized, const Page& page) {
  std::vector<std::string> origins, groups;
  for (const TakenFigure& figure : sized.taken) {
    if (std::find(origins.begin(), origins.end(), figure.origin) == origins.end()) origins.push_back(figure.origin);
  }
  for (const std::string& origin : origins) {
    std::vector<std::string> texts;
    for (const TakenFigure& figure : sized.taken) {
      if (figure.origin == origin) texts.push_back(figure.text);
    }
    groups.push_back(listed(texts) + " (" + origin + ")");
  }
  return origins.empty() ? std::string()
                         : heading("Taken for granted") +
                               wrapped(printable(fmt::format("{}.", fmt::join(groups, "; "))), page.width, 2, 2);
}

// What the figures mean, for those who reckon along.
std::string formulas_text(const SizedGarden& sized, const Page& page) {
  return wrapped(fmt::format("Flow variation is (most - least) / most, emission uniformity 100 (1 - 1.27 Cv) least / "
                             "mean with Cv {:g} ({}), each over outlets of one kind.",
                             sized.limits.emitter_cv, printable(sized.limits.emitter_cv_origin)),
                 page.width, 2, 2);
}

std::string advice_text(const CheckView& view, const Page& page) {
  if (view.advice == nullptr) return {};
  std::string out;
  const std::vector<Zone>& zones = view.sized.garden.zones;
  for (std::size_t i = 0; i < view.advice->size() && i < zones.size(); ++i) {
    const Verdict verdict = view.sized.zones[i].verdict;
    if (verdict == Verdict::works) continue;
    out += heading(zones.size() == 1 ? "What to change" : "What to change in zone " + quoted(printable(zones[i].name)));
    const std::string section = advice_section((*view.advice)[i], page);
    out += section.empty() ? wrapped(
                                 "No single change that was tried, nor one together with running it in parts, "
                                 "makes it better.",
                                 page.width, 2, 2)
                           : section.substr(1);
  }
  if (!out.empty()) {
    out += "\n" + wrapped(
                      "Each change was made to the design, laid out and solved before it was offered. Any one of "
                      "them is enough; prices were not looked at.",
                      page.width, 2, 2);
  }
  return out;
}

}  // namespace

std::string check_text(const CheckView& view, const Page& page) {
  const SizedGarden& sized = view.sized;
  const Garden& garden = sized.garden;
  std::string out = title_line(garden.name, "Garden");
  if (const std::string counts = element_counts(garden); !counts.empty()) out += wrapped(counts, page.width);
  out += "\n" + wrapped(verdict_sentence(sized), page.width);
  out += advice_text(view, page);
  for (const ZoneHydraulics& zone : sized.zones) out += zone_section(view, zone, page);
  return out + sizes_text(sized, page) + taken_text(sized, page) + formulas_text(sized, page);
}

}  // namespace teetally
