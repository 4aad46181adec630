#pragma once
// Filler: unneeded packs that lift an order into a better bracket, where they cost less than what they save. For
// each supplier one table, grown as far as somebody asks, of the cheapest sum of first-lot prices that reaches a
// gap. Only a proposal: what it adds is priced and checked like the rest of the plan.
#include <vector>

#include "purchase/plan.h"
#include "purchase/problem.h"

namespace teetally {

class Filler {
 public:
  explicit Filler(const PurchaseProblem& problem);

  // Adds filler to a plan whose goods by supplier are given.
  void top_up(Plan& plan, const std::vector<std::int64_t>& goods);

  // The least that filler of at least this value costs at a supplier, however many of each are sold; kMostGoods where
  // there is none, and the bare gap where it is wider than filler is looked for.
  std::int64_t least_sum(int supplier, std::int64_t gap);

 private:
  struct Step {
    std::int64_t sum = kMostGoods;
    int price = -1;  // index into the supplier's prices
  };
  struct Price {
    std::int64_t each = 0;
    std::vector<int> packs;
  };
  struct Shelf {
    std::vector<Price> prices;  // rising
    std::vector<Step> least;    // by gap
  };
  std::int64_t longest_gap(const SupplierTerms& terms, std::int64_t goods, std::int64_t cost) const;
  void grow(Shelf& shelf, std::int64_t gap) const;
  void add(Plan& plan, const Shelf& shelf, std::int64_t gap) const;

  const PurchaseProblem* problem_;
  std::vector<Shelf> shelves_;  // by supplier
};

}  // namespace teetally
