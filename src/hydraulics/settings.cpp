#include "hydraulics/settings.h"

namespace teetally::hydraulics {
namespace {

const std::string* found(const Practice& practice, const std::string& key) {
  const auto at = practice.other.find(key);
  return at == practice.other.end() ? nullptr : &at->second.value;
}

double pressure_head(const Practice& practice, const std::string& key, double psi, const Water& water) {
  const std::string* text = found(practice, key);
  if (text) {
    if (const auto pressure = parse_pressure(*text, {})) return static_cast<double>(pressure->pa) / water.pa_per_m();
  }
  return psi * 6894.757 / water.pa_per_m();
}

double number_or(const Practice& practice, const std::string& key, double otherwise) {
  const std::string* text = found(practice, key);
  if (text) {
    if (const auto number = parse_number(*text)) return *number;
  }
  return otherwise;
}

double share_or(const Practice& practice, const std::string& key, double otherwise) {
  const std::string* text = found(practice, key);
  if (text) {
    if (const auto percent = parse_percent(*text)) return static_cast<double>(percent->ppm) / 1e6;
  }
  return otherwise;
}

}  // namespace

Settings settings_of(const Practice& practice) {
  Settings settings;
  settings.water = water_at(practice.water_celsius.value);
  settings.law.viscosity = settings.water.viscosity;
  const std::string* formula = found(practice, "friction formula");
  if (formula && *formula == "hazen-williams") settings.law.formula = Formula::hazen_williams;
  settings.law.c = number_or(practice, "hazen-williams c", 140);
  settings.margin = static_cast<double>(practice.flow_margin.value.ppm) / 1e6;
  settings.most_velocity = practice.most_velocity_m_per_s.value;
  settings.most_variation = share_or(practice, "most flow variation", 0.2);
  settings.emitter_cv = number_or(practice, "emitter manufacturing variation", 0.05);
  const double pa_per_m = settings.water.pa_per_m();
  settings.drip_head = static_cast<double>(practice.regulator_drip.value.pa) / pa_per_m;
  settings.tape_head = static_cast<double>(practice.regulator_tape.value.pa) / pa_per_m;
  // Assumptions, not published figures: head parts differ, and their own sheets should replace these.
  settings.timer_loss = pressure_head(practice, "timer loss", 2, settings.water);
  settings.backflow_loss = pressure_head(practice, "backflow preventer loss", 3, settings.water);
  settings.filter_loss = pressure_head(practice, "filter loss", 2, settings.water);
  settings.regulator_needs = pressure_head(practice, "regulator needs above its setting", 5, settings.water);
  settings.rule_of_thumb = practice.use_rule_of_thumb.value;
  return settings;
}

}  // namespace teetally::hydraulics
