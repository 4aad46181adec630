#include "teetally/render/store.h"
#include "tool/commands.h"
#include "tool/store_file.h"

namespace teetally {

Answer run_quote_list(Session& session) {
  const auto store = open_store(session, StoreUse::read);
  if (!store) return stopped(session);
  const std::vector<QuoteStanding> quotes = list_quotes(*store);
  return {ExitCode::done, in_form(
                              session,
                              [&] {
                                return quotes_text(quotes, {session.width, UnitSystem::us});
                              },
                              [&] { return quotes_document(quotes); }, [&] { return quotes_csv(quotes); })};
}

}  // namespace teetally
