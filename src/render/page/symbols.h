#pragma once
// A shape for every kind of part on the plan. No two share an outline, so that they can be told apart in black and
// white; each fits a square of twelve units around its spot.
#include <string>
#include <string_view>
#include <vector>

#include "render/page/shapes.h"

namespace teetally {

inline constexpr double kSymbolReach = 6;

// By the name of the part's kind ("tee", "shut-off valve"), "tap", "riser" or "part" for all others.
std::string symbol_element(std::string_view kind, PlanSpot at);
int symbol_rank(std::string_view kind);  // of several at one spot the lowest is drawn

// Colours of the plan. By WCAG 2.2: text and tubing at least 5.4 to 1 against paper and soil (1.4.3 asks 4.5), the
// sides of beds 3.6 to 1 (1.4.11 asks 3); grid and soil only decorate.
namespace plan_ink {
inline constexpr std::string_view kPaper = "#fcfbf7";
inline constexpr std::string_view kInk = "#22302f";
inline constexpr std::string_view kQuiet = "#56645f";
inline constexpr std::string_view kGrid = "#e6e5db";
inline constexpr std::string_view kSupply = "#17506b";
inline constexpr std::string_view kRow = "#2b6a4c";
inline constexpr std::string_view kSoil = "#eef0e0";
inline constexpr std::string_view kSide = "#7d7f58";
inline constexpr std::string_view kNumber = "#8a3413";
}  // namespace plan_ink

}  // namespace teetally
