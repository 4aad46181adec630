#include "teetally/render/store.h"
#include "tool/commands.h"
#include "tool/store_file.h"

namespace teetally {

Answer run_catalog_history(Session& session) {
  const auto store = open_store(session, StoreUse::read);
  if (!store) return stopped(session);
  const auto histories = price_history(*store, session.request.arguments[0], session.diagnostics);
  if (session.diagnostics.has_errors()) return stopped(session);
  const UnitSystem units = session.request.units.value_or(UnitSystem::us);
  return {ExitCode::done, in_form(
                              session,
                              [&] {
                                return price_history_text(histories, {session.width, units});
                              },
                              [&] { return price_history_document(histories, units); },
                              [&] { return price_history_csv(histories, units); })};
}

}  // namespace teetally
