#include "tool/commands.h"
#include "tool/pipeline.h"

namespace teetally {

Answer run_catalog_check(Session& session) {
  const Request& request = session.request;
  const auto vocabulary = read_vocabulary(session);
  if (!vocabulary) return stopped(session);
  const std::vector<Catalog> catalogs = timed(session, "catalog", [&] {
    return read_catalogs(request.arguments, *vocabulary, request.today, session.diagnostics);
  });
  if (session.diagnostics.has_errors()) return stopped(session);
  const UnitSystem units = request.units.value_or(UnitSystem::us);
  const std::string output = in_form(
      session,
      [&] {
        return catalogs_text(catalogs, {session.width, units});
      },
      [&] { return catalogs_document(catalogs); }, [&] { return catalogs_csv(catalogs, units); });
  return {ExitCode::done, output};
}

}  // namespace teetally
