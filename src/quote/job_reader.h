#pragma once
// A job file as it is written, with the places its checks point to.
#include "teetally/quote.h"

namespace teetally {

struct RawJob {
  Job job;
  Place profit_place, tax_place, payments_place;
  bool both_profits = false;
  bool tax_basis_known = true, tax_percent_given = false;
};
std::optional<RawJob> read_raw_job(const Source& source, const Currency& currency, Diagnostics& diagnostics);
void check_raw_job(const RawJob& raw, const Vocabulary& vocabulary, Beds beds, Diagnostics& diagnostics);

}  // namespace teetally
