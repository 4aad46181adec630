#include <fmt/format.h>

#include "teetally/needs.h"

namespace teetally {

std::string amount_text(const Need& need, std::int64_t amount, UnitSystem units) {
  return need.by_length ? to_text(Length{amount}, units) : fmt::format("{}", amount);
}

}  // namespace teetally
