#include <algorithm>
#include <set>

#include "quote/cost_lines.h"
#include "quote/wide.h"

namespace teetally {
namespace {

constexpr std::int64_t kTenThousand = 10'000;  // hours and factors are kept in ten-thousandths

// What is put in: the amount without the cutting allowance and without spares.
std::int64_t built_in(const Need& need) {
  std::int64_t amount = need.amount;
  for (const Reason& reason : need.reasons) {
    const bool stays_out = reason.reason_class == ReasonClass::waste || reason.reason_class == ReasonClass::spare;
    if (stays_out) amount -= reason.amount;
  }
  return std::max<std::int64_t>(amount, 0);
}

struct Times {
  std::int64_t amount = 0;
  std::int64_t per = 1;
};
Times times_of(const LabourRow& row, const QuoteInput& input) {
  if (row.per_bed) return {input.job.beds.value_or(input.beds.value_or(0)), 1};
  if (row.kind.empty()) return {1, 1};
  Times times;
  for (const Need& need : input.book.takeoff.needs) {
    if (need.part.kind == row.kind) times.amount += built_in(need);
  }
  if (row.per.tenths_mm > 0) times.per = row.per.tenths_mm;
  return times;
}

std::int64_t halves_up(Wide numerator, Wide denominator) {
  return narrowed((numerator * 2 + denominator) / (denominator * 2));
}

}  // namespace

std::vector<CostLine> labour_lines(const QuoteInput& input, std::vector<std::string>& notes) {
  const Labour& labour = input.job.labour;
  std::vector<CostLine> lines;
  std::set<std::string> timed;
  for (const LabourRow& row : labour.rows) {
    if (!row.kind.empty()) timed.insert(row.kind);
    const Times times = times_of(row, input);
    if (times.amount == 0 || row.hours == 0) continue;
    CostLine line;
    line.part = CostPart::labour;
    line.what = row.what;
    // Ten-thousandths times ten-thousandths, to hundredths: divided by a million.
    line.count = halves_up(static_cast<Wide>(row.hours) * labour.time_factor * times.amount,
                           static_cast<Wide>(kTenThousand) * 100 * times.per);
    line.price = row.rate.value_or(labour.rate);
    line.cost = {halves_up(static_cast<Wide>(line.price->minor) * line.count, 100)};
    lines.push_back(std::move(line));
  }
  std::vector<std::string> untimed;
  for (const Need& need : input.book.takeoff.needs) {
    const bool first = std::find(untimed.begin(), untimed.end(), need.part.kind) == untimed.end();
    if (first && timed.count(need.part.kind) == 0) untimed.push_back(need.part.kind);
  }
  if (labour.rows.empty()) {
    notes.emplace_back("no labour is reckoned: the job has no table of hours");
  } else if (!untimed.empty()) {
    notes.push_back("the table of hours has no row for " + listed(untimed));
  }
  return lines;
}

std::vector<CostLine> charge_lines(CostPart part, const std::vector<Charge>& charges) {
  std::vector<CostLine> lines;
  for (const Charge& charge : charges) {
    CostLine line;
    line.part = part;
    line.what = charge.what;
    line.cost = charge.cost;
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace teetally
