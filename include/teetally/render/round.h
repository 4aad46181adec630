#pragma once
// Where a pooled order stands, and what everybody owes.
#include "teetally/quote/round.h"
#include "teetally/render.h"

namespace teetally {

struct LedgerView {
  const PoolResult& result;
  const Round& round;
  const Settled& settled;
};
std::string ledger_text(const LedgerView& view, const Page& page);
std::string ledger_csv(const LedgerView& view);  // a row per plot
Json ledger_document(const LedgerView& view);    // "teetally/ledger"

}  // namespace teetally
