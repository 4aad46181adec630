#include "teetally/render/ledger.h"

#include "tool/commands.h"
#include "tool/store_file.h"

namespace teetally {
namespace {

std::optional<std::int64_t> round_of(Session& session) {
  const std::string& word = session.request.arguments[0];
  if (const auto number = round_number(word)) return number;
  session.diagnostics
      .error("tool/bad-value", {},
             "the round is " + quoted(printable(word)) + "; expected its name in the ledger, as R1")
      .help = "'teetally ledger list' shows all";
  return std::nullopt;
}

Answer accounts(Session& session, const Store& store, std::int64_t number, const std::optional<std::string>& member) {
  const auto round = round_account(store, number, session.diagnostics);
  if (session.diagnostics.has_errors() || !round) return stopped(session);
  const AccountView view{*round, member};
  const Page page{session.width, UnitSystem::us};
  return {ExitCode::done, in_form(
                              session, [&] { return accounts_text(view, page); },
                              [&] { return accounts_document(view); }, [&] { return accounts_csv(view); })};
}

bool has_member(const LedgerRound& round, const std::string& member) {
  for (const LedgerBalance& balance : round.balances) {
    if (balance.member == member) return true;
  }
  return false;
}

std::optional<Money> amount_of(Session& session, const Currency& currency) {
  const std::string& word = session.request.arguments[2];
  const auto amount = parse_money(word, currency);
  if (amount && *amount > Money{}) return *amount;
  session.diagnostics
      .error("tool/bad-value", {},
             "the amount is " + quoted(printable(word)) + "; expected more than nothing, in " + currency.code +
                 ", as 12.50")
      .help = "what was noted by mistake is taken back with 'teetally ledger cancel'";
  return std::nullopt;
}

Answer note(Session& session, LedgerKind kind) {
  const auto number = round_of(session);
  auto store = number ? open_store(session, StoreUse::write) : std::optional<Store>();
  if (!store) return stopped(session);
  const auto round = round_account(*store, *number, session.diagnostics);
  const auto amount = round ? amount_of(session, round->currency) : std::nullopt;
  if (!amount) return stopped(session);
  const LedgerPayment payment{*number, session.request.arguments[1], kind, *amount};
  note_payment(*store, payment, session.request.reason.value_or(""), session.request.today, session.diagnostics);
  return accounts(session, *store, *number, payment.member);
}

}  // namespace

Answer run_ledger_list(Session& session) {
  const auto store = open_store(session, StoreUse::read);
  if (!store) return stopped(session);
  const std::vector<LedgerRound> rounds = list_rounds(*store);
  const Page page{session.width, UnitSystem::us};
  return {ExitCode::done, in_form(
                              session, [&] { return rounds_text(rounds, page); },
                              [&] { return rounds_document(rounds); }, [&] { return rounds_csv(rounds); })};
}

Answer run_ledger_show(Session& session) {
  const auto number = round_of(session);
  const auto store = number ? open_store(session, StoreUse::read) : std::optional<Store>();
  if (!store) return stopped(session);
  const auto& member = session.request.member;
  const auto round = round_account(*store, *number, session.diagnostics);
  if (!round) return stopped(session);
  if (member && !has_member(*round, *member)) {
    session.diagnostics.error("store/no-member", {}, "nobody in this round is called " + quoted(printable(*member)))
        .help = "'teetally ledger show " + round_name(*number) + "' shows all";
  }
  return accounts(session, *store, *number, member);
}

Answer run_ledger_pay(Session& session) { return note(session, LedgerKind::paid); }
Answer run_ledger_refund(Session& session) { return note(session, LedgerKind::refunded); }

Answer run_ledger_cancel(Session& session) {
  const auto number = round_of(session);
  const std::string& word = session.request.arguments[1];
  const auto entry = parse_count(word);
  if (!entry) {
    session.diagnostics
        .error("tool/bad-value", {}, "the entry is " + quoted(printable(word)) + "; expected its number, as 7")
        .help = "'teetally ledger show " + session.request.arguments[0] + "' shows all entries";
  }
  auto store = number && entry ? open_store(session, StoreUse::write) : std::optional<Store>();
  if (!store) return stopped(session);
  cancel_entry(*store, *number, *entry, session.request.reason.value_or(""), session.request.today,
               session.diagnostics);
  return accounts(session, *store, *number, std::nullopt);
}

}  // namespace teetally
