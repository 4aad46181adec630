// Many plots, one order: bought, bought alone, shared out, and settled when it has come.
#include "teetally/quote/pool.h"

#include <algorithm>

#include "teetally/render/ledger.h"
#include "teetally/render/pool.h"
#include "teetally/render/pool_pages.h"
#include "tool/commands.h"
#include "tool/interrupt.h"
#include "tool/new_folder.h"
#include "tool/pool_steps.h"
#include "tool/store_file.h"

namespace teetally {
namespace {

bool has_plot(const PoolResult& result, const std::string& name) {
  return std::any_of(result.plots.begin(), result.plots.end(),
                     [&](const PlotShare& share) { return result.pool.plots[share.plot].name == name; });
}

// With --plot the page is its member's statement.
std::string summary(Session& session, const PoolResult& result, const Page& page, const OwnTemplates& own) {
  const std::vector<NextStep> steps = next_steps_of(result);
  const HandOut nothing;
  return in_form(
      session, [&] { return pool_text(result, steps, page); }, [&] { return pool_document(result, page.units); },
      [&] { return pool_csv(result); },
      [&] {
        return session.request.plot ? statements_page({result, nothing, session.request.plot}, own, session.diagnostics)
                                    : pool_page(result, steps, page.units, own, session.diagnostics);
      });
}

// What everybody owes goes into the ledger, as far as it is new there.
Answer booked(Session& session, const LedgerView& view, const Page& page) {
  Diagnostics& diagnostics = session.diagnostics;
  if (view.round.state == RoundState::open) {
    diagnostics.error("quote/too-early", view.round.place, "the round is open; what is due is booked once it is frozen")
        .help = "set 'state' to where the order is: open, frozen, ordered or received";
  }
  if (view.round.name.empty()) {
    diagnostics.error("quote/missing-key", view.round.place, "the round has no key 'name', and the ledger needs one")
        .help = "give it a name of its own, as in: name: Spring 2026";
  }
  if (interrupted()) {
    diagnostics.error("tool/stopped", {}, "stopped before everything was worked out; nothing is booked").help =
        "give the command again and let it finish";
  }
  if (diagnostics.has_errors()) return stopped(session);
  RoundToBook round{view.result.pool.name, view.round.name, view.result.pool.currency, {}};
  for (std::size_t l = 0; l < view.settled.lines.size(); ++l) {
    const Plot& plot = view.result.pool.plots[static_cast<std::size_t>(view.result.plots[l].plot)];
    round.dues.push_back({payer_of(plot), view.settled.lines[l].owes()});
  }
  auto store = open_store(session, StoreUse::write);
  const auto number =
      store ? book_dues(*store, round, "round " + to_text(view.round.state), session.request.today, diagnostics)
            : std::nullopt;
  const auto account = number ? round_account(*store, *number, diagnostics) : std::nullopt;
  if (!account || diagnostics.has_errors()) return stopped(session);
  return {ExitCode::done,
          in_form(
              session, [&] { return ledger_text(view, page) + "\nBooked as " + balances_text(*account, page); },
              [&] {
                return accounts_document({*account, std::nullopt});
              },
              [&] {
                return accounts_csv({*account, std::nullopt});
              })};
}

// The ledger of the round; or a paper of the order as it was sent.
Answer of_round(Session& session, const PoolResult& result, const Page& page, const OwnTemplates& own) {
  const auto round = round_of(session, result);
  if (!round) return stopped(session);
  PoolResult now = without_left(result, *round, session.request.limits);
  check_deliveries(*round, now, session.diagnostics);
  if (session.diagnostics.has_errors()) return stopped(session);
  if (session.request.paper != "summary") return {ExitCode::done, pool_paper(session, now, page, own)};
  const Settled settled = settle(result, now, hand_out(now), *round);
  const LedgerView view{result, *round, settled};
  if (session.request.book) return booked(session, view, page);
  return {ExitCode::done,
          in_form(
              session, [&] { return ledger_text(view, page); }, [&] { return ledger_document(view); },
              [&] { return ledger_csv(view); }, [&] { return round_page(view, own, session.diagnostics); })};
}

}  // namespace

std::optional<Round> round_of(Session& session, const PoolResult& result) {
  const Source source = read_source(*session.request.round, session.diagnostics);
  auto round = source ? read_round(source, result.pool.currency, session.diagnostics) : std::nullopt;
  if (round) check_round(*round, result, session.diagnostics);
  if (session.diagnostics.has_errors()) return std::nullopt;
  return round;
}

Answer run_pool(Session& session) {
  const auto own = templates_wanted(session);
  const auto& folder = session.request.folder;
  if (!own || (folder && !is_new_folder(*folder, session.diagnostics))) return stopped(session);
  const StopOnInterrupt watch(session.request.limits);
  auto result = buy_pool(session);
  if (!result) return stopped(session);
  const Page page{session.width, result->units};
  const Request& request = session.request;
  if (result->purchase.outcome != Outcome::bought) {
    show_instead(session);
    const OrderView order{result->book, result->purchase, nullptr};
    return {ExitCode::no_answer,
            in_form(
                session, [&] { return pool_text(*result, {}, page); },
                [&] { return pool_document(*result, page.units); }, [&] { return pool_csv(*result); },
                [&] { return order_page(order, page.units, *own, session.diagnostics); })};
  }
  if (request.round) return of_round(session, *result, page, *own);
  if (request.plot && !has_plot(*result, *request.plot)) {
    session.diagnostics.error("tool/no-such-plot", {}, "no plot of this order is called " + quoted(*request.plot));
    return stopped(session);
  }
  if (request.paper != "summary") return {ExitCode::done, pool_paper(session, *result, page, *own)};
  if (request.plot && request.format == Format::text) {
    return {ExitCode::done, share_text(*result, *request.plot, page).value_or("")};
  }
  return {ExitCode::done, summary(session, *result, page, *own)};
}

}  // namespace teetally
