#pragma once
// What an order says in words, the same for text and pages. Words from files are as they stand there: whoever prints
// them makes them safe.
#include <string>
#include <vector>

#include "render/order_parts.h"
#include "teetally/render.h"

namespace teetally {

inline constexpr const char* kNothingFeasible = "No order from these catalogs brings everything.";
inline constexpr const char* kOutOfTime =
    "No order was found in the time given, and none was shown to be impossible. Give more --seconds.";

std::string supplier_words(const Catalog& catalog);  // its name, else its id
std::string total_words(const OrderView& view);      // "Total USD 77.80 from 1 supplier, delivered and with tax."
std::string proof_words(const OrderView& view);      // how sure that is
std::string price_words(const Catalog& catalog, const OrderLine& line, const LineParts& parts);

// How the total of one supplier comes about, in order: goods, discount, shipping, fee, tax. What is not charged is
// left out.
struct CostStep {
  std::string what;
  Money amount;
};
std::vector<CostStep> cost_steps(const OrderCost& cost, const Catalog& catalog);

const Need& need_of_join(const OrderView& view, const JoinReason& join);
std::string join_words(const OrderView& view, const JoinReason& join, UnitSystem units);  // "2 to join 60 ft: trunk"
// "1/2 in tubing: 0.600 in inside, 0.700 in outside", for each system of which tubing is bought.
std::vector<std::string> family_words(const OrderView& view, UnitSystem units);

}  // namespace teetally
