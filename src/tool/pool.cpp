// Many plots, one order: works are worked out once each, pooled, bought, bought alone, and shared out.
#include "teetally/quote/pool.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>
#include <thread>

#include "teetally/render/ledger.h"
#include "teetally/render/pool.h"
#include "teetally/render/pool_papers.h"
#include "teetally/render/round.h"
#include "tool/commands.h"
#include "tool/pipeline.h"
#include "tool/store_file.h"
#include "tool/suppliers.h"
#include "tool/units_of_file.h"

namespace teetally {
namespace {

std::optional<Practice> practice_of(Session& session) {
  if (!session.request.practice) return shipped_practice();
  const Source source = read_input(*session.request.practice, session.diagnostics);
  if (!source) return std::nullopt;
  Practice practice = read_practice(source, session.diagnostics);
  if (session.diagnostics.has_errors()) return std::nullopt;
  return practice;
}

// Plots that need nothing are bought nothing for.
Purchase bought(const OfferBook& book, const BuyLimits& limits) {
  if (!book.takeoff.needs.empty()) return buy(book, limits);
  Purchase nothing;
  nothing.outcome = Outcome::bought;
  nothing.proof.proven = true;
  return nothing;
}

// A plot's works as far as its takeoff; equal ones are made once.
struct Worksite {
  std::optional<Takeoff> takeoff;
  std::vector<int> plots;
};

std::string beside(const std::string& pool_path, const std::string& file) {
  if (std::filesystem::path(file).is_absolute()) return file;
  return (std::filesystem::path(pool_path).parent_path() / file).lexically_normal().string();
}

// Equal works have equal keys.
std::string key_of(const PlotWorks& works) {
  Json key = Json::array();
  key.push(works.file);
  for (const auto& [name, value] : works.set) key.push(name).push(value);
  for (const std::string& kind : works.without) key.push("-" + kind);
  for (const PartThere& owned : works.has) {
    key.push(to_json(owned.part)).push(owned.count).push(owned.length.tenths_mm);
  }
  return to_text(key, -1);
}

class Expansion {
 public:
  Expansion(Session& session, const PoolFile& pool, const Vocabulary& vocabulary, const Practice& practice)
      : session_(session), pool_(pool), vocabulary_(vocabulary), practice_(practice) {}

  // In an order that depends neither on the file's order nor on names of plots, so that shares do not either.
  std::vector<Worksite> expand() {
    std::map<std::string, Worksite> sites;
    std::vector<Worksite*> site_of(pool_.works.size(), nullptr);
    for (std::size_t p = 0; p < pool_.plots.size(); ++p) {
      const Plot& plot = pool_.plots[p];
      if (!plot.takes_part || (plot.is_shared && nobody_pays(plot))) continue;
      Worksite*& site = site_of[plot.works];
      if (site == nullptr) {
        const auto [found, is_new] = sites.try_emplace(key_of(pool_.works[plot.works]));
        site = &found->second;
        if (is_new) site->takeoff = take_off(plot);
      }
      site->plots.push_back(static_cast<int>(p));
      if (site->takeoff && !plot.is_shared) payers_.insert(plot.name);
    }
    std::vector<Worksite> in_order;
    for (auto& [key, site] : sites) in_order.push_back(std::move(site));
    return in_order;
  }

 private:
  // Shared parts come after the plots.
  bool nobody_pays(const Plot& shared) const {
    return !shared.paid_by.empty() && std::none_of(shared.paid_by.begin(), shared.paid_by.end(),
                                                   [&](const std::string& plot) { return payers_.contains(plot); });
  }

  Source source_of(const PlotWorks& works, Diagnostics& found) {
    const std::string path = beside(session_.request.arguments[0], works.file);
    Source& source = sources_[path];
    if (!source) source = read_source(path, found);
    return source;
  }

  std::optional<Takeoff> take_off(const Plot& plot) {
    const PlotWorks& works = pool_.works[plot.works];
    Diagnostics found;
    std::optional<Takeoff> takeoff;
    if (const Source source = source_of(works, found)) {
      takeoff = kind_of_file(source) == FileKind::parts_list ? read_parts_list(source, vocabulary_, found)
                                                             : of_design(source, works, found);
    }
    if (takeoff && !found.has_errors()) {
      adapt_takeoff(*takeoff, works, plot.name, vocabulary_, session_.request.units.value_or(UnitSystem::us), found);
    }
    const bool sound = takeoff && !found.has_errors();
    Diagnostics noted;
    for (Diagnostic& d : found.in_order()) {
      d.notes.push_back({"for plot " + quoted(plot.name), plot.place});
      noted.add(std::move(d));
    }
    report_plot(noted, session_.request.bad_plots, session_.diagnostics);
    if (!sound) return std::nullopt;
    return takeoff;
  }

  std::optional<Takeoff> of_design(const Source& source, const PlotWorks& works, Diagnostics& found) {
    const Site site = read_design(source, vocabulary_, works.set, found);
    if (found.has_errors()) return std::nullopt;
    Garden garden = lay_out(site, practice_, found);
    if (found.has_errors()) return std::nullopt;
    const UnitSystem units = session_.request.units.value_or(site.units);
    const SizedGarden sized = size_garden(std::move(garden), practice_, units, found);
    if (found.has_errors()) return std::nullopt;
    if (sized.verdict == Verdict::will_not_work) {
      found.error("tool/plot-will-not-work", Place{source, 1, 1}, "this design will not work at its tap").help =
          "teetally check says why";
      return std::nullopt;
    }
    return teetally::take_off(sized, practice_, vocabulary_, units, found);
  }

  Session& session_;
  const PoolFile& pool_;
  const Vocabulary& vocabulary_;
  const Practice& practice_;
  std::map<std::string, Source> sources_;
  std::set<std::string> payers_;  // plots that are bought for
};

std::string who(const PoolFile& pool, const Worksite& site) {
  const std::string first = quoted(pool.plots[site.plots[0]].name);
  if (site.plots.size() == 1) return "plot " + first;
  return counted(static_cast<std::int64_t>(site.plots.size()), "plot") + " like " + first;
}

// The sound sites as parts of the pool, and each plot's line.
std::vector<PoolPart> parts_of(const std::vector<Worksite>& sites, PoolResult& result) {
  std::vector<PoolPart> parts;
  for (const Worksite& site : sites) {
    if (!site.takeoff) result.refused += static_cast<int>(site.plots.size());
    if (!site.takeoff) continue;
    for (const int p : site.plots) {
      const int basket = static_cast<int>(parts.size());
      (result.pool.plots[p].is_shared ? result.shared : result.plots).push_back({p, basket, {}, {}});
    }
    parts.push_back({&*site.takeoff, static_cast<std::int64_t>(site.plots.size()), who(result.pool, site)});
  }
  const auto by_plot = [](const PlotShare& a, const PlotShare& b) { return a.plot < b.plot; };
  std::sort(result.plots.begin(), result.plots.end(), by_plot);
  std::sort(result.shared.begin(), result.shared.end(), by_plot);
  return parts;
}

std::optional<PoolFile> pool_of(Session& session, const Vocabulary& vocabulary) {
  const std::string& path = session.request.arguments[0];
  const BadPlots bad = session.request.bad_plots;
  const Source source = read_input(path, session.diagnostics);
  if (!source) return std::nullopt;
  auto pool = timed(session, "pool file", [&] {
    auto read = read_pool(source, vocabulary, bad, session.diagnostics);
    if (!read || !read->members_file) return read;
    if (const Source csv = read_source(beside(path, *read->members_file), session.diagnostics)) {
      add_members(*read, csv, vocabulary, bad, session.diagnostics);
    }
    return read;
  });
  if (!pool) return std::nullopt;
  // Shared parts come after all plots.
  std::stable_partition(pool->plots.begin(), pool->plots.end(), [](const Plot& plot) { return !plot.is_shared; });
  check_pool(*pool, bad, session.diagnostics);
  note_size(session, counted(static_cast<std::int64_t>(pool->plots.size()), "plot"));
  if (session.diagnostics.has_errors()) return std::nullopt;
  return pool;
}

bool can_share(Session& session, const PoolResult& result) {
  const std::size_t sharers = result.plots.size() + result.shared.size();
  if (result.plots.empty()) {
    session.diagnostics.error("quote/no-plots", Place{result.pool.source, 1, 1}, "no plot of this pool is sound");
    return false;
  }
  if (!needs_groups(session.request.share_rule) || sharers <= kMostGrouped) return true;
  session.diagnostics
      .error("tool/too-many-for-rule", {},
             fmt::format("the rule '{}' looks at every group of plots, so it suits at most {} plots and shared parts; "
                         "this pool has {}",
                         to_text(session.request.share_rule), kMostGrouped, sharers))
      .help = "use another rule: --shares price-list (the usual one), alone, use or equal";
  return false;
}

// Everything up to what can be bought.
std::optional<PoolResult> gather(Session& session) {
  if (session.request.catalogs.empty()) {
    session.diagnostics.error("tool/no-catalogs", {}, "no catalogs are given to buy from").help =
        "name files or folders of suppliers' catalogs: --catalogs PATH...";
    return std::nullopt;
  }
  const auto vocabulary = read_vocabulary(session);
  const auto practice = vocabulary ? practice_of(session) : std::nullopt;
  auto pool = practice ? pool_of(session, *vocabulary) : std::nullopt;
  if (!pool) return std::nullopt;
  PoolResult result;
  result.pool = std::move(*pool);
  result.refused = result.pool.refused;
  for (const Plot& plot : result.pool.plots) result.left_out += plot.takes_part || plot.is_shared ? 0 : 1;
  const std::vector<Worksite> sites =
      timed(session, "expansion", [&] { return Expansion(session, result.pool, *vocabulary, *practice).expand(); });
  note_size(session, counted(static_cast<std::int64_t>(sites.size()), "different plot"));
  std::vector<Catalog> catalogs =
      timed(session, "catalog", [&] { return read_suppliers(session, session.request.catalogs, *vocabulary); });
  if (session.diagnostics.has_errors()) return std::nullopt;
  check_currency(result.pool, catalogs.front().currency, session.diagnostics);
  if (session.diagnostics.has_errors()) return std::nullopt;
  const std::vector<PoolPart> parts = parts_of(sites, result);
  if (!can_share(session, result)) return std::nullopt;
  const UnitSystem units = session.request.units.value_or(UnitSystem::us);
  timed(session, "pooling", [&] {
    const Pooled pooled =
        pool_takeoffs(result.pool.name, parts, result.pool.families_per_plot, catalogs, PoolPieces::once);
    const OfferBook apart = find_offers(pooled.takeoff, catalogs, *vocabulary, {}, units);
    Pooled merged = merge_alike(pooled, parts, apart, units);
    result.baskets = std::move(merged.baskets);
    result.book = find_offers(std::move(merged.takeoff), std::move(catalogs), *vocabulary, {}, units);
    return 0;
  });
  note_size(session, counted(static_cast<std::int64_t>(result.book.takeoff.needs.size()), "need"));
  check_limits(result.book, session.request.limits, session.diagnostics);
  if (session.diagnostics.has_errors()) return std::nullopt;
  return result;
}

std::optional<PoolResult> pool_all(Session& session) {
  auto result = gather(session);
  if (!result) return std::nullopt;
  const BuyLimits& limits = session.request.limits;
  const int cores = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
  result->purchase = timed(session, "purchase", [&] { return bought(result->book, limits); });
  note_size(session, counted(result->purchase.proof.nodes, "node"));
  if (result->purchase.outcome != Outcome::bought) return result;
  result->alone = timed(session, "alone", [&] { return buy_alone(result->book, result->baskets, limits, cores); });
  note_size(session, counted(static_cast<std::int64_t>(result->baskets.size()), "basket"));
  timed(session, "shares", [&] { return share_pool(*result, session.request.share_rule, limits, cores), 0; });
  return result;
}

bool has_plot(const PoolResult& result, const std::string& name) {
  return std::any_of(result.plots.begin(), result.plots.end(),
                     [&](const PlotShare& share) { return result.pool.plots[share.plot].name == name; });
}

std::string summary(const Session& session, const PoolResult& result, const Page& page) {
  return in_form(
      session, [&] { return pool_text(result, next_steps_of(result), page); },
      [&] { return pool_document(result, page.units); }, [&] { return pool_csv(result); });
}

std::string cuts(const Session& session, PoolResult& result, const Page& page) {
  name_pieces(result);
  const OrderView order{result.book, result.purchase, nullptr};
  return in_form(
      session, [&] { return cut_list_text(order, page); }, [&] { return cut_list_document(order, page.units); },
      [&] { return cut_list_csv(order, page.units); });
}

std::string paper(const Session& session, PoolResult& result, const Page& page) {
  if (session.request.paper == "cuts") return cuts(session, result, page);
  const OrderView order{result.book, result.purchase, nullptr};
  if (session.request.paper == "orders") {
    return in_form(
        session, [&] { return pool_orders_text(result, page); }, [&] { return order_document(order, page.units); },
        [&] { return order_csv(order, page.units); });
  }
  if (session.request.paper == "statements") {
    const HandOut nothing;
    const PaperView view{result, nothing, session.request.plot};
    return in_form(
        session, [&] { return statements_text(view, page); }, [&] { return statements_document(view); },
        [&] { return statements_csv(view); });
  }
  const HandOut out = hand_out(result);
  const PaperView view{result, out, session.request.plot};
  const bool picks = session.request.paper == "picks";
  return in_form(
      session, [&] { return picks ? picks_text(view, page) : packing_text(view, page); },
      [&] { return hand_out_document(view, page.units); },
      [&] { return picks ? picks_csv(view, page.units) : packing_csv(view); });
}

// The round asked for; nothing, with diagnostics, when it does not suit the order.
std::optional<Round> round_of(Session& session, const PoolResult& result) {
  const Source source = read_source(*session.request.round, session.diagnostics);
  auto round = source ? read_round(source, result.pool.currency, session.diagnostics) : std::nullopt;
  if (round) check_round(*round, result, session.diagnostics);
  if (session.diagnostics.has_errors()) return std::nullopt;
  return round;
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
Answer of_round(Session& session, const PoolResult& result, const Page& page) {
  const auto round = round_of(session, result);
  if (!round) return stopped(session);
  PoolResult now = without_left(result, *round, session.request.limits);
  check_deliveries(*round, now, session.diagnostics);
  if (session.diagnostics.has_errors()) return stopped(session);
  if (session.request.paper != "summary") return {ExitCode::done, paper(session, now, page)};
  const Settled settled = settle(result, now, hand_out(now), *round);
  const LedgerView view{result, *round, settled};
  if (session.request.book) return booked(session, view, page);
  return {ExitCode::done, in_form(
                              session, [&] { return ledger_text(view, page); }, [&] { return ledger_document(view); },
                              [&] { return ledger_csv(view); })};
}

}  // namespace

Answer run_pool(Session& session) {
  auto result = pool_all(session);
  if (!result) return stopped(session);
  const Page page{session.width, session.request.units.value_or(UnitSystem::us)};
  if (result->purchase.outcome != Outcome::bought) return {ExitCode::no_answer, summary(session, *result, page)};
  if (session.request.round) return of_round(session, *result, page);
  const auto& plot = session.request.plot;
  if (plot && !has_plot(*result, *plot)) {
    session.diagnostics.error("tool/no-such-plot", {}, "no plot of this order is called " + quoted(*plot));
    return stopped(session);
  }
  if (session.request.paper != "summary") return {ExitCode::done, paper(session, *result, page)};
  if (plot) return {ExitCode::done, share_text(*result, *plot, page).value_or("")};
  return {ExitCode::done, summary(session, *result, page)};
}

}  // namespace teetally
