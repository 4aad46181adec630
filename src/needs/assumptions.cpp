// What the practice file decided before the takeoff began: layout, outlets and sizes. Only what this garden made
// use of is listed; the rules of the takeoff list their own.
#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "needs/rules.h"

namespace teetally {
namespace {

bool has_joint(const Garden& garden, Joint joint) {
  return std::any_of(garden.fittings.begin(), garden.fittings.end(),
                     [&](const Fitting& fitting) { return fitting.joint == joint; });
}

bool has_role(const Garden& garden, LegRole role) {
  return std::any_of(garden.legs.begin(), garden.legs.end(), [&](const Leg& leg) { return leg.role == role; });
}

bool has_element(const Garden& garden, const std::string& kind) {
  return std::any_of(garden.elements.begin(), garden.elements.end(),
                     [&](const Element& element) { return element.kind == kind; });
}

bool has_device(const Garden& garden, const std::string& kind) {
  return std::any_of(garden.devices.begin(), garden.devices.end(),
                     [&](const Device& device) { return device.part.kind == kind; });
}

std::string degrees(double value) { return fmt::format("{:g} degrees", value); }

void state_joints(Worksheet& sheet) {
  const Practice& practice = sheet.practice;
  if (has_joint(sheet.garden, Joint::elbow)) {
    sheet.assume(fmt::format("a turn of {} or more takes an elbow", degrees(practice.elbow_from_degrees.value)),
                 practice.elbow_from_degrees.origin);
  }
  if (has_role(sheet.garden, LegRole::feeder) || has_role(sheet.garden, LegRole::row)) {
    sheet.assume(fmt::format("tubing that bends within {} takes no elbow",
                             to_text(practice.bends_freely_within.value, sheet.units)),
                 practice.bends_freely_within.origin);
  }
  if (has_joint(sheet.garden, Joint::take_off)) {
    sheet.assume(
        fmt::format("tubing leaves other tubing through its wall when its inside is less than {:g} of the other's",
                    practice.punch_below.value),
        practice.punch_below.origin);
  }
  if (has_joint(sheet.garden, Joint::cross)) {
    sheet.assume(fmt::format("four lengths of one size meet in: {}", practice.four_way.value),
                 practice.four_way.origin);
  }
  if (!sheet.garden.legs.empty()) {
    sheet.assume(fmt::format("ends within {} of one another are one point",
                             to_text(practice.joining_tolerance.value, sheet.units)),
                 practice.joining_tolerance.origin);
  }
}

void state_layout(Worksheet& sheet) {
  const Practice& practice = sheet.practice;
  const auto state = [&](const Setting<Length>& setting, const char* words) {
    sheet.assume(fmt::format("{} {}", words, to_text(setting.value, sheet.units)), setting.origin);
  };
  if (has_element(sheet.garden, "bed")) {
    state(practice.row_inset, "outermost rows from the sides of a bed:");
    state(practice.row_end_inset, "far ends of rows from the end of a bed:");
    state(practice.header_inset, "header from the end of a bed:");
  }
  if (has_device(sheet.garden, "shut-off valve") || has_device(sheet.garden, "zone valve")) {
    state(practice.valve_distance, "valve from the line that its feed leaves:");
  }
  if (has_device(sheet.garden, "sprayer")) state(practice.sprayer_height, "sprayers over a bench:");
  const bool has_emitters = std::any_of(sheet.garden.runs.begin(), sheet.garden.runs.end(),
                                        [](const Run& run) { return run.emitter_count > 0; });
  if (has_emitters) {
    sheet.assume(fmt::format("emitters on a row: {}", practice.emitter_count_rule.value),
                 practice.emitter_count_rule.origin);
  }
  const Setting<std::string>& feeder = sheet.garden.series == "metric" ? practice.feeder_metric : practice.feeder_inch;
  const bool has_usual_feeder = std::any_of(sheet.garden.runs.begin(), sheet.garden.runs.end(), [&](const Run& run) {
    return run.role == LegRole::feeder && run.size == feeder.value;
  });
  if (has_usual_feeder) {
    sheet.assume(fmt::format("feeder tubing where the design names none: {}", feeder.value), feeder.origin);
  }
}

bool any_law(const Garden& garden, const std::function<bool(const EmitterLaw&, const std::string& kind)>& holds) {
  const auto run_holds = [&](const Run& run) { return run.emitters && holds(*run.emitters, run.tubing.kind); };
  const auto device_holds = [&](const Device& device) {
    return device.outlet && holds(*device.outlet, device.part.kind);
  };
  return std::any_of(garden.runs.begin(), garden.runs.end(), run_holds) ||
         std::any_of(garden.devices.begin(), garden.devices.end(), device_holds);
}

// A law does not tell whether the design stated it, so these sentences say when they apply.
void state_outlets(Worksheet& sheet) {
  const Practice& practice = sheet.practice;
  const auto rated = [&](const Setting<Pressure>& setting, const char* words, auto is_meant) {
    const bool is_used = any_law(sheet.garden, [&](const EmitterLaw& law, const std::string& kind) {
      return is_meant(kind) && law.rated_at == setting.value;
    });
    if (!is_used) return;
    sheet.assume(
        fmt::format("{} are rated at {} where the design does not say", words, to_text(setting.value, sheet.units)),
        setting.origin);
  };
  const auto is_tape = [](const std::string& kind) { return kind == "drip tape"; };
  const auto is_spray = [](const std::string& kind) { return kind == "sprayer" || kind == "bubbler"; };
  rated(practice.tape_rated_at, "tapes", is_tape);
  rated(practice.sprayer_rated_at, "sprayers and bubblers", is_spray);
  rated(practice.emitter_rated_at, "emitters",
        [&](const std::string& kind) { return !is_tape(kind) && !is_spray(kind); });
  if (any_law(sheet.garden, [&](const EmitterLaw& law, const std::string&) {
        return !law.compensating && law.exponent == practice.emitter_exponent.value;
      })) {
    sheet.assume(fmt::format("flow of outlets grows with pressure to the power {:g} where the design does not say",
                             practice.emitter_exponent.value),
                 practice.emitter_exponent.origin);
  }
  if (any_law(sheet.garden, [&](const EmitterLaw& law, const std::string&) {
        return law.compensating && law.least == practice.compensating_least.value &&
               law.most == practice.compensating_most.value;
      })) {
    sheet.assume(fmt::format("compensating outlets work from {} to {} where the design does not say",
                             to_text(practice.compensating_least.value, sheet.units),
                             to_text(practice.compensating_most.value, sheet.units)),
                 practice.compensating_least.origin);
  }
}

void state_sizes(Worksheet& sheet) {
  const Practice& practice = sheet.practice;
  for (const NominalSize& size : practice.sizes) {
    const bool is_used = std::any_of(sheet.garden.runs.begin(), sheet.garden.runs.end(),
                                     [&](const Run& run) { return run.size == size.name; });
    if (!is_used) continue;
    std::string text = fmt::format("{} tubing: {} inside", size.name, to_text(size.inside, sheet.units));
    if (practice.use_rule_of_thumb.value) {
      text += fmt::format("; by rule of thumb at most {} and {}", to_text(size.longest, sheet.units),
                          to_text(size.most, sheet.units));
    }
    sheet.assume(std::move(text), size.origin);
  }
}

void state_water(Worksheet& sheet) {
  const Practice& practice = sheet.practice;
  if (sheet.garden.source.flow) {
    sheet.assume(fmt::format("{} of the tested flow is kept in reserve", to_string(practice.flow_margin.value)),
                 practice.flow_margin.origin);
  }
  if (sheet.garden.legs.empty()) return;
  sheet.assume(fmt::format("water of {:g} degrees Celsius", practice.water_celsius.value),
               practice.water_celsius.origin);
  sheet.assume(fmt::format("water no faster than {:g} m/s", practice.most_velocity_m_per_s.value),
               practice.most_velocity_m_per_s.origin);
}

}  // namespace

void state_assumptions(Worksheet& sheet) {
  state_layout(sheet);
  state_joints(sheet);
  state_outlets(sheet);
  state_sizes(sheet);
  state_water(sheet);
}

}  // namespace teetally
