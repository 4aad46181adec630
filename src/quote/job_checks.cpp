#include <algorithm>

#include "quote/job_reader.h"

namespace teetally {
namespace {

constexpr std::int64_t kWhole = 1'000'000;  // 100 %

void check_profit(const RawJob& raw, Diagnostics& diagnostics) {
  if (raw.both_profits) {
    diagnostics.error("quote/markup-and-margin", raw.profit_place, "the profit is given as markup and as margin").help =
        "give one: markup is a share of the cost, margin a share of the price";
  } else if (raw.job.profit_rule == ProfitRule::margin && raw.job.profit.ppm >= kWhole) {
    diagnostics
        .error("quote/margin-too-high", raw.profit_place,
               "a margin of " + to_string(raw.job.profit) + " is no share of a price; expected less than 100 %")
        .help = "a markup, which is a share of the cost, may be 100 % and more";
  }
}

void check_tax(const RawJob& raw, Diagnostics& diagnostics) {
  const bool taxed = raw.job.tax_basis != TaxBasis::none;
  if (!raw.tax_basis_known || taxed == raw.tax_percent_given || (!taxed && !raw.tax_place.known())) return;
  diagnostics.error("quote/tax-percent", raw.tax_place,
                    taxed ? "the tax has a basis and no percent" : "the tax has a percent, but is on nothing");
}

void check_payments(const RawJob& raw, Diagnostics& diagnostics) {
  Percent sum;
  for (const PaymentTerm& term : raw.job.payments) sum.ppm += term.percent.ppm;
  if (sum.ppm <= kWhole) return;
  diagnostics.error("quote/payments-exceed", raw.payments_place,
                    "the payments come to " + to_string(sum) + " of the total; expected 100 % at most");
}

void check_row(const LabourRow& row, const Vocabulary& vocabulary, Diagnostics& diagnostics) {
  if (row.kind.empty()) {
    if (row.per.tenths_mm == 0) return;
    diagnostics.error("quote/hours-per-length", row.place, "hours per length need the kind they are for");
    return;
  }
  const KindType* kind = vocabulary.find(row.kind);
  if (row.per_bed) {
    diagnostics.error("quote/kind-and-bed", row.place,
                      "a row of hours is for a kind of part or for each bed, not both");
  }
  if (kind == nullptr) {
    Diagnostic& d = diagnostics.error("quote/unknown-kind", row.place, "unknown kind of part " + quoted(row.kind));
    if (const auto near = nearest_word(row.kind, vocabulary.kind_names()))
      d.help = "did you mean " + quoted(*near) + "?";
  } else if (kind->by_length != (row.per.tenths_mm > 0)) {
    diagnostics
        .error("quote/hours-per-length", row.place,
               kind->by_length ? quoted(row.kind) + " is cut by length: say what length the hours are for"
                               : quoted(row.kind) + " comes in pieces, so its hours are for one piece")
        .help = kind->by_length ? "write for example: per: 100 ft" : "leave out 'per'";
  }
}

void check_options(const std::vector<JobOption>& options, Diagnostics& diagnostics) {
  for (auto option = options.begin(); option != options.end(); ++option) {
    const bool twice = std::any_of(options.begin(), option, [&](const JobOption& o) { return o.name == option->name; });
    if (!twice || option->name.empty()) continue;
    diagnostics.error("quote/same-option", option->place, "two options are called " + quoted(option->name)).help =
        "give each a name of its own";
  }
}

}  // namespace

void check_raw_job(const RawJob& raw, const Vocabulary& vocabulary, Beds beds, Diagnostics& diagnostics) {
  check_profit(raw, diagnostics);
  check_tax(raw, diagnostics);
  check_payments(raw, diagnostics);
  for (const LabourRow& row : raw.job.labour.rows) {
    check_row(row, vocabulary, diagnostics);
    if (!row.per_bed || raw.job.beds || beds == Beds::counted) continue;
    diagnostics.error("quote/no-beds", row.place, "hours for each bed, but the job does not say how many beds").help =
        "say how many there are: beds: 4";
  }
  check_options(raw.job.options, diagnostics);
}

std::optional<Job> read_job(const Source& source, const Vocabulary& vocabulary, const Currency& currency, Beds beds,
                            Diagnostics& diagnostics) {
  Diagnostics found;
  auto raw = read_raw_job(source, currency, found);
  if (raw) check_raw_job(*raw, vocabulary, beds, found);
  for (Diagnostic& entry : found.in_order()) diagnostics.add(std::move(entry));
  if (!raw || found.has_errors()) return std::nullopt;
  return std::move(raw->job);
}

}  // namespace teetally
