#include "teetally/store/quotes.h"
#include "tool/commands.h"
#include "tool/quote_number.h"
#include "tool/store_file.h"

namespace teetally {
namespace {

Answer settle(Session& session, QuoteState state) {
  const Request& request = session.request;
  const auto number = quote_number(session);
  if (!number) return stopped(session);
  auto store = open_store(session, StoreUse::write);
  if (!store) return stopped(session);
  settle_quote(*store, *number, request.revision, state, request.today, session.diagnostics);
  if (session.diagnostics.has_errors()) return stopped(session);
  return {ExitCode::done, "Quote " + std::to_string(*number) + " is " + to_text(state) + ", " + request.today + ".\n"};
}

}  // namespace

Answer run_quote_accept(Session& session) { return settle(session, QuoteState::accepted); }
Answer run_quote_withdraw(Session& session) { return settle(session, QuoteState::withdrawn); }

}  // namespace teetally
