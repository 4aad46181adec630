#pragma once
// Runs one case and says everything in which it differs from what it expects, or takes what happened as the
// new expectation.
#include <string>

#include "case_runner/case_file.h"
#include "case_runner/scratch.h"

namespace cases {

// Everything that differs, for a person to read; empty when the case passes.
std::string judge(const Workshop& shop, const Case& test);

// The case with its expectations replaced by what happened; files named by "in" are rewritten in the tree.
// A command that was killed throws: that is never an expectation.
Case take_as_expected(const Workshop& shop, Case test);

}  // namespace cases
