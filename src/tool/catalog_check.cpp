#include "tool/commands.h"
#include "tool/pipeline.h"
#include "tool/units_of_file.h"

namespace teetally {
namespace {

// Each catalog in the units it is written in, unless the user asks for others; of a table only the first keeps its
// header row.
template <typename ToText>
std::string each_in_its_units(const std::vector<Catalog>& catalogs, const Session& session, std::string_view between,
                              const ToText& one_text) {
  std::string out;
  for (const Catalog& catalog : catalogs) {
    const std::string one = one_text({catalog}, session.request.units.value_or(units_of_file(catalog.source)));
    if (out.empty()) {
      out = one;
    } else {
      out += between.empty() ? one.substr(one.find('\n') + 1) : std::string(between) + one;
    }
  }
  return out;
}

}  // namespace

Answer run_catalog_check(Session& session) {
  const Request& request = session.request;
  const auto vocabulary = read_vocabulary(session);
  if (!vocabulary) return stopped(session);
  const std::vector<Catalog> catalogs = timed(session, "catalog", [&] {
    return read_catalogs(request.arguments, *vocabulary, request.today, session.diagnostics);
  });
  if (session.diagnostics.has_errors()) return stopped(session);
  const std::string output = in_form(
      session,
      [&] {
        return each_in_its_units(catalogs, session, "\n", [&](const std::vector<Catalog>& one, UnitSystem units) {
          return catalogs_text(one, {session.width, units});
        });
      },
      [&] { return catalogs_document(catalogs); },
      [&] { return each_in_its_units(catalogs, session, "", catalogs_csv); });
  return {ExitCode::done, output};
}

}  // namespace teetally
