// How engines do on seeded purchases: a line per instance, then a summary per class and variant. Times are processor
// seconds of one thread, the first plan included. Figures to be looked at; nothing is asserted but that proven costs
// agree.
//
//   purchase_bench CLASS FIRST-SEED LAST-SEED VARIANTS SECONDS ENGINE...
//   purchase_bench L 1 20 plain,tiers,families,both 60 exact cbc
//
// The ratio is taken over instances that the first and the last engine both prove within SECONDS.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>
#include <vector>

#include "bench/purchase/classes.h"
#include "purchase/solver.h"

using namespace teetally;
using namespace teetally::bench;

namespace {

struct Run {
  Solved solved;
  double seconds = 0;
};

Run timed(const Engine& engine, const PurchaseProblem& problem, double limit) {
  const std::clock_t start = std::clock();  // of the processor: what else runs on the machine counts little
  Run run;
  run.solved = engine.solve(problem, {limit, first_plan(problem)});
  run.seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  return run;
}

std::int64_t cost_of(const PurchaseProblem& problem, const Solved& solved) {
  const auto ranked = solved.plan ? rank(problem, *solved.plan) : std::nullopt;
  return ranked ? ranked->cost : -1;
}

void print(const std::string& engine, std::vector<double> seconds, std::size_t proven) {
  std::sort(seconds.begin(), seconds.end());
  fmt::print("  {}: {} of {} proven, median {:.4f} s, worst {:.4f} s\n", engine, proven, seconds.size(),
             seconds[seconds.size() / 2], seconds.back());
}

// False when two engines prove different costs.
bool measure(const ProblemClass& of, const std::string& variant, unsigned first, unsigned last, double limit,
             const std::vector<const Engine*>& engines) {
  const bool both = variant == "both";
  std::vector<std::vector<double>> seconds(engines.size());
  std::vector<std::size_t> proven(engines.size(), 0);
  double log_ratio = 0;
  int compared = 0;
  bool agree = true;
  for (unsigned seed = first; seed <= last; ++seed) {
    const PurchaseProblem problem = generate(of, seed, both || variant == "tiers", both || variant == "families");
    std::vector<Run> runs;
    std::int64_t known = -1;
    for (std::size_t e = 0; e < engines.size(); ++e) {
      const Run& run = runs.emplace_back(timed(*engines[e], problem, limit));
      const std::int64_t cost = cost_of(problem, run.solved);
      fmt::print("{} {} {} {} cost {} bound {} {} {:.4f} s {} nodes\n", of.name, variant, seed, engines[e]->name, cost,
                 run.solved.lower_bound,
                 run.solved.ties_settled ? "proven with ties"
                 : run.solved.proven     ? "proven"
                                         : "open",
                 run.seconds, run.solved.nodes);
      std::fflush(stdout);
      seconds[e].push_back(run.seconds);
      proven[e] += run.solved.proven;
      if (run.solved.proven) {
        agree = agree && (known < 0 || known == cost);
        known = cost;
      }
    }
    if (runs.size() < 2 || !runs.front().solved.proven || !runs.back().solved.proven) continue;
    log_ratio += std::log(runs.back().seconds / runs.front().seconds);
    ++compared;
  }
  fmt::print("{} {}:\n", of.name, variant);
  for (std::size_t e = 0; e < engines.size(); ++e) print(engines[e]->name, seconds[e], proven[e]);
  if (compared > 0) {
    fmt::print("  {} over {}: {:.1f} times the time (geometric mean of {})\n", engines.back()->name,
               engines.front()->name, std::exp(log_ratio / compared), compared);
  }
  if (!agree) fmt::print("  PROVEN COSTS DIFFER\n");
  return agree;
}

}  // namespace

int main(int count, char** words) {
  const std::vector<std::string> given(words + 1, words + count);
  const auto of = std::find_if(problem_classes().begin(), problem_classes().end(),
                               [&](const ProblemClass& c) { return !given.empty() && c.name == given[0]; });
  std::vector<const Engine*> engines;
  for (std::size_t i = 5; i < given.size(); ++i) {
    if (const Engine* engine = find_engine(given[i])) engines.push_back(engine);
  }
  if (of == problem_classes().end() || engines.empty()) {
    fmt::print("usage: purchase_bench CLASS FIRST-SEED LAST-SEED VARIANTS SECONDS ENGINE...\n");
    return 2;
  }
  const auto first = static_cast<unsigned>(std::strtoul(given[1].c_str(), nullptr, 10));
  const auto last = static_cast<unsigned>(std::strtoul(given[2].c_str(), nullptr, 10));
  bool agree = true;
  for (const std::string variant : {"plain", "tiers", "families", "both"}) {
    if (("," + given[3] + ",").find("," + variant + ",") == std::string::npos) continue;
    agree = measure(*of, variant, first, last, std::strtod(given[4].c_str(), nullptr), engines) && agree;
  }
  return agree ? 0 : 1;
}
