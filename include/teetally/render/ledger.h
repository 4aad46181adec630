#pragma once
// Accounts of pooled orders as text, JSON documents and CSV.
#include "teetally/render.h"
#include "teetally/store/ledger.h"

namespace teetally {

std::string rounds_text(const std::vector<LedgerRound>& rounds, const Page& page);
Json rounds_document(const std::vector<LedgerRound>& rounds);    // "teetally/rounds"
std::string rounds_csv(const std::vector<LedgerRound>& rounds);  // a row per round

// One round: everybody's balance, then the entries; with `member` that one's only.
struct AccountView {
  const LedgerRound& round;
  std::optional<std::string> member;
};
std::string accounts_text(const AccountView& view, const Page& page);
Json accounts_document(const AccountView& view);    // "teetally/accounts"
std::string accounts_csv(const AccountView& view);  // a row per entry
std::string balances_text(const LedgerRound& round, const Page& page);

}  // namespace teetally
