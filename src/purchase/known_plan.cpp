#include "purchase/known_plan.h"

#include <algorithm>

namespace teetally {
namespace {

bool set_pack(const PurchaseProblem& problem, const OrderLine& line, Plan& plan) {
  for (std::size_t p = 0; p < problem.packs.size(); ++p) {
    const PackOffer& offer = problem.packs[p];
    if (offer.catalog != line.catalog || offer.item != line.item || offer.pack != line.pack) continue;
    plan.lots[p] = line.count / offer.packs_per_lot;
    return line.count % offer.packs_per_lot == 0;
  }
  return false;
}

bool set_change(const BundleOffer& offer, const BundleChange& change, BundleCount& count) {
  if (change.content >= static_cast<int>(offer.parts.size())) return false;
  const std::vector<BundleChoice>& choices = offer.parts[change.content].choices;
  for (std::size_t c = 0; c < choices.size(); ++c) {
    if (choices[c].swap != change.swap) continue;
    count.changed[change.content][c] = change.times;
    return true;
  }
  return false;
}

bool set_bundle(const PurchaseProblem& problem, const OrderLine& line, Plan& plan) {
  for (std::size_t b = 0; b < problem.bundles.size(); ++b) {
    const BundleOffer& offer = problem.bundles[b];
    if (offer.catalog != line.catalog || offer.bundle != line.bundle) continue;
    plan.bundles[b].count = line.count;
    return std::all_of(line.changes.begin(), line.changes.end(),
                       [&](const BundleChange& change) { return set_change(offer, change, plan.bundles[b]); });
  }
  return false;
}

constexpr std::size_t kMostWork = 20'000'000;  // packs looked at in all: well under a second

class Trimming {
 public:
  Trimming(const PurchaseProblem& problem, Plan plan)
      : problem_(problem),
        plan_(std::move(plan)),
        best_(rank(problem_, plan_)),
        tries_left_(kMostWork / (1 + problem.packs.size())) {}

  Plan run() {
    while (best_ && (trim_packs() || trim_bundles())) {
    }
    return std::move(plan_);
  }

 private:
  // Keeps what was done to the plan if that is cheaper, else takes it back.
  template <typename Value>
  bool keep(Value& value, Value before) {
    if (tries_left_ == 0) {
      value = std::move(before);
      return false;
    }
    --tries_left_;
    const std::optional<Rank> now = rank(problem_, plan_);
    if (now && *now < *best_) {
      best_ = now;
      return true;
    }
    value = std::move(before);
    return false;
  }

  bool trim_packs() {
    bool any = false;
    for (std::size_t p = 0; p < plan_.lots.size(); ++p) {
      for (bool again = true; again && plan_.lots[p] > 0;) {
        const std::int64_t before = plan_.lots[p];
        plan_.lots[p] = before > problem_.packs[p].prices.front().from ? before - 1 : 0;
        again = keep(plan_.lots[p], before);
        any = any || again;
      }
    }
    return any;
  }

  bool trim_bundles() {
    bool any = false;
    for (std::size_t b = 0; b < plan_.bundles.size(); ++b) {
      BundleCount& bundle = plan_.bundles[b];
      if (bundle.count == 1) {
        const BundleCount before = bundle;
        bundle = empty_plan(problem_).bundles[b];
        any = keep(bundle, before) || any;
      }
      if (bundle.count == 1) any = change_parts(b) || any;
    }
    return any;
  }

  bool change_parts(std::size_t b) {
    bool any = false;
    for (std::vector<std::int64_t>& changed : plan_.bundles[b].changed) {
      for (std::size_t c = 0; c <= changed.size() && !changed.empty(); ++c) {
        const std::vector<std::int64_t> before = changed;
        std::fill(changed.begin(), changed.end(), 0);
        if (c < changed.size()) changed[c] = 1;
        if (changed != before) any = keep(changed, before) || any;
      }
    }
    return any;
  }

  const PurchaseProblem& problem_;
  Plan plan_;
  std::optional<Rank> best_;
  std::size_t tries_left_;
};

}  // namespace

Plan trimmed(const PurchaseProblem& problem, Plan plan) { return Trimming(problem, std::move(plan)).run(); }

std::optional<Plan> plan_of(const PurchaseProblem& problem, const Purchase& purchase) {
  if (purchase.outcome != Outcome::bought) return std::nullopt;
  Plan plan = empty_plan(problem);
  for (const SupplierOrder& order : purchase.orders) {
    for (const OrderLine& line : order.lines) {
      if (!(line.bundle < 0 ? set_pack(problem, line, plan) : set_bundle(problem, line, plan))) return std::nullopt;
    }
  }
  for (std::size_t system = 0; system < plan.family.size(); ++system) {
    plan.family[system] = std::max(0, purchase.family_of_system[system]);
  }
  for (std::size_t j = 0; j < problem.joins.size(); ++j) {
    for (const JoinReason& join : purchase.joins) {
      if (join.need == problem.joins[j].need) plan.joins[j] += join.amount;
    }
  }
  return plan;
}

}  // namespace teetally
