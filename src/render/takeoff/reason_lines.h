#pragma once
// Reasons of one need, made short for reading.
#include <cstdint>
#include <string>
#include <vector>

#include "teetally/needs.h"

namespace teetally {

// Reasons that differ only in where they stand share a line: "3  bed 'tomatoes': tee where three legs meet".
struct ReasonLine {
  const Reason* first;
  std::int64_t amount = 0;
  std::int64_t places = 0;
};

std::vector<ReasonLine> gathered(const Need& need);
std::string reason_phrase(const ReasonLine& line);  // safe for a terminal

}  // namespace teetally
