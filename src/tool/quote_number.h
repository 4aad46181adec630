#pragma once
// The number of a kept quote, the first argument of the commands about it.
#include <cstdint>
#include <optional>

#include "tool/session.h"

namespace teetally {

std::optional<std::int64_t> quote_number(Session& session);  // tool/bad-value where it is none

}  // namespace teetally
