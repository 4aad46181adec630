#include "hydraulics/settings.h"

namespace teetally::hydraulics {
namespace {

constexpr const char* kShipped = "shipped practice";

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

double flow_or_none(const Practice& practice, const std::string& key) {
  const std::string* text = found(practice, key);
  if (text) {
    if (const auto flow = parse_flow(*text, {})) return in_m3_per_s(*flow);
  }
  return 0;
}

double share_or(const Practice& practice, const std::string& key, double otherwise) {
  const std::string* text = found(practice, key);
  if (text) {
    if (const auto percent = parse_percent(*text)) return static_cast<double>(percent->ppm) / 1e6;
  }
  return otherwise;
}

// Empty when the value under the key can be read, or is not there; otherwise what is expected.
std::string unreadable(const Practice& practice, const char* key, const std::string& expected,
                       bool (*reads)(const std::string&)) {
  const std::string* text = found(practice, key);
  return !text || reads(*text) ? "" : expected;
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
  settings.regulator_least = flow_or_none(practice, "regulator least flow");
  settings.regulator_most = flow_or_none(practice, "regulator most flow");
  // No readable source gives a figure for small barbs. The table's branch of a tee (1.8) is the nearest; what is
  // published for small tubes lies on both sides of it (1.69 turbulent, 2.32 in transition: abstract of "Hydraulics of
  // microtube emitters").
  settings.barb_loss = number_or(practice, "barb loss", 1.8);
  settings.regulator_free = practice.regulator_drip.origin == kShipped && practice.regulator_tape.origin == kShipped;
  settings.rule_of_thumb = practice.use_rule_of_thumb.value;
  return settings;
}

void check_settings(const Practice& practice, Diagnostics& diagnostics) {
  const auto complain = [&](const char* key, const std::string& expected) {
    if (expected.empty()) return;
    const Setting<std::string>& setting = practice.other.at(key);
    diagnostics
        .error("hydraulics/bad-setting", Place{},
               quoted(key) + " is " + quoted(setting.value) + " in the practice (" + setting.origin + "), expected " +
                   expected)
        .help = "give the value with its unit, or leave the key out to use the default";
  };
  const auto pressure = [](const std::string& text) {
    const auto value = parse_pressure(text, {});
    return value && value->pa >= 0;
  };
  for (const char* key :
       {"timer loss", "backflow preventer loss", "filter loss", "regulator needs above its setting"}) {
    complain(key, unreadable(practice, key, "a pressure, for example 3 psi", pressure));
  }
  for (const char* key : {"regulator least flow", "regulator most flow"}) {
    complain(key, unreadable(practice, key, "a flow, for example 10 gph", [](const std::string& text) {
               const auto value = parse_flow(text, {});
               return value && value->nl_per_h > 0;
             }));
  }
  complain("barb loss",
           unreadable(practice, "barb loss", "a number of velocity heads from 0 to 100", [](const std::string& text) {
             const auto value = parse_number(text);
             return value && *value >= 0 && *value <= 100;
           }));
  complain("friction formula",
           unreadable(practice, "friction formula", "darcy-weisbach or hazen-williams",
                      [](const std::string& text) { return text == "darcy-weisbach" || text == "hazen-williams"; }));
  complain("hazen-williams c",
           unreadable(practice, "hazen-williams c", "a number from 50 to 200", [](const std::string& text) {
             const auto value = parse_number(text);
             return value && *value >= 50 && *value <= 200;
           }));
  complain("most flow variation",
           unreadable(practice, "most flow variation", "a percentage below 100 %", [](const std::string& text) {
             const auto value = parse_percent(text);
             return value && value->ppm > 0 && value->ppm < 1'000'000;
           }));
  complain("emitter manufacturing variation", unreadable(practice, "emitter manufacturing variation",
                                                         "a number from 0 to 0.5", [](const std::string& text) {
                                                           const auto value = parse_number(text);
                                                           return value && *value >= 0 && *value <= 0.5;
                                                         }));
}

}  // namespace teetally::hydraulics
