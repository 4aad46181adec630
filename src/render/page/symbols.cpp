#include "render/page/symbols.h"

#include <fmt/format.h>

#include <algorithm>

namespace teetally {
namespace {

struct Symbol {
  std::string_view kind;
  std::string_view path;  // around 0,0
  bool filled = false;
};

// From the one that matters most at a shared spot to the one that matters least.
constexpr Symbol kSymbols[] = {
    {"tap", "M-6 0A6 6 0 1 0 6 0A6 6 0 1 0 -6 0ZM-3 -2H3M0 -2V3", false},
    {"shut-off valve", "M-6 -4L6 4V-4L-6 4Z", true},
    {"zone valve", "M-6 -2L6 6V-2L-6 6ZM0 2V-5M-3 -5H3", false},
    {"sprayer", "M0 -6V6M-5.2 -3L5.2 3M-5.2 3L5.2 -3", false},
    {"bubbler", "M-5 0A5 5 0 1 0 5 0A5 5 0 1 0 -5 0ZM-1 0A1 1 0 1 0 1 0A1 1 0 1 0 -1 0Z", false},
    {"emitter", "M0 -6C3 -2 4 0 4 1.5A4 4 0 0 1 -4 1.5C-4 0 -3 -2 0 -6Z", true},
    {"cross", "M-2 -5H2V-2H5V2H2V5H-2V2H-5V-2H-2Z", true},
    {"tee", "M-5 -4H5L0 5Z", true},
    {"tape connector", "M0 -5L5 0L0 5L-5 0Z", false},
    {"reducer", "M-5 -5V5L5 2V-2Z", false},
    {"coupling", "M-5 -3H5V3H-5ZM0 -3V3", false},
    {"riser", "M-4 0A4 4 0 1 0 4 0A4 4 0 1 0 -4 0ZM0 2.5V-2.5M-2 -0.5L0 -2.5L2 -0.5", false},
    {"elbow", "M-4 -4H4V4H0V0H-4Z", false},
    {"end closure", "M-3.5 -3.5H3.5V3.5H-3.5Z", true},
    {"flush cap", "M-4 3H4V0A4 4 0 0 0 -4 0Z", false},
    {"barbed connector", "M-2.5 0A2.5 2.5 0 1 0 2.5 0A2.5 2.5 0 1 0 -2.5 0Z", true},
    {"part", "M-4 -4H4V4H-4ZM-4 -4L4 4", false},
};

const Symbol& symbol_of(std::string_view kind) {
  const auto* found =
      std::find_if(std::begin(kSymbols), std::end(kSymbols), [&](const Symbol& s) { return s.kind == kind; });
  return found == std::end(kSymbols) ? *std::prev(std::end(kSymbols)) : *found;
}

}  // namespace

std::string symbol_element(std::string_view kind, PlanSpot at) {
  const Symbol& symbol = symbol_of(kind);
  return shape_element(at, symbol.path, fmt::format("fill=\"{}\"", symbol.filled ? plan_ink::kInk : plan_ink::kPaper));
}

int symbol_rank(std::string_view kind) { return static_cast<int>(&symbol_of(kind) - std::begin(kSymbols)); }

}  // namespace teetally
