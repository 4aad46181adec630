#pragma once
// The linear model handed to a second solver, GLPK, as a file; `glpsol` runs as a program of its own and serves
// tests only.
#include <optional>
#include <string>

#include "purchase/linear/model.h"

namespace teetally::test {

bool have_second_solver();
// Free MPS form; `goal` is minimised.
std::string mps_text(const LinearModel& model, const Terms& goal);
struct SecondAnswer {
  bool optimal = false, infeasible = false;
  double objective = 0;
};
SecondAnswer solve_with_second(const LinearModel& model, const Terms& goal, const std::string& work_file);

}  // namespace teetally::test
