#include "teetally/catalog/price_list.h"
#include "teetally/render/store.h"
#include "tool/commands.h"
#include "tool/pipeline.h"

namespace teetally {

Answer run_catalog_import(Session& session) {
  const Request& request = session.request;
  const std::string& file = request.arguments[1];
  const Source list = read_input(request.arguments[0], session.diagnostics);
  const Source catalog = read_source(file, session.diagnostics);
  const auto vocabulary = read_vocabulary(session);
  if (!list || !catalog || !vocabulary) return stopped(session);
  const auto priced =
      timed(session, "import", [&] { return take_prices(catalog, list, *vocabulary, session.diagnostics); });
  if (!priced) return stopped(session);
  const PriceListReport& report = priced->report;
  const bool changes = !report.dearer.empty() || !report.cheaper.empty();
  if (changes && !request.report_only) write_file(file, priced->text);
  return {ExitCode::done, in_form(
                              session,
                              [&] {
                                return price_list_text(report, {session.width, UnitSystem::us});
                              },
                              [&] { return price_list_document(report); }, [&] { return price_list_csv(report); })};
}

}  // namespace teetally
