#include "teetally/needs/take_off.h"

#include "needs/rules.h"

namespace teetally {

Takeoff take_off(const SizedGarden& sized, const Practice& practice, const Vocabulary& vocabulary, UnitSystem units,
                 Diagnostics& diagnostics) {
  Worksheet sheet(sized, practice, vocabulary, units);
  state_assumptions(sheet);
  count_tubing(sheet);
  count_fittings(sheet);
  count_devices(sheet);
  assemble_heads(sheet);
  count_small_parts(sheet);
  add_spares(sheet);
  add_cautions(sheet);
  deduct_what_is_there(sheet, diagnostics);
  check_elements(sheet, diagnostics);

  Takeoff takeoff;
  takeoff.name = sized.garden.name;
  takeoff.systems = std::move(sheet.systems);
  takeoff.assumptions = std::move(sheet.assumptions);
  takeoff.cautions = std::move(sheet.cautions);
  takeoff.cutting = {practice.least_joined.value, practice.spare_offcut.value};
  sheet.tally.finish(takeoff.needs, takeoff.covered);
  return takeoff;
}

}  // namespace teetally
