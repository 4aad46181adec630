// From a pool file to what can be bought for it: works are worked out once each, and their needs pooled.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "tool/pipeline.h"
#include "tool/pool_steps.h"
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

// A plot's works as far as its takeoff; equal ones are made once.
struct Worksite {
  std::optional<Takeoff> takeoff;
  std::vector<int> plots;
};

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
  Expansion(Session& session, const PoolFile& pool, const Vocabulary& vocabulary, const Practice& practice,
            UnitSystem units)
      : session_(session), pool_(pool), vocabulary_(vocabulary), practice_(practice), units_(units) {}

  // In an order that depends neither on the file's order nor on names of plots, so that shares do not either.
  std::vector<Worksite> expand() {
    std::map<std::string, Worksite> sites;
    std::vector<Worksite*> site_of(pool_.works.size(), nullptr);
    for (std::size_t p = 0; p < pool_.plots.size(); ++p) {
      const Plot& plot = pool_.plots[p];
      if (!plot.takes_part) continue;
      if (plot.is_shared && nobody_pays(plot)) {
        unpaid_.push_back(static_cast<int>(p));
        continue;
      }
      Worksite*& site = site_of[plot.works];
      if (site == nullptr) {
        const auto [found, is_new] = sites.try_emplace(key_of(pool_.works[plot.works]));
        site = &found->second;
        if (is_new) site->takeoff = take_off(plot);
      }
      if (plot.is_shared && !site->takeoff) refuse_shared(plot);
      site->plots.push_back(static_cast<int>(p));
      if (site->takeoff && !plot.is_shared) payers_.insert(plot.name);
    }
    std::vector<Worksite> in_order;
    for (auto& [key, site] : sites) in_order.push_back(std::move(site));
    return in_order;
  }

  // Shared parts that nobody who takes part pays for: they are not bought.
  const std::vector<int>& unpaid() const { return unpaid_; }

 private:
  // What several plots need cannot be left out like a plot.
  void refuse_shared(const Plot& shared) {
    if (session_.request.bad_plots == BadPlots::stop) return;  // its mistakes stop everything
    session_.diagnostics
        .error("tool/shared-part-bad", shared.place,
               fmt::format("the shared part {} cannot be worked out, and plots need it", quoted(shared.name)))
        .help = "mend its design, or take the part out of 'shared'";
  }

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

  static std::string name_of(const Plot& plot) {
    return (plot.is_shared ? "for shared part " : "for plot ") + quoted(plot.name);
  }

  std::optional<Takeoff> take_off(const Plot& plot) {
    const PlotWorks& works = pool_.works[plot.works];
    Diagnostics found;
    std::optional<Takeoff> takeoff;
    if (const Source source = source_of(works, found)) {
      const bool is_list = kind_of_file(source) == FileKind::parts_list;
      if (is_list) check_no_parameters(works, found);
      takeoff = is_list ? read_parts_list(source, vocabulary_, found) : of_design(source, works, found);
    }
    if (takeoff && !found.has_errors()) {
      adapt_takeoff(*takeoff, works, plot.name, vocabulary_, units_, found);
    }
    const bool sound = takeoff && !found.has_errors();
    Diagnostics noted;
    for (Diagnostic& d : found.in_order()) {
      if (!told_.insert(to_text(d)).second) continue;  // a file that several plots share is wrong once
      if (d.place.known()) d.notes.push_back({name_of(plot), plot.place});
      if (!d.place.known()) d.place = plot.place;  // where the file is named
      noted.add(std::move(d));
    }
    report_plot(noted, session_.request.bad_plots, session_.diagnostics);
    if (!sound) return std::nullopt;
    return takeoff;
  }

  static void check_no_parameters(const PlotWorks& works, Diagnostics& found) {
    if (works.set.empty()) return;
    found
        .error("tool/set-for-parts-list", Place{},
               fmt::format("{} is set, and {} is a parts list, which has no parameters",
                           quoted(works.set.begin()->first), works.file))
        .help = "take 'set' out, or name a design";
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
  UnitSystem units_;
  std::map<std::string, Source> sources_;
  std::set<std::string> told_;    // complaints
  std::set<std::string> payers_;  // plots that are bought for
  std::vector<int> unpaid_;       // plots
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

// What the first plot's design is written in, unless the user asks for one.
UnitSystem units_of_pool(const Session& session, const PoolFile& pool) {
  if (session.request.units) return *session.request.units;
  for (const Plot& plot : pool.plots) {
    Diagnostics ignored;  // whoever reads the design for its content reports what is wrong with it
    const std::string path = beside(session.request.arguments[0], pool.works[plot.works].file);
    if (const Source source = read_source(path, ignored)) return units_of_file(source);
  }
  return UnitSystem::us;
}

std::optional<PoolFile> pool_of(Session& session, const Vocabulary& vocabulary) {
  const std::string& path = session.request.arguments[0];
  const BadPlots bad = session.request.bad_plots;
  const Source source = read_input(path, session.diagnostics);
  if (!source) return std::nullopt;
  auto pool = timed(session, "pool file", [&] {
    auto read = read_pool(source, vocabulary, bad, session.diagnostics);
    if (!read || !read->members_file) return read;
    Diagnostics found;
    const Source csv = read_source(beside(path, *read->members_file), found);
    for (Diagnostic& d : found.in_order()) {
      if (!d.place.known()) d.place = read->members_place;  // where the file is named
      session.diagnostics.add(std::move(d));
    }
    if (csv) add_members(*read, csv, vocabulary, bad, session.diagnostics);
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

}  // namespace

std::optional<PoolResult> gather_pool(Session& session) {
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
  result.units = units_of_pool(session, result.pool);
  result.refused = result.pool.refused;
  for (const Plot& plot : result.pool.plots) result.left_out += plot.takes_part || plot.is_shared ? 0 : 1;
  const std::vector<Worksite> sites = timed(session, "expansion", [&] {
    Expansion expansion(session, result.pool, *vocabulary, *practice, result.units);
    std::vector<Worksite> expanded = expansion.expand();
    result.unpaid = expansion.unpaid();
    return expanded;
  });
  note_size(session, counted(static_cast<std::int64_t>(sites.size()), "different plot"));
  std::vector<Catalog> catalogs =
      timed(session, "catalog", [&] { return read_suppliers(session, session.request.catalogs, *vocabulary); });
  if (session.diagnostics.has_errors()) return std::nullopt;
  check_currency(result.pool, catalogs.front().currency, session.diagnostics);
  if (session.diagnostics.has_errors()) return std::nullopt;
  if (session.request.from_stock) add_stock(session, catalogs);
  if (session.diagnostics.has_errors()) return std::nullopt;
  const std::vector<PoolPart> parts = parts_of(sites, result);
  if (!can_share(session, result)) return std::nullopt;
  const UnitSystem units = result.units;
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

}  // namespace teetally
