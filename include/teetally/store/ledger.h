#pragma once
// Who owes what for a pooled order, kept as entries: what is due, what was paid, what was paid back. Entries are only
// ever added. What is due changes by an entry of the difference; a payment noted by mistake is cancelled by its
// opposite. Amounts are minor units of the round's currency.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "teetally/base.h"
#include "teetally/store.h"

namespace teetally {

enum class LedgerKind { due, paid, refunded };
std::string to_text(LedgerKind kind);

struct LedgerBalance {
  std::string member;
  Money due, paid, refunded;
  Money owes() const { return due - paid + refunded; }  // below zero: gets back
};
struct LedgerEntry {
  std::int64_t number = 0;
  std::string day, member;
  LedgerKind kind = LedgerKind::due;
  Money amount;
  std::string why;
  std::optional<std::int64_t> cancels;  // the entry that this one takes back
};
// One round with its accounts, by name, and its entries, by number.
struct LedgerRound {
  std::int64_t number = 0;  // R1, R2, ... for people
  std::string pool, name;
  Currency currency;
  std::vector<LedgerBalance> balances;
  std::vector<LedgerEntry> entries;
};
std::string round_name(std::int64_t number);                      // "R3"
std::optional<std::int64_t> round_number(std::string_view name);  // of "R3" or "r3"

std::vector<LedgerRound> list_rounds(const Store& store);
// store/no-round
std::optional<LedgerRound> round_account(const Store& store, std::int64_t number, Diagnostics& diagnostics);

struct LedgerDue {
  std::string member;
  Money amount;
};
struct RoundToBook {
  std::string pool, name;
  Currency currency;
  std::vector<LedgerDue> dues;
};
// What everybody owes from now on; whoever is not named any more owes nothing. Answers the round's number.
// store/another-currency
std::optional<std::int64_t> book_dues(Store& store, const RoundToBook& round, const std::string& why,
                                      const std::string& day, Diagnostics& diagnostics);

struct LedgerPayment {
  std::int64_t round = 0;
  std::string member;
  LedgerKind kind = LedgerKind::paid;  // or refunded
  Money amount;                        // above zero
};
// store/no-round, store/no-member; the warnings store/paid-already (the same again on that day) and
// store/refund-exceeds (more than the member is to get back).
void note_payment(Store& store, const LedgerPayment& payment, const std::string& why, const std::string& day,
                  Diagnostics& diagnostics);
// store/no-round, store/no-entry, store/not-cancelled
void cancel_entry(Store& store, std::int64_t round, std::int64_t entry, const std::string& why, const std::string& day,
                  Diagnostics& diagnostics);

}  // namespace teetally
