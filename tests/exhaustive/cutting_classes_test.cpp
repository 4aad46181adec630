// One-dimensional cutting, generated in the style of published classes (our own numbers): pieces drawn evenly over a
// range (Falkenauer, J. Heuristics 2, 1996, "uniform"), pieces in threes that fill a coil exactly (the same,
// "triplets"), pieces much alike (Schwerin and Waescher, ITOR 4, 1997), and
// pieces of which at most two go into a coil, where total length says little. The fewest coils that cut() accepts must
// be the optimum of the arc-flow model (Valerio de Carvalho, Annals of OR 86, 1999) in another solver, and no fewer
// than total length asks.
#include <boost/test/unit_test.hpp>
#include <map>
#include <numeric>
#include <random>

#include "exhaustive/second_solver.h"
#include "places.h"
#include "purchase/cut/task.h"

using namespace teetally;
using namespace teetally::test;

namespace {

struct Sizes {
  std::int64_t coil = 0;
  std::vector<std::int64_t> pieces;
};

std::int64_t between(std::minstd_rand& dice, std::int64_t low, std::int64_t high) {
  return low + static_cast<std::int64_t>(dice()) % (high - low + 1);
}

Sizes drawn(unsigned seed, std::int64_t coil, std::int64_t low, std::int64_t high, int count) {
  std::minstd_rand dice(seed * 7919);
  Sizes sizes{coil, {}};
  for (int i = 0; i < count; ++i) sizes.pieces.push_back(between(dice, low, high));
  return sizes;
}

// Each three fill a coil: one piece of 38 to 49 %, one of at least a quarter, and what is left.
Sizes triplets(unsigned seed, int threes) {
  std::minstd_rand dice(seed * 104729);
  Sizes sizes{1000, {}};
  for (int i = 0; i < threes; ++i) {
    const std::int64_t first = between(dice, 380, 490), second = between(dice, 250, (1000 - first) / 2);
    for (const std::int64_t length : {first, second, 1000 - first - second}) sizes.pieces.push_back(length);
  }
  return sizes;
}

CutTask task_of(const Sizes& sizes, std::int64_t coils) {
  std::map<std::int64_t, std::int64_t, std::greater<>> counts;
  for (const std::int64_t length : sizes.pieces) ++counts[length];
  CutTask task;
  task.coils.push_back({sizes.coil, 1, coils});
  for (const auto& [length, count] : counts) task.pieces.push_back({length, 0, false, count});
  return task;
}

// The fewest coils, and that one fewer is refused; zero when a question stays open.
std::int64_t fewest_coils(const Sizes& sizes, std::int64_t from) {
  for (std::int64_t coils = from;; ++coils) {
    const CutAnswer answer = cut(task_of(sizes, coils), 20'000'000);
    if (answer.cuttable == Cuttable::yes) return coils;
    if (answer.cuttable == Cuttable::unknown) return 0;
  }
}

// Flow from 0 to the end of a coil; an arc is a piece or, from where a piece can end, the rest of the coil.
LinearModel arc_flow(const Sizes& sizes, Terms& goal) {
  LinearModel model;
  std::map<std::int64_t, std::int64_t, std::greater<>> counts;
  for (const std::int64_t length : sizes.pieces) ++counts[length];
  const auto most = static_cast<double>(sizes.pieces.size());
  const auto column = [&] {
    model.columns.push_back({0, most, true});
    return static_cast<int>(model.columns.size()) - 1;
  };
  std::map<std::int64_t, Terms> balance;  // what arrives less what leaves
  std::vector<bool> reached(sizes.coil + 1, false);
  reached[0] = true;
  for (const auto& [length, count] : counts) {
    Terms of_length;
    std::map<std::int64_t, bool> begun;
    for (std::int64_t first = 0; first <= sizes.coil; ++first) {
      if (!reached[first]) continue;
      std::int64_t at = first;
      for (std::int64_t n = 0; n < count && at + length <= sizes.coil; ++n, at += length) begun[at] = true;
    }
    for (const auto& [at, yes] : begun) {
      const int arc = column();
      of_length.push_back({arc, 1});
      balance[at].push_back({arc, -1});
      balance[at + length].push_back({arc, 1});
      reached[at + length] = true;
    }
    model.rows.push_back({static_cast<double>(count), 1e308, of_length});
  }
  for (std::int64_t at = 1; at < sizes.coil; ++at) {
    if (!reached[at]) continue;
    const int rest = column();
    balance[at].push_back({rest, -1});
    balance[sizes.coil].push_back({rest, 1});
  }
  for (const auto& [at, terms] : balance) {
    if (at > 0 && at < sizes.coil) model.rows.push_back({0, 0, terms});
  }
  for (const auto& [arc, sign] : balance[0]) goal.push_back({arc, -sign});
  return model;
}

struct Tally {
  int compared = 0, open = 0, above_length = 0;
};

void compare(const Sizes& sizes, const std::string& name, Tally& tally) {
  const std::int64_t total = std::accumulate(sizes.pieces.begin(), sizes.pieces.end(), std::int64_t{0});
  const std::int64_t least = (total + sizes.coil - 1) / sizes.coil;
  const std::int64_t mine = fewest_coils(sizes, least);
  BOOST_TEST(mine > 0, name << ": left open");
  Terms goal;
  const LinearModel model = arc_flow(sizes, goal);
  const SecondAnswer other = solve_with_second(model, goal, std::string(TEETALLY_BUILD_DIR) + "/cutting_classes");
  if (!other.optimal) {
    ++tally.open;
    return;
  }
  BOOST_TEST(static_cast<double>(mine) == other.objective, name << ": " << mine << " against " << other.objective);
  ++tally.compared;
  tally.above_length += mine > least ? 1 : 0;
}

}  // namespace

BOOST_AUTO_TEST_CASE(published_styles_of_cutting_agree_with_the_arc_flow_model) {
  if (!have_second_solver()) return;
  Tally tally;
  for (unsigned seed = 1; seed <= 16; seed += TEETALLY_EVERY) {
    compare(drawn(seed, 150, 20, 100, 24), "uniform" + std::to_string(seed), tally);
    compare(triplets(seed, 5), "triplets" + std::to_string(seed), tally);
    compare(drawn(seed, 1000, 150, 200, 26), "alike" + std::to_string(seed), tally);
    compare(drawn(seed, 100, 34, 60, 25), "large" + std::to_string(seed), tally);
  }
  BOOST_TEST_MESSAGE(tally.compared << " compared, " << tally.open << " left open by the other solver, "
                                    << tally.above_length << " above what total length asks");
  if (TEETALLY_EVERY == 1) BOOST_TEST(tally.compared >= 48);
  if (TEETALLY_EVERY == 1) BOOST_TEST(tally.above_length >= 10);
}

// Larger ones without another solver: the optimum of triplets is known from how they were made.
BOOST_AUTO_TEST_CASE(larger_triplets_fill_every_coil) {
  for (unsigned seed = 1; seed <= 10; seed += TEETALLY_EVERY) {
    BOOST_TEST(fewest_coils(triplets(seed + 100, 20), 20) == 20, "seed " << seed);
  }
}
