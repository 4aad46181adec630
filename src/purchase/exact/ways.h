#pragma once
// SettledCounts bundle counts and supplier states leave separate parts: how each need group buys its loose packs and
// keeps or leaves out what bundles bring, what useless bundle parts are left out, and filler. This lists, for
// each part, the ways that matter: none that costs more without bringing any supplier nearer to its threshold.
#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "purchase/exact/group.h"
#include "purchase/plan.h"
#include "teetally/base/stopwatch.h"

namespace teetally {

inline constexpr int kMostWatched = 4;
using WatchedGoods = std::array<std::int64_t, kMostWatched>;

// What is settled, and the suppliers whose terms are watched: the goods spent there are kept apart.
struct SettledCounts {
  const ExactModel* model = nullptr;
  std::vector<int> counts;            // by column
  std::vector<SupplierState> states;  // by supplier
  std::vector<double> pressure;       // by supplier, as in the bound
  std::vector<int> watched;           // suppliers
  std::vector<int> slot;              // by supplier: index into `watched`, or -1
  TimeLimit limit{{}, 0};             // when to give up
  double rounding = 0;                // minor units that roundings can move two orders apart
};

// One decision of a way: lots of a pack, or bundles of a column whose part is left out.
struct Decision {
  int pack = -1;
  int bundle = -1, part = -1, choice = -1;
  std::int64_t amount = 0;
};
struct PartWay {
  WatchedGoods goods{};    // spent at watched suppliers
  std::int64_t other = 0;  // minor units spent at the others
  std::int64_t tie = 0;
  double linear = 0;  // minor units at the states' rates
  std::vector<Decision> decisions;
};
struct Part {
  std::vector<PartWay> ways;
  bool all = true;  // nothing was dropped for being out of reach
};

// One thing a part decides.
struct WayChoice {
  int supplier = -1;
  const GroupOffer* offer = nullptr;  // lots of a pack that serves the group
  const ColumnPart* kept = nullptr;   // a bundle part that serves the group
  int count = 0;                      // of bundles
  int bundle = -1, part = -1, out = -1;
  int pack = -1;
  std::int64_t credit = 0;
  std::int64_t tie = 0;  // of one lot, or saved by one part left out
  double scaled_tie = 0;
};
// What one part decides in turn, and, at the bound's prices, the least cost from each state to the end after each.
struct PartChoices {
  std::optional<GroupChain> chain;  // of a need group
  std::vector<WayChoice> choices;
  std::vector<Table> ends;
  double least() const { return ends.front().front(); }
};
std::vector<PartChoices> choices_of_parts(const SettledCounts& settled);
// Sets `ends`: once, and whenever the pressure has changed.
void price(const SettledCounts& settled, std::vector<PartChoices>& parts);
// Ways within `window` (scaled) of the best at the bound's prices; nullopt when there are too many, or no time is left.
std::optional<std::vector<Part>> list_ways(const SettledCounts& settled, const std::vector<PartChoices>& parts,
                                           double window);
// What is bought whatever the ways: the columns, and fixed charges of suppliers that are not watched.
PartWay settled_start(const SettledCounts& settled);
void add_to(const SettledCounts& settled, const Decision& decision, Plan& plan);

}  // namespace teetally
