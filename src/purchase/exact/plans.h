#pragma once
// Plans for the exact search: the cheapest loose packs for given bundle counts and supplier states, a local
// search over bundle counts, and filler that lifts an order into a better bracket. Plans are only proposals:
// each is priced by rank() before it counts.
#include <map>
#include <optional>
#include <set>
#include <utility>
#include <vector>

#include "purchase/exact/filler.h"
#include "purchase/exact/group.h"
#include "purchase/plan.h"
#include "teetally/base/stopwatch.h"

namespace teetally {

class Plans {
 public:
  Plans(const ExactModel& model, Filler& filler, TimeLimit limit);

  // Looks for a plan better than `best` around a suggestion (a value for every variable: column counts, then
  // supplier states) and answers it with its worth.
  struct Found {
    Plan plan;
    Worth worth;
  };
  std::optional<Found> improve(const std::vector<int>& suggestion, const Worth& best);
  // The same for large orders, where bundle counts leave remainders everywhere: the counts are shaken, a given number
  // of times and less and less, before they settle. Same input, same shakes.
  std::optional<Found> shake(const std::vector<int>& suggestion, const Worth& best, std::int64_t shakes);
  // The same from nothing: all suppliers, each alone, then fewer of them while that helps.
  std::optional<Found> first(Worth best);

 private:
  using States = std::vector<int>;  // by supplier
  const std::vector<Table>& loose(const States& states);
  class Descent;
  struct Move;
  Move best_single(Descent& descent) const;
  Move best_pair(Descent& descent) const;
  double cost_with_credits(int group, const std::vector<int>& counts, const Table& table) const;
  enum class Steps { of_one, of_two };  // bundles changed at once
  void descend(std::vector<int>& counts, const States& states, Steps steps);
  void anneal(std::vector<int>& counts, const States& states, std::int64_t shakes);
  std::optional<Plan> build(const std::vector<int>& counts, const States& states) const;
  bool build_group(int group, const std::vector<int>& counts, const States& states, Plan& plan) const;
  std::optional<Found> priced(const std::vector<int>& counts, const States& states, const Worth& best) const;

  const ExactModel* model_;
  Filler* filler_;
  TimeLimit limit_;
  std::size_t most_tables_;
  std::vector<GroupChain> chains_;
  std::vector<bool> simple_;  // by group: one demand, nothing to be left out
  std::map<States, std::vector<Table>> tables_;
  mutable std::vector<std::pair<std::int64_t, double>> reached_, after_;  // scratch
  mutable std::vector<std::int64_t> next_;
  std::set<std::vector<int>> tried_;            // suggestions
  std::vector<int> last_counts_, last_states_;  // priced last, and not worth pricing again
};

}  // namespace teetally
