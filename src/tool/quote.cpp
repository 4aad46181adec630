#include "teetally/render/quote.h"

#include <stdexcept>

#include "teetally/render/workbooks.h"
#include "teetally/store/quotes.h"
#include "tool/commands.h"
#include "tool/pipeline.h"
#include "tool/quote_number.h"
#include "tool/quote_options.h"
#include "tool/store_file.h"
#include "tool/templates.h"

namespace teetally {
namespace {

std::optional<Job> job_of(Session& session, const Bought& bought) {
  const Source source = read_input(*session.request.job, session.diagnostics);
  if (!source) return std::nullopt;
  auto job = read_job(source, bought.vocabulary, bought.book.catalogs.front()->currency,
                      bought.site ? Beds::counted : Beds::not_counted, session.diagnostics);
  if (session.diagnostics.has_errors()) return std::nullopt;
  return job;
}

std::optional<Quote> quote_of(Session& session, const Bought& bought, const Job& job,
                              const std::vector<Bought>& options) {
  try {
    const QuoteInput input{bought.book, bought.purchase, job, session.request.today, bought.units, beds_of(bought)};
    Quote quote = make_quote(input);
    std::vector<Alternative> alternatives;
    for (const Bought& option : options) alternatives.push_back({option.book, option.purchase, beds_of(option)});
    add_options(quote, input, alternatives);
    return quote;
  } catch (const std::overflow_error&) {
    session.diagnostics.error("quote/too-large", {}, "the figures of the job come to more money than can be counted")
        .help = "look for a figure that is too large: hours, rates, percentages";
    return std::nullopt;
  }
}

// Nothing is shown that was to be kept and could not be.
bool keep(Session& session, const Bought& bought, Quote& quote) {
  const Request& request = session.request;
  if (!request.keep && !request.revise) return true;
  auto store = open_store(session, StoreUse::write);
  if (!store) return false;
  const std::vector<OrderedFrom> orders = ordered_from(bought.book, bought.purchase, bought.units);
  if (request.revise) {
    revise_quote(*store, *request.revise, quote, orders, session.diagnostics);
  } else {
    keep_quote(*store, quote, orders);
  }
  return !session.diagnostics.has_errors();
}

std::string in_asked_form(Session& session, const Quote& quote, const OwnTemplates& own, const Page& page) {
  if (session.request.format == Format::xlsx) {
    return session.request.internal_copy ? internal_quote_workbook(quote) : quote_workbook(quote.copy);
  }
  if (session.request.internal_copy) {
    return in_form(
        session, [&] { return internal_quote_text(quote, page); }, [&] { return internal_quote_document(quote); },
        [&] { return internal_quote_csv(quote); },
        [&] { return internal_quote_page(quote, own, session.diagnostics); });
  }
  return in_form(
      session, [&] { return quote_text(quote.copy, page); }, [&] { return quote_document(quote.copy); },
      [&] { return quote_csv(quote.copy); }, [&] { return quote_page(quote.copy, own, session.diagnostics); });
}

}  // namespace

Answer run_quote(Session& session) {
  const Request& request = session.request;
  if (!request.job) {
    session.diagnostics.error("tool/no-job", {}, "no job is given to quote for").help =
        "name the file with customer, labour and profit: --job FILE; teetally init FOLDER writes a form of it";
    return stopped(session);
  }
  const auto own = templates_wanted(session);
  if (!own) return stopped(session);
  const auto bought = buy_all(session, request.arguments[0], false);
  if (!bought) return stopped(session);
  const auto job = job_of(session, *bought);
  if (!job) return stopped(session);
  const SizedGarden* sized = bought->sized ? &*bought->sized : nullptr;
  const Page page{session.width, bought->units};
  // What cannot be bought or will not work is not quoted: the order says what is in the way.
  const bool works = sized == nullptr || sized->verdict != Verdict::will_not_work;
  if (!works || bought->purchase.outcome != Outcome::bought) {
    show_instead(session);
    const OrderView view{bought->book, bought->purchase, sized};
    return {ExitCode::no_answer, request.format == Format::html
                                     ? order_page(view, page.units, *own, session.diagnostics)
                                     : order_text(view, page)};
  }
  const std::vector<Bought> options = buy_options(session, *job);
  if (session.diagnostics.has_errors()) return stopped(session);
  auto quote = quote_of(session, *bought, *job, options);
  if (!quote || !keep(session, *bought, *quote)) return stopped(session);
  return {ExitCode::done, in_asked_form(session, *quote, *own, page)};
}

Answer run_quote_show(Session& session) {
  const auto own = templates_wanted(session);
  if (!own) return stopped(session);
  const auto number = quote_number(session);
  if (!number) return stopped(session);
  const auto store = open_store(session, StoreUse::read);
  if (!store) return stopped(session);
  const auto kept = read_quote(*store, *number, session.request.revision, session.diagnostics);
  if (!kept) return stopped(session);
  return {ExitCode::done, in_asked_form(session, kept->quote, *own, {session.width, UnitSystem::us})};
}

}  // namespace teetally
