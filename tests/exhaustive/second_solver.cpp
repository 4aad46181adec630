#include "exhaustive/second_solver.h"

#include <fmt/format.h>

#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>

namespace teetally::test {
namespace {

void write_rows(std::string& text, const LinearModel& model, std::vector<std::map<int, double>>& of_column,
                std::string& ends) {
  for (std::size_t r = 0; r < model.rows.size(); ++r) {
    const ModelRow& row = model.rows[r];
    for (const auto& [column, each] : row.terms) of_column[column][static_cast<int>(r)] += each;
    const bool low = row.low > -1e300, high = row.high < 1e300;
    const char kind = low && high ? 'E' : low ? 'G' : 'L';  // the model has no ranges of unequal ends
    text += fmt::format(" {} R{}\n", kind, r);
    ends += fmt::format("    RHS R{} {:.17g}\n", r, low ? row.low : row.high);
  }
}

void write_columns(std::string& text, const LinearModel& model, const Terms& goal,
                   const std::vector<std::map<int, double>>& of_column) {
  std::map<int, double> cost;
  for (const auto& [column, each] : goal) cost[column] += each;
  for (std::size_t c = 0; c < model.columns.size(); ++c) {
    const bool whole = model.columns[c].integer;
    if (whole) text += fmt::format("    M{} 'MARKER' 'INTORG'\n", c);
    text +=
        fmt::format("    C{} COST {:.17g}\n", c, cost.count(static_cast<int>(c)) ? cost.at(static_cast<int>(c)) : 0.0);
    for (const auto& [row, each] : of_column[c]) text += fmt::format("    C{} R{} {:.17g}\n", c, row, each);
    if (whole) text += fmt::format("    E{} 'MARKER' 'INTEND'\n", c);
  }
}

}  // namespace

bool have_second_solver() { return std::system("command -v glpsol > /dev/null 2>&1") == 0; }

std::string mps_text(const LinearModel& model, const Terms& goal) {
  std::string text = "NAME purchase\nROWS\n N COST\n", ends;
  std::vector<std::map<int, double>> of_column(model.columns.size());
  write_rows(text, model, of_column, ends);
  text += "COLUMNS\n";
  write_columns(text, model, goal, of_column);
  text += "RHS\n" + ends + "BOUNDS\n";
  for (std::size_t c = 0; c < model.columns.size(); ++c) {
    text +=
        fmt::format(" LO BND C{} {:.17g}\n UP BND C{} {:.17g}\n", c, model.columns[c].low, c, model.columns[c].high);
  }
  return text + "ENDATA\n";
}

SecondAnswer solve_with_second(const LinearModel& model, const Terms& goal, const std::string& work_file) {
  std::ofstream(work_file + ".mps") << mps_text(model, goal);
  const std::string command =
      fmt::format("glpsol --freemps '{0}.mps' --tmlim 20 -w '{0}.sol' > '{0}.log' 2>&1", work_file);
  SecondAnswer answer;
  if (std::system(command.c_str()) != 0) return answer;
  std::ifstream solution(work_file + ".sol");
  std::string line;
  while (std::getline(solution, line)) {
    std::istringstream words(line);
    std::string letter, form, status;
    int rows = 0, columns = 0;
    if (!(words >> letter >> form) || letter != "s") continue;
    words >> rows >> columns >> status >> answer.objective;  // s mip ROWS COLUMNS STATUS OBJECTIVE
    answer.optimal = status == "o";
    answer.infeasible = status == "n";
  }
  return answer;
}

}  // namespace teetally::test
