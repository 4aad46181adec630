#include "teetally/store/ledger.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "store/sqlite.h"

namespace teetally {
namespace {

LedgerKind kind_called(std::string_view word) {
  if (word == "paid") return LedgerKind::paid;
  return word == "refunded" ? LedgerKind::refunded : LedgerKind::due;
}

void add_up(LedgerBalance& balance, LedgerKind kind, Money amount) {
  switch (kind) {
    case LedgerKind::due:
      balance.due += amount;
      break;
    case LedgerKind::paid:
      balance.paid += amount;
      break;
    case LedgerKind::refunded:
      balance.refunded += amount;
      break;
  }
}

void read_accounts(Database& database, LedgerRound& round) {
  std::map<std::int64_t, std::size_t> at;
  Statement accounts = database.statement("SELECT id, member FROM ledger_account WHERE round = ?1 ORDER BY member");
  accounts.with({round.number});
  while (accounts.next()) {
    at[accounts.number(0)] = round.balances.size();
    round.balances.push_back({accounts.text(1), {}, {}, {}});
  }
  Statement rows = database.statement(
      "SELECT e.id, e.account, e.day, e.kind, e.amount, e.why, e.cancels FROM ledger_entry e "
      "JOIN ledger_account a ON a.id = e.account WHERE a.round = ?1 ORDER BY e.id");
  rows.with({round.number});
  while (rows.next()) {
    LedgerBalance& balance = round.balances[at.at(rows.number(1))];
    LedgerEntry entry;
    entry.number = rows.number(0);
    entry.day = rows.text(2);
    entry.member = balance.member;
    entry.kind = kind_called(rows.text(3));
    entry.amount = {rows.number(4)};
    entry.why = rows.text(5);
    if (!rows.is_null(6)) entry.cancels = rows.number(6);
    add_up(balance, entry.kind, entry.amount);
    round.entries.push_back(std::move(entry));
  }
}

LedgerRound round_of(const Statement& row, const std::string& file) {
  LedgerRound round;
  round.number = row.number(0);
  round.pool = row.text(1);
  round.name = row.text(2);
  const auto currency = find_currency(row.text(3));
  if (!currency) throw WorldFailure("cannot use the store " + quoted(printable(file)) + ": " + currency.error());
  round.currency = *currency;
  return round;
}

std::int64_t account_called(Database& database, std::int64_t round, const std::string& member) {
  Statement known = database.statement("SELECT id FROM ledger_account WHERE round = ?1 AND member = ?2");
  if (known.with({round, member}).next()) return known.number(0);
  database.statement("INSERT INTO ledger_account (round, member) VALUES (?1, ?2)").with({round, member}).run();
  return database.last_row();
}

struct Reason {
  const std::string& why;
  const std::string& day;
};

void add_entry(Database& database, std::int64_t round, const LedgerEntry& entry, const Reason& reason) {
  const std::int64_t account = account_called(database, round, entry.member);
  const Cell cancels = entry.cancels ? Cell(*entry.cancels) : Cell(nullptr);
  database
      .statement("INSERT INTO ledger_entry (account, day, kind, amount, why, cancels) VALUES (?1, ?2, ?3, ?4, ?5, ?6)")
      .with({account, reason.day, to_text(entry.kind), entry.amount.minor, reason.why, cancels})
      .run();
}

const LedgerBalance* balance_of(const LedgerRound& round, const std::string& member) {
  for (const LedgerBalance& balance : round.balances) {
    if (balance.member == member) return &balance;
  }
  return nullptr;
}

void refuse_member(const LedgerRound& round, const std::string& member, Diagnostics& diagnostics) {
  std::vector<std::string> names;
  for (const LedgerBalance& balance : round.balances) names.push_back(balance.member);
  Diagnostic& error = diagnostics.error("store/no-member", {},
                                        "nobody in " + round_name(round.number) + " (" + printable(round.name) +
                                            ") is called " + quoted(printable(member)));
  const auto near = nearest_word(member, names);
  error.help = near ? "did you mean " + quoted(printable(*near)) + "?"
                    : "'teetally ledger show " + round_name(round.number) + "' shows all";
}

void warn_of_payment(const LedgerRound& round, const LedgerPayment& payment, const LedgerBalance& balance,
                     const std::string& day, Diagnostics& diagnostics) {
  const std::string amount = round.currency.code + " " + to_text(payment.amount, round.currency);
  for (const LedgerEntry& entry : round.entries) {
    const bool cancelled = std::any_of(round.entries.begin(), round.entries.end(),
                                       [&](const LedgerEntry& other) { return other.cancels == entry.number; });
    if (cancelled || entry.member != payment.member || entry.kind != payment.kind || entry.day != day ||
        entry.amount != payment.amount) {
      continue;
    }
    diagnostics
        .warning("store/paid-already", {},
                 fmt::format("{} {} {} was noted already on {}, as entry {}", amount,
                             payment.kind == LedgerKind::paid ? "from" : "back to", quoted(printable(payment.member)),
                             day, entry.number))
        .help = "if it is the same one: teetally ledger cancel " + round_name(round.number) + " " +
                std::to_string(entry.number);
    break;
  }
  const Money back = -balance.owes();
  if (payment.kind != LedgerKind::refunded || payment.amount <= back) return;
  diagnostics.warning("store/refund-exceeds", {},
                      quoted(printable(payment.member)) + " is paid back " + amount + " and was to get " +
                          to_text(std::max(back, Money{}), round.currency) + "; the rest is owed again");
}

}  // namespace

std::string to_text(LedgerKind kind) {
  switch (kind) {
    case LedgerKind::due:
      return "due";
    case LedgerKind::paid:
      return "paid";
    case LedgerKind::refunded:
      return "refunded";
  }
  return {};
}

std::string round_name(std::int64_t number) { return "R" + std::to_string(number); }

std::optional<std::int64_t> round_number(std::string_view name) {
  if (name.size() < 2 || (name[0] != 'R' && name[0] != 'r')) return std::nullopt;
  const auto number = parse_count(name.substr(1));
  if (!number || *number < 1) return std::nullopt;
  return *number;
}

std::vector<LedgerRound> list_rounds(const Store& store) {
  Database& database = store.database();
  std::vector<LedgerRound> rounds;
  Statement rows = database.statement("SELECT id, pool, name, currency FROM ledger_round ORDER BY id");
  while (rows.next()) rounds.push_back(round_of(rows, database.path()));
  for (LedgerRound& round : rounds) read_accounts(database, round);
  return rounds;
}

std::optional<LedgerRound> round_account(const Store& store, std::int64_t number, Diagnostics& diagnostics) {
  Database& database = store.database();
  Statement row = database.statement("SELECT id, pool, name, currency FROM ledger_round WHERE id = ?1");
  if (!row.with({number}).next()) {
    diagnostics.error("store/no-round", {}, "there is no round " + round_name(number) + " in the ledger").help =
        "'teetally ledger list' shows all; 'teetally pool ... --round FILE --book' adds one";
    return std::nullopt;
  }
  LedgerRound round = round_of(row, database.path());
  read_accounts(database, round);
  return round;
}

std::optional<std::int64_t> book_dues(Store& store, const RoundToBook& round, const std::string& why,
                                      const std::string& day, Diagnostics& diagnostics) {
  Database& database = store.database();
  Transaction transaction(database);
  LedgerRound known;
  Statement row = database.statement("SELECT id, pool, name, currency FROM ledger_round WHERE pool = ?1 AND name = ?2");
  if (row.with({round.pool, round.name}).next()) {
    known = round_of(row, database.path());
    read_accounts(database, known);
  } else {
    database.statement("INSERT INTO ledger_round (pool, name, currency) VALUES (?1, ?2, ?3)")
        .with({round.pool, round.name, round.currency.code})
        .run();
    known.number = database.last_row();
    known.currency = round.currency;
  }
  if (known.currency.code != round.currency.code) {
    diagnostics.error("store/another-currency", {},
                      "the round " + quoted(printable(round.name)) + " is kept in " + known.currency.code + ", found " +
                          round.currency.code);
    return std::nullopt;
  }
  std::map<std::string, Money> change;
  for (const LedgerDue& due : round.dues) change[due.member] += due.amount;
  for (const LedgerBalance& balance : known.balances) change[balance.member] = change[balance.member] - balance.due;
  for (const auto& [member, amount] : change) {
    if (balance_of(known, member) != nullptr && amount == Money{}) continue;
    LedgerEntry entry;
    entry.member = member;
    entry.amount = amount;
    add_entry(database, known.number, entry, {why, day});
  }
  transaction.commit();
  return known.number;
}

void note_payment(Store& store, const LedgerPayment& payment, const std::string& why, const std::string& day,
                  Diagnostics& diagnostics) {
  Transaction transaction(store.database());
  const auto round = round_account(store, payment.round, diagnostics);
  if (!round) return;
  const LedgerBalance* balance = balance_of(*round, payment.member);
  if (balance == nullptr) return refuse_member(*round, payment.member, diagnostics);
  warn_of_payment(*round, payment, *balance, day, diagnostics);
  LedgerEntry entry;
  entry.member = payment.member;
  entry.kind = payment.kind;
  entry.amount = payment.amount;
  add_entry(store.database(), round->number, entry, {why, day});
  transaction.commit();
}

void cancel_entry(Store& store, std::int64_t number, std::int64_t entry, const std::string& why, const std::string& day,
                  Diagnostics& diagnostics) {
  Transaction transaction(store.database());
  const auto round = round_account(store, number, diagnostics);
  if (!round) return;
  const LedgerEntry* wrong = nullptr;
  const LedgerEntry* cancelled = nullptr;
  for (const LedgerEntry& one : round->entries) {
    if (one.number == entry) wrong = &one;
    if (one.cancels == entry) cancelled = &one;
  }
  const std::string show = "'teetally ledger show " + round_name(number) + "' shows all entries";
  if (wrong == nullptr) {
    diagnostics.error("store/no-entry", {}, round_name(number) + " has no entry " + std::to_string(entry)).help = show;
    return;
  }
  const std::string which = "entry " + std::to_string(entry);
  if (wrong->kind == LedgerKind::due) {
    diagnostics.error("store/not-cancelled", {}, which + " is what was due, and no payment").help =
        "correct the round file or the pool file, and book again: teetally pool ... --round FILE --book";
  } else if (wrong->cancels || cancelled != nullptr) {
    const std::int64_t other = wrong->cancels ? *wrong->cancels : cancelled->number;
    diagnostics
        .error("store/not-cancelled", {},
               which + (wrong->cancels ? " itself takes back entry " : " was taken back already, by entry ") +
                   std::to_string(other))
        .help = "note the payment anew: teetally ledger pay " + round_name(number) + " MEMBER AMOUNT";
  } else {
    LedgerEntry opposite = *wrong;
    opposite.amount = -wrong->amount;
    opposite.cancels = entry;
    add_entry(store.database(), number, opposite, {why, day});
    transaction.commit();
  }
}

}  // namespace teetally
