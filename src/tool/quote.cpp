#include "teetally/render/quote.h"

#include "tool/commands.h"
#include "tool/pipeline.h"

namespace teetally {
namespace {

std::optional<Job> job_of(Session& session, const Bought& bought) {
  const Source source = read_input(*session.request.job, session.diagnostics);
  if (!source) return std::nullopt;
  auto job = read_job(source, bought.vocabulary, bought.book.catalogs.front()->currency, session.diagnostics);
  if (session.diagnostics.has_errors()) return std::nullopt;
  return job;
}

}  // namespace

Answer run_quote(Session& session) {
  const Request& request = session.request;
  if (!request.job) {
    session.diagnostics.error("tool/no-job", {}, "no job is given to quote for").help =
        "name the file with customer, labour and profit: --job FILE";
    return stopped(session);
  }
  const auto bought = buy_all(session, request.arguments[0], false);
  if (!bought) return stopped(session);
  const auto job = job_of(session, *bought);
  if (!job) return stopped(session);
  const SizedGarden* sized = bought->sized ? &*bought->sized : nullptr;
  const Page page{session.width, bought->units};
  // What cannot be bought or will not work is not quoted: the order says what is in the way.
  const bool works = sized == nullptr || sized->verdict != Verdict::will_not_work;
  if (!works || bought->purchase.outcome != Outcome::bought) {
    return {ExitCode::no_answer, order_text({bought->book, bought->purchase, sized}, page)};
  }
  const Quote quote = make_quote({bought->book, bought->purchase, *job, request.today, page.units});
  if (request.internal_copy) {
    return {ExitCode::done,
            in_form(
                session, [&] { return internal_quote_text(quote, page); },
                [&] { return internal_quote_document(quote); }, [&] { return internal_quote_csv(quote); })};
  }
  return {ExitCode::done, in_form(
                              session, [&] { return quote_text(quote.copy, page); },
                              [&] { return quote_document(quote.copy); }, [&] { return quote_csv(quote.copy); })};
}

}  // namespace teetally
