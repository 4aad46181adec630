#include "teetally/render/store.h"
#include "tool/commands.h"
#include "tool/pipeline.h"
#include "tool/quote_number.h"
#include "tool/store_file.h"
#include "tool/suppliers.h"

namespace teetally {
namespace {

bool same_currency(const std::vector<Catalog>& catalogs, const CustomerCopy& copy, Diagnostics& diagnostics) {
  const Currency& now = catalogs.front().currency;
  if (now.code == copy.currency.code) return true;
  diagnostics.error(
      "store/another-currency", {},
      "the catalogs are in " + now.code + ", quote " + std::to_string(copy.number) + " in " + copy.currency.code);
  return false;
}

}  // namespace

Answer run_quote_again(Session& session) {
  const Request& request = session.request;
  const auto number = quote_number(session);
  if (!number) return stopped(session);
  if (request.catalogs.empty()) {
    session.diagnostics.error("tool/no-catalogs", {}, "no catalogs are given to look prices up in").help =
        "name files or folders of suppliers' catalogs: --catalogs PATH...";
    return stopped(session);
  }
  const auto store = open_store(session, StoreUse::read);
  if (!store) return stopped(session);
  const auto kept = read_quote(*store, *number, request.revision, session.diagnostics);
  const auto vocabulary = read_vocabulary(session);
  if (!kept || !vocabulary) return stopped(session);
  const std::vector<Catalog> catalogs =
      timed(session, "catalog", [&] { return read_suppliers(session, request.catalogs, *vocabulary); });
  const CustomerCopy& copy = kept->quote.copy;
  if (session.diagnostics.has_errors() || !same_currency(catalogs, copy, session.diagnostics)) return stopped(session);
  const Repriced repriced = reprice(kept->orders, catalogs);
  return {repriced.now ? ExitCode::done : ExitCode::no_answer,
          in_form(
              session,
              [&] {
                return quote_again_text(copy, repriced, {session.width, UnitSystem::us});
              },
              [&] { return quote_again_document(copy, repriced); }, [&] { return quote_again_csv(copy, repriced); })};
}

}  // namespace teetally
