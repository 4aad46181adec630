#include "teetally/render/store.h"
#include "tool/commands.h"
#include "tool/pipeline.h"
#include "tool/store_file.h"

namespace teetally {

Answer run_catalog_record(Session& session) {
  const Request& request = session.request;
  const auto vocabulary = read_vocabulary(session);
  if (!vocabulary) return stopped(session);
  const std::vector<Catalog> catalogs = timed(session, "catalog", [&] {
    return read_catalogs(request.arguments, *vocabulary, request.today, session.diagnostics);
  });
  if (session.diagnostics.has_errors()) return stopped(session);
  auto store = open_store(session, StoreUse::write);
  if (!store) return stopped(session);
  const std::vector<Recording> recordings =
      timed(session, "record", [&] { return record_catalogs(*store, catalogs, request.today); });
  return {ExitCode::done,
          in_form(
              session,
              [&] {
                return recordings_text(recordings, {session.width, UnitSystem::us});
              },
              [&] { return recordings_document(recordings); }, [&] { return recordings_csv(recordings); })};
}

}  // namespace teetally
