#pragma once
// What a pooled order says, sentence by sentence, the same on the screen and on pages.
#include <string>
#include <vector>

#include "teetally/render/pool.h"

namespace teetally {

std::string pool_summary(const PoolResult& result);                // "USD 446.25 for 6 plots from 3 suppliers. ..."
std::vector<std::string> absence_words(const PoolResult& result);  // plots that are not in it
std::string sureness(const Proof& proof);
std::string payers_words(const Plot& shared);
std::string fairness_words(const PoolResult& result);
std::vector<std::string> limit_words(const PoolResult& result);  // plots above their cash limit
// Suppliers that deliver from some value on, where few plots fewer would no longer reach it.
std::vector<std::string> minimum_words(const PoolResult& result);
std::string savings_words(const PoolResult& result);  // who saves how much; empty for a single plot
std::string step_words(const PoolResult& result, const NextStep& step);
struct LeftWords {
  std::string what, amount;
};
std::vector<LeftWords> left_over_words(const PoolResult& result, UnitSystem units);
// How one plot's share comes about, in four lines.
std::vector<std::string> share_lines(const PoolResult& result, const PlotShare& line);
inline constexpr std::size_t kMostSteps = 5;  // shown

}  // namespace teetally
