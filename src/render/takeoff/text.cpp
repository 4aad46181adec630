#include <algorithm>

#include "render/phrases.h"
#include "render/takeoff/reason_lines.h"

namespace teetally {
namespace {

std::string need_reasons(const Need& need, const Page& page) {
  const std::string amount = amount_text(need, need.amount, page.units);
  std::string out =
      wrapped(need.id + "  " + amount + (need.by_length ? " of " : " x ") + part_phrase(need.part, page.units),
              page.width, 2, 7);
  TextTable table{{{"", Column::Side::right}, {"", Column::Side::left, true}}, {}};
  for (const ReasonLine& line : gathered(need)) {
    table.rows.push_back({amount_text(need, line.amount, page.units), reason_phrase(line)});
  }
  return out + laid_out(table, page.width, 7);
}

// An amount of one class; nothing where there is none, so that empty columns vanish.
std::string class_amount(const Need& need, ReasonClass reason_class, const Page& page) {
  const std::int64_t sum = sum_of(need, reason_class);
  return sum == 0 ? std::string() : amount_text(need, sum, page.units);
}

// Then the design's amounts are the totals, and a column of their own would only repeat them.
bool all_of_design(const Takeoff& takeoff) {
  return std::all_of(takeoff.needs.begin(), takeoff.needs.end(),
                     [](const Need& need) { return sum_of(need, ReasonClass::design) == need.amount; });
}

std::string covered_text(const Takeoff& takeoff, const Page& page) {
  if (takeoff.covered.empty()) return {};
  std::string out = heading("On the site already, nothing to buy");
  for (const Need& need : takeoff.covered) {
    out += wrapped(need.id + " " + part_phrase(need.part, page.units), page.width, 2, 6);
    for (const Reason& reason : need.reasons) {
      if (reason.reason_class == ReasonClass::on_site) continue;
      out += wrapped(amount_text(need, reason.amount, page.units) + "  " + reason_phrase({&reason, reason.amount, 1}),
                     page.width, 6, 9);
    }
  }
  return out;
}

std::string needs_table(const Takeoff& takeoff, const Page& page) {
  constexpr auto kRight = Column::Side::right;
  TextTable table{{{"Need"},
                   {"Part", Column::Side::left, true},
                   {"Design", kRight},
                   {"Waste", kRight},
                   {"Spare", kRight},
                   {"On site", kRight},
                   {"Total", kRight}},
                  {}};
  const bool only_design = all_of_design(takeoff);
  for (const Need& need : takeoff.needs) {
    table.rows.push_back({need.id, part_phrase(need.part, page.units),
                          only_design ? std::string() : class_amount(need, ReasonClass::design, page),
                          class_amount(need, ReasonClass::waste, page), class_amount(need, ReasonClass::spare, page),
                          class_amount(need, ReasonClass::on_site, page), amount_text(need, need.amount, page.units)});
  }
  return laid_out(table, page.width, 2);
}

std::string assumptions_text(const Takeoff& takeoff, const Page& page) {
  if (takeoff.assumptions.empty()) return {};
  std::string out = heading("Assumed");
  for (const Assumption& a : takeoff.assumptions) {
    out += wrapped("- " + printable(a.text) + " (" + printable(a.origin) + ")", page.width, 2, 4);
  }
  return out;
}

}  // namespace

std::string cautions_text(const std::vector<std::string>& cautions, const Page& page) {
  if (cautions.empty()) return {};
  std::string out = heading("Take care");
  for (const std::string& caution : cautions) out += wrapped("- " + printable(caution), page.width, 2, 4);
  return out;
}

std::string takeoff_text(const Takeoff& takeoff, const SizedGarden* sized, const Page& page) {
  std::string out = title_line(takeoff.name, "Parts");
  if (sized != nullptr) out += wrapped(verdict_sentence(*sized), page.width);
  out += heading("Parts needed") + needs_table(takeoff, page);
  out += heading("Why");
  for (const Need& need : takeoff.needs) out += need_reasons(need, page);
  out += covered_text(takeoff, page);
  return out + assumptions_text(takeoff, page) + cautions_text(takeoff.cautions, page);
}

}  // namespace teetally
