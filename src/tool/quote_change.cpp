#include "teetally/render/store.h"
#include "tool/commands.h"
#include "tool/quote_number.h"
#include "tool/store_file.h"

namespace teetally {
namespace {

// What the new revision is compared with: as asked, else what the customer accepted before it, else the one before it.
std::int64_t revision_before(const Request& request, const KeptQuote& kept) {
  const std::int64_t revision = kept.quote.copy.revision;
  if (request.against) return *request.against;
  if (kept.accepted && *kept.accepted < revision) return *kept.accepted;
  return revision - 1;
}

}  // namespace

Answer run_quote_change(Session& session) {
  const Request& request = session.request;
  const auto number = quote_number(session);
  if (!number) return stopped(session);
  const auto store = open_store(session, StoreUse::read);
  if (!store) return stopped(session);
  const auto after = read_quote(*store, *number, request.revision, session.diagnostics);
  if (!after) return stopped(session);
  const std::int64_t earlier = revision_before(request, *after);
  if (earlier < 1) {
    session.diagnostics
        .error("store/no-revision", {}, "quote " + std::to_string(*number) + " has no revision before the first")
        .help = "'teetally quote ... --revise " + std::to_string(*number) + "' makes a second one";
    return stopped(session);
  }
  if (earlier >= after->quote.copy.revision) {
    session.diagnostics
        .error("tool/bad-value", {},
               "--against is " + std::to_string(earlier) + "; expected a revision before " +
                   std::to_string(after->quote.copy.revision) + ", with which it is compared")
        .help = "the later one is the latest, or that of --revision";
    return stopped(session);
  }
  const auto before = read_quote(*store, *number, earlier, session.diagnostics);
  if (!before) return stopped(session);
  const QuoteChange change = change_between(before->quote.copy, after->quote.copy);
  return {ExitCode::done, in_form(
                              session,
                              [&] {
                                return quote_change_text(change, {session.width, UnitSystem::us});
                              },
                              [&] { return quote_change_document(change); }, [&] { return quote_change_csv(change); })};
}

}  // namespace teetally
