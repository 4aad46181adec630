#include "purchase/solver.h"
#include "teetally/purchase.h"

namespace teetally {

const std::vector<Engine>& engines() {
  static const std::vector<Engine> kTable{
      {"exact", solve_exactly}, {"cbc", solve_with_cbc}, {"bulk", solve_in_bulk}, {"enumerate", solve_by_enumeration}};
  return kTable;
}

const Engine* find_engine(const std::string& name) {
  for (const Engine& engine : engines()) {
    if (engine.name == name) return &engine;
  }
  return nullptr;
}

std::vector<std::string> engine_names() {
  std::vector<std::string> names;
  for (const Engine& engine : engines()) names.push_back(engine.name);
  return names;
}

}  // namespace teetally
