#pragma once
// One run of the program from its words to its exit code: standard output gets the result, standard error the
// diagnostics and figures. Throws WorldFailure and SolverFailure, which main catches.
#include <string>
#include <vector>

#include "tool/exit_code.h"

namespace teetally {

ExitCode run(const std::vector<std::string>& words);

}  // namespace teetally
