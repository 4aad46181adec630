#include <fmt/format.h>

#include <map>

#include "render/json_parts.h"
#include "render/phrases.h"
#include "teetally/base/csv.h"
#include "teetally/render/ledger.h"

namespace teetally {
namespace {

constexpr auto kRight = Column::Side::right;

LedgerBalance sum_of(const LedgerRound& round) {
  LedgerBalance sum{"All", {}, {}, {}};
  for (const LedgerBalance& balance : round.balances) {
    sum.due += balance.due;
    sum.paid += balance.paid;
    sum.refunded += balance.refunded;
  }
  return sum;
}

bool shown(const AccountView& view, const std::string& member) { return !view.member || *view.member == member; }

std::string standing_words(Money owes, const Currency& currency) {
  if (owes == Money{}) return "settled";
  return owes > Money{} ? "owes " + to_text(owes, currency) : "gets back " + to_text(-owes, currency);
}

std::string title_of(const LedgerRound& round) {
  return wrapped(
      fmt::format("{}: {}, {}. Amounts in {}.", round_name(round.number),
                  printable(round.pool.empty() ? "a pool" : round.pool), printable(round.name), round.currency.code),
      200);
}

// Payments that were taken back, by the entry that did it.
std::map<std::int64_t, std::int64_t> cancellations(const LedgerRound& round) {
  std::map<std::int64_t, std::int64_t> by;
  for (const LedgerEntry& entry : round.entries) {
    if (entry.cancels) by[*entry.cancels] = entry.number;
  }
  return by;
}

std::string balances(const AccountView& view, const Page& page) {
  const Currency& currency = view.round.currency;
  TextTable table{
      {{"Member", Column::Side::left, true}, {"Due", kRight}, {"Paid", kRight}, {"Paid back", kRight}, {"Now", kRight}},
      {}};
  const auto add = [&](const LedgerBalance& balance) {
    table.rows.push_back({printable(balance.member), to_text(balance.due, currency), to_text(balance.paid, currency),
                          balance.refunded == Money{} ? "" : to_text(balance.refunded, currency),
                          standing_words(balance.owes(), currency)});
  };
  for (const LedgerBalance& balance : view.round.balances) {
    if (shown(view, balance.member)) add(balance);
  }
  if (!view.member) add(sum_of(view.round));
  return laid_out(table, page.width, 2);
}

std::string entries(const AccountView& view, const Page& page) {
  TextTable table{{{"Entry", kRight}, {"Day"}, {"Member"}, {""}, {"Amount", kRight}, {"For", Column::Side::left, true}},
                  {}};
  const auto cancelled = cancellations(view.round);
  for (const LedgerEntry& entry : view.round.entries) {
    if (!shown(view, entry.member)) continue;
    std::string why = printable(entry.why);
    const auto note = [&](const std::string& words) { why += (why.empty() ? "" : "; ") + words; };
    if (entry.cancels) note("takes back entry " + std::to_string(*entry.cancels));
    if (const auto by = cancelled.find(entry.number); by != cancelled.end()) {
      note("taken back by entry " + std::to_string(by->second));
    }
    table.rows.push_back({std::to_string(entry.number), entry.day, printable(entry.member), to_text(entry.kind),
                          to_text(entry.amount, view.round.currency), why});
  }
  return heading("Entries") + laid_out(table, page.width, 2);
}

Json balance_json(const LedgerBalance& balance, const Currency& currency) {
  return Json::object()
      .set("member", balance.member)
      .set("due", to_string(balance.due, currency))
      .set("paid", to_string(balance.paid, currency))
      .set("refunded", to_string(balance.refunded, currency))
      .set("owes", to_string(balance.owes(), currency));
}

Json round_json(const LedgerRound& round) {
  Json json = Json::object();
  json.set("number", round_name(round.number)).set("pool", round.pool).set("name", round.name);
  return json.set("currency", round.currency.code);
}

}  // namespace

std::string balances_text(const LedgerRound& round, const Page& page) {
  return title_of(round) + balances({round, std::nullopt}, page);
}

std::string accounts_text(const AccountView& view, const Page& page) {
  return title_of(view.round) + balances(view, page) + entries(view, page);
}

Json accounts_document(const AccountView& view) {
  const Currency& currency = view.round.currency;
  Json members = Json::array(), all = Json::array();
  for (const LedgerBalance& balance : view.round.balances) {
    if (shown(view, balance.member)) members.push(balance_json(balance, currency));
  }
  for (const LedgerEntry& entry : view.round.entries) {
    if (!shown(view, entry.member)) continue;
    all.push(Json::object()
                 .set("number", entry.number)
                 .set("day", entry.day)
                 .set("member", entry.member)
                 .set("kind", to_text(entry.kind))
                 .set("amount", to_string(entry.amount, currency))
                 .set("why", entry.why)
                 .set("cancels", entry.cancels ? Json(*entry.cancels) : Json()));
  }
  Json json = Json::object().set("document", "teetally/accounts").set("version", 1);
  json.set("round", round_json(view.round)).set("members", std::move(members));
  return json.set("entries", std::move(all));
}

std::string accounts_csv(const AccountView& view) {
  std::string out =
      csv_row({"round", "pool", "name", "entry", "day", "member", "kind", "amount", "currency", "for", "takes back"});
  for (const LedgerEntry& entry : view.round.entries) {
    if (!shown(view, entry.member)) continue;
    out += csv_row({round_name(view.round.number), view.round.pool, view.round.name, std::to_string(entry.number),
                    entry.day, entry.member, to_text(entry.kind), to_string(entry.amount, view.round.currency),
                    view.round.currency.code, entry.why, entry.cancels ? std::to_string(*entry.cancels) : ""});
  }
  return out;
}

std::string rounds_text(const std::vector<LedgerRound>& rounds, const Page& page) {
  if (rounds.empty()) return "No round is in the ledger yet.\n";
  TextTable table{{{"Round"},
                   {"Pool", Column::Side::left, true},
                   {"Name"},
                   {"Members", kRight},
                   {"Due", kRight},
                   {""},
                   {"Now", kRight}},
                  {}};
  for (const LedgerRound& round : rounds) {
    const LedgerBalance sum = sum_of(round);
    table.rows.push_back({round_name(round.number), printable(round.pool), printable(round.name),
                          std::to_string(round.balances.size()), to_text(sum.due, round.currency), round.currency.code,
                          standing_words(sum.owes(), round.currency)});
  }
  return laid_out(table, page.width, 0);
}

Json rounds_document(const std::vector<LedgerRound>& rounds) {
  Json all = Json::array();
  for (const LedgerRound& round : rounds) {
    const LedgerBalance sum = sum_of(round);
    Json json = round_json(round);
    json.set("members", static_cast<std::int64_t>(round.balances.size()));
    json.set("due", to_string(sum.due, round.currency)).set("paid", to_string(sum.paid, round.currency));
    json.set("refunded", to_string(sum.refunded, round.currency));
    all.push(json.set("owes", to_string(sum.owes(), round.currency)));
  }
  return Json::object().set("document", "teetally/rounds").set("version", 1).set("rounds", std::move(all));
}

std::string rounds_csv(const std::vector<LedgerRound>& rounds) {
  std::string out = csv_row({"round", "pool", "name", "members", "due", "paid", "refunded", "owes", "currency"});
  for (const LedgerRound& round : rounds) {
    const LedgerBalance sum = sum_of(round);
    out +=
        csv_row({round_name(round.number), round.pool, round.name, std::to_string(round.balances.size()),
                 to_string(sum.due, round.currency), to_string(sum.paid, round.currency),
                 to_string(sum.refunded, round.currency), to_string(sum.owes(), round.currency), round.currency.code});
  }
  return out;
}

}  // namespace teetally
