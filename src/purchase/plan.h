#pragma once
// A plan is one answer to a PurchaseProblem: how many of each offer, and which fit family each system has. Its
// cost is computed here in integers and nowhere else inside the stage; the audit does it anew from catalogs.
#include <compare>
#include <cstdint>
#include <optional>
#include <vector>

#include "purchase/problem.h"

namespace teetally {

struct BundleCount {
  std::int64_t count = 0;
  std::vector<std::vector<std::int64_t>> changed;  // by part, then choice: in how many of the bundles
};
struct Plan {
  std::vector<std::int64_t> lots;    // by PurchaseProblem::packs
  std::vector<BundleCount> bundles;  // by PurchaseProblem::bundles
  std::vector<int> family;           // by system; 0 where there is nothing to choose
  std::vector<std::int64_t> joins;   // by PurchaseProblem::joins
};
Plan empty_plan(const PurchaseProblem& problem);

// Half a minor unit rounds up; safe for every amount below kMostGoods.
std::int64_t rounded_share(std::int64_t ppm, std::int64_t amount);

// What n lots cost; nullopt where so few (but some) are not sold. Zero lots cost nothing.
std::optional<std::int64_t> price_of_lots(const PackOffer& offer, std::int64_t lots);
// What an order of these goods costs in all; nullopt when the supplier does not deliver it.
std::optional<std::int64_t> cost_of_order(const SupplierTerms& terms, std::int64_t goods);

// What decides between plans, in this order.
struct Rank {
  std::int64_t cost = 0;
  std::int64_t suppliers = 0;
  std::int64_t packs = 0;   // packs and bundles
  std::int64_t pieces = 0;  // bought, so that fewer means fewer spares
  std::int64_t tenths_mm = 0;
  auto operator<=>(const Rank&) const = default;
};

// How much of each product the plan buys.
std::vector<std::int64_t> bought(const PurchaseProblem& problem, const Plan& plan);
// What a need asks for under the plan: one coupling more for every join.
std::int64_t wanted(const PurchaseProblem& problem, const Plan& plan, int need);
std::int64_t count_of(const Plan& plan, const CountTerm& term);
bool keeps_cut_rules(const PurchaseProblem& problem, const Plan& plan);
// What serves what: by PurchaseProblem::servings; nullopt when the needs are not met.
std::optional<std::vector<std::int64_t>> allot(const PurchaseProblem& problem, const Plan& plan);
// The plan's rank, or nullopt when it breaks any rule of the problem.
std::optional<Rank> rank(const PurchaseProblem& problem, const Plan& plan);

}  // namespace teetally
