// Which product serves which need: a largest flow from what is bought to what is needed, in integers, by
// augmenting paths. The networks are small (one node per need and product), so the plainest method serves.
#include <algorithm>
#include <deque>

#include "purchase/plan.h"

namespace teetally {
namespace {

bool allowed(const ServingOption& serving, const std::vector<int>& family) {
  return std::all_of(serving.conditions.begin(), serving.conditions.end(),
                     [&](const FamilyCondition& c) { return c.allowed[family[c.system]]; });
}

struct Network {
  const PurchaseProblem& problem;
  std::vector<std::int64_t> left;                     // of each product
  std::vector<std::int64_t> lacking;                  // of each need
  std::vector<std::int64_t> flow;                     // by serving
  std::vector<std::vector<int>> of_product, of_need;  // servings that may be used
};

// Sends what is directly possible, serving by serving.
void fill(Network& f) {
  for (std::size_t v = 0; v < f.problem.needs.size(); ++v) {
    for (int s : f.of_need[v]) {
      const int product = f.problem.servings[s].product;
      const std::int64_t amount = std::min(f.left[product], f.lacking[v]);
      f.flow[s] += amount;
      f.left[product] -= amount;
      f.lacking[v] -= amount;
    }
  }
}

// One augmenting path to `need`: alternately a serving used forwards and one used backwards, found breadth
// first from the need. Answers how much it brought.
std::int64_t augment(Network& f, int need) {
  std::vector<int> via_product(f.left.size(), -1), via_need(f.lacking.size(), -1);  // serving that led there
  std::deque<int> needs{need};
  via_need[need] = -2;
  while (!needs.empty()) {
    const int at = needs.front();
    needs.pop_front();
    for (int s : f.of_need[at]) {
      const int product = f.problem.servings[s].product;
      if (via_product[product] >= 0) continue;
      via_product[product] = s;
      if (f.left[product] > 0) {
        std::int64_t amount = std::min(f.left[product], f.lacking[need]);
        for (int p = product;;) {
          const int to = f.problem.servings[via_product[p]].need;
          if (via_need[to] == -2) break;
          amount = std::min(amount, f.flow[via_need[to]]);
          p = f.problem.servings[via_need[to]].product;
        }
        f.left[product] -= amount;
        f.lacking[need] -= amount;
        for (int p = product;;) {
          const int to = f.problem.servings[via_product[p]].need;
          f.flow[via_product[p]] += amount;
          if (via_need[to] == -2) break;
          f.flow[via_need[to]] -= amount;
          p = f.problem.servings[via_need[to]].product;
        }
        return amount;
      }
      for (int back : f.of_product[product]) {
        const int other = f.problem.servings[back].need;
        if (f.flow[back] > 0 && via_need[other] == -1) {
          via_need[other] = back;
          needs.push_back(other);
        }
      }
    }
  }
  return 0;
}

}  // namespace

std::optional<std::vector<std::int64_t>> allot(const PurchaseProblem& problem, const Plan& plan) {
  Network f{problem, bought(problem, plan), {}, std::vector<std::int64_t>(problem.servings.size(), 0), {}, {}};
  for (std::size_t need = 0; need < problem.needs.size(); ++need) {
    f.lacking.push_back(wanted(problem, plan, static_cast<int>(need)));
  }
  f.of_product.resize(problem.products.size());
  f.of_need.resize(problem.needs.size());
  for (std::size_t s = 0; s < problem.servings.size(); ++s) {
    if (!allowed(problem.servings[s], plan.family)) continue;
    f.of_product[problem.servings[s].product].push_back(static_cast<int>(s));
    f.of_need[problem.servings[s].need].push_back(static_cast<int>(s));
  }
  fill(f);
  for (std::size_t need = 0; need < problem.needs.size(); ++need) {
    while (f.lacking[need] > 0) {
      if (augment(f, static_cast<int>(need)) == 0) return std::nullopt;
    }
  }
  return f.flow;
}

}  // namespace teetally
