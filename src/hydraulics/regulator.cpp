#include "hydraulics/regulator.h"

#include <algorithm>
#include <cmath>

#include "hydraulics/wording.h"

namespace teetally::hydraulics {
namespace {

// Fixed regulators are sold in these classes (common practice).
constexpr int kClassesPsi[] = {10, 15, 20, 25, 30, 40};
constexpr double kPaPerPsi = 6894.757;

void take_law(const EmitterLaw& law, double pa_per_m, RegulatorChoice& choice) {
  const double rated = static_cast<double>(law.rated_at.pa) / pa_per_m;
  choice.rated_low = choice.rated_high <= 0 ? rated : std::min(choice.rated_low, rated);
  choice.rated_high = std::max(choice.rated_high, rated);
  choice.low = std::max(choice.low, static_cast<double>(law.least.pa) / pa_per_m);
  const double most = static_cast<double>(law.most.pa) / pa_per_m;
  if (most > 0) choice.high = choice.high <= 0 ? most : std::min(choice.high, most);
}

bool suits(const RegulatorChoice& choice, double head) {
  return head >= choice.low && (choice.high <= 0 || head <= choice.high);
}

}  // namespace

RegulatorChoice regulator_for(const Garden& garden, int zone, bool tape, const Settings& settings) {
  const double pa_per_m = settings.water.pa_per_m();
  RegulatorChoice choice;
  choice.head = choice.usual = tape ? settings.tape_head : settings.drip_head;
  const auto inside = [&](int element) { return element >= 0 && garden.elements[element].zone == zone; };
  for (const Run& run : garden.runs) {
    if (run.emitters && inside(run.element)) take_law(*run.emitters, pa_per_m, choice);
  }
  for (const Device& device : garden.devices) {
    if (device.outlet && inside(device.element)) take_law(*device.outlet, pa_per_m, choice);
  }
  if (!settings.regulator_free || suits(choice, choice.usual)) return choice;
  double nearest = 0;
  for (const int psi : kClassesPsi) {
    const double head = psi * kPaPerPsi / pa_per_m;
    if (suits(choice, head) && (nearest <= 0 || std::abs(head - choice.usual) < std::abs(nearest - choice.usual)))
      nearest = head;
  }
  if (nearest > 0) choice.head = nearest;
  return choice;
}

std::string RegulatorChoice::words(const Settings& settings, UnitSystem units) const {
  const auto text = [&](double metres) { return pressure_text(metres * settings.water.pa_per_m(), units); };
  std::string out = text(head);
  if (head != usual) out += " instead of the practice's " + text(usual);
  if (rated_high > 0) {
    out += "; outlets state their flow at " + text(rated_low);
    if (rated_high > rated_low * (1 + 1e-9)) out += " to " + text(rated_high);
  }
  if (high > 0) out += ", and work from " + text(low) + " to " + text(high);
  return out;
}

}  // namespace teetally::hydraulics
