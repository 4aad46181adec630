#pragma once
// Many plots buy together: a pool file names plots, their members and designs; their takeoffs become one, which is
// bought once; and every different basket is bought alone too, to know what the pool saves. File format:
// docs/pool-file.md. What the order costs is shared out by teetally/quote/shares.h.
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "teetally/base.h"
#include "teetally/needs.h"
#include "teetally/offers.h"
#include "teetally/purchase.h"
#include "teetally/quote/shares.h"

namespace teetally {

// A part that a plot has already.
struct PartThere {
  PartSpec part;
  std::int64_t count = 1;
  Length length;  // kinds cut by length
  Place place;
};

// What a plot is built from: a design or a parts list with values for its parameters, less what it does without
// or has already. Plots whose works are equal are worked out once.
struct PlotWorks {
  std::string file;                        // as written: relative to the pool file
  std::map<std::string, std::string> set;  // parameters
  std::vector<std::string> without;        // kinds of part that are not wanted
  std::vector<PartThere> has;
};

struct Plot {
  std::string name, member;
  int works = -1;  // index into PoolFile::works
  std::optional<Money> cash_limit;
  bool takes_part = true;
  // Parts used by several plots and paid for by them: the plots' names; empty: by all.
  bool is_shared = false;
  std::vector<std::string> paid_by;
  Place paid_by_place;
  Place place;
};
std::string payer_of(const Plot& plot);  // its member; a plot without one stands for itself: "plot A1"

// What becomes of pieces that nobody asked for: into stock, or to those who use the same item, in proportion to what
// they use, by largest remainder. What is left of coils goes into stock.
enum class LeftoverRule { stock, by_use };

struct PoolFile {
  std::string name;
  Currency currency;
  Place currency_place;                     // unknown where the file states none
  std::vector<PlotWorks> works;             // each once
  std::vector<Plot> plots;                  // in file order, series laid out; shared parts after the plots
  std::optional<std::string> members_file;  // CSV, relative to the pool file
  Place members_place;
  bool families_per_plot = false;
  LeftoverRule leftovers = LeftoverRule::stock;
  std::vector<std::string> design_names;     // what a plot may name in `design`
  std::map<std::string, PlotWorks> designs;  // by name
  int refused = 0;                           // plots with errors that the rest goes on without
  std::set<std::string> refused_names;       // of those whose names are known: they may still be named as payers
  Source source;
};

// What becomes of a plot that has errors: they stop everything, or they are warnings and the rest goes on.
enum class BadPlots { stop, leave_out };
// Adds what was found with one plot to `diagnostics`; true when the plot is sound.
bool report_plot(const Diagnostics& found, BadPlots bad, Diagnostics& diagnostics);

// Without reading any other file. Any error answers nothing.
std::optional<PoolFile> read_pool(const Source& source, const Vocabulary& vocabulary, BadPlots bad,
                                  Diagnostics& diagnostics);
// Adds the plots of a CSV file: columns plot, member, design, and any of in, cash limit, without, has, set NAME.
void add_members(PoolFile& pool, const Source& csv, const Vocabulary& vocabulary, BadPlots bad,
                 Diagnostics& diagnostics);
// The catalogs' currency is the pool's; a pool file that states another is wrong.
void check_currency(PoolFile& pool, const Currency& of_catalogs, Diagnostics& diagnostics);
// Names once, payers known and named once, somebody there to buy. Plots of a name that is taken leave the pool.
void check_pool(PoolFile& pool, BadPlots bad, Diagnostics& diagnostics);

// Takes off what a plot does without, and what it has, as reasons of their own.
void adapt_takeoff(Takeoff& takeoff, const PlotWorks& works, const std::string& plot, const Vocabulary& vocabulary,
                   UnitSystem units, Diagnostics& diagnostics);

// One takeoff of many. Needs of equal part and systems are one; a need for tubing in long pieces stays apart from
// one that shorter coils on offer can serve too, so that a plot in the pool has the choice it has alone. Systems of
// one name are one and get one fit family; per plot each basket keeps its own. Every piece of tubing of every plot is
// a piece of the pool's need, its allowance included: by takeoff, then plot by plot; or once for each takeoff, which is
// enough to find offers by.
struct Pooled {
  Takeoff takeoff;
  std::vector<Basket> baskets;  // as the takeoffs given
};
struct PoolPart {
  const Takeoff* takeoff = nullptr;
  std::int64_t times = 0;  // plots that want it
  std::string who;         // "plot 'A1'" or "12 plots like 'A1'"
};
enum class PoolPieces { of_every_plot, once };
Pooled pool_takeoffs(const std::string& name, const std::vector<PoolPart>& parts, bool families_apart,
                     const std::vector<Catalog>& catalogs, PoolPieces pieces = PoolPieces::of_every_plot);
// The same with needs that the same offers serve under the same conditions made one. `book` has the offers for the
// pooled takeoff. Here pieces are those of every plot.
Pooled merge_alike(const Pooled& pooled, const std::vector<PoolPart>& parts, const OfferBook& book, UnitSystem units);

// The pool's offers for so much of its needs only.
OfferBook book_for(const OfferBook& pool, const std::vector<Basket>& baskets, const std::vector<std::int64_t>& times);
// Each different basket bought by itself, on so many threads; `limits.seconds` is for all of them together.
// Where an order is not proven cheapest, `least` is the best of the engine's bound and of a price list of its own.
std::vector<Alone> buy_alone(const OfferBook& pool, const std::vector<Basket>& baskets, const BuyLimits& limits,
                             int threads);
// The cost of every group of these sharers (at most kMostGrouped), from purchases of their joint baskets.
std::optional<GroupCosts> buy_as_groups(const OfferBook& pool, const std::vector<Basket>& baskets,
                                        const std::vector<Sharer>& sharers, const BuyLimits& limits, int threads);

// The whole answer.
struct PlotShare {
  int plot = -1;     // index into PoolFile::plots
  int basket = -1;   // index into Pooled::baskets
  Share share;       // of its own parts
  Money for_shared;  // its part of shared parts
  Money pays() const { return share.paid + for_shared; }
};
struct PoolResult {
  PoolFile pool;
  UnitSystem units = UnitSystem::us;  // of the first plot's design, or as asked for
  OfferBook book;
  Purchase purchase;
  std::vector<Basket> baskets;
  std::vector<Alone> alone;  // by basket
  PriceList prices;
  Shares shares;
  std::vector<PlotShare> plots;              // those that take part and are sound, shared parts not among them
  std::vector<PlotShare> shared;             // shared parts: what each costs
  std::vector<int> unpaid;                   // shared parts that are not bought: nobody who pays takes part (plots)
  int left_out = 0;                          // plots that take no part this time
  int refused = 0;                           // plots with errors that the rest went on without
  bool groups_unknown = false;               // the rule needs every group's cost, and that was not found
  std::optional<double> worst_excess;        // small pools: what the worst group pays above going alone
  std::vector<std::string> worst_group;      // its names
  std::optional<double> unavoidable_excess;  // small pools without a fair split: the least any split reaches
};
// Whether a rule needs to know what every group would pay; it then suits pools of at most kMostGrouped.
bool needs_groups(ShareRule rule);
// Splits the order among plots and shared parts, and the shared parts among those who pay for them.
void share_pool(PoolResult& result, ShareRule rule, const BuyLimits& limits, int threads);

}  // namespace teetally
