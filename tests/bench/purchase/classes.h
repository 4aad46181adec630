#pragma once
// Seeded purchases to measure engines with; invented, the same on every machine. Item types with a demand,
// suppliers that each sell about 70 % of the types in 1 to 4 pack sizes (1, 5, 10, 25, 50, 100), the unit price
// falling 2 to 15 % a step, in whole cents; bundles of 8 to 20 types at 75 to 95 % of the supplier's cheapest
// loose value; flat shipping, mostly waived from some order value on.
//
//   class    types  suppliers  bundles each  demand
//   H           20          3             4  1 - 40
//   L           60          6            10  1 - 400
//   C          150         12            20  10 - 20,000
//   X          400         25            40  10 - 200,000
//   catalog     80          6             4  1 - 150; bundles of 3 to 6 types, every type in a full pack ladder
//   lines      800        177             0  1 of each, single units
//
// Variants: tiers (some packs 5 % cheaper from 3, 12 % from 10 on) and families (the first 40 % of the types are
// fittings of one of three families that exclude each other).
#include <string>
#include <vector>

#include "purchase/problem.h"

namespace teetally::bench {

struct ProblemClass {
  std::string name;
  int types = 0, suppliers = 0, bundles = 0;
  int demand_low = 1, demand_high = 1, most_in_bundle = 1;
  int bundle_low = 8, bundle_high = 20;
  bool ladder = false, single = false;
};
const std::vector<ProblemClass>& problem_classes();

PurchaseProblem generate(const ProblemClass& of, unsigned seed, bool tiers, bool families);

}  // namespace teetally::bench
