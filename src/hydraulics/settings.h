#pragma once
// What the hydraulics take from the practice, in SI, with where each value comes from. Keys that only this stage
// reads stand in Practice::other under the names below.
#include <string>

#include "hydraulics/friction.h"
#include "hydraulics/water.h"
#include "teetally/hydraulics.h"

namespace teetally::hydraulics {

struct Settings {
  Water water;
  FrictionLaw law;
  double margin = 0.2;           // of the tested flow
  double most_velocity = 1.524;  // m/s
  double most_variation = 0.2;   // of an outlet's flow, least against most
  double emitter_cv = 0;         // manufacturing variation of emitters, for emission uniformity
  double drip_head = 0;          // m, regulator for emitters and sprayers
  double tape_head = 0;          // m, regulator where there is tape
  double timer_loss = 0, backflow_loss = 0, filter_loss = 0;  // m, at working flow
  double regulator_needs = 0;                                 // m above its setting at its inlet
  double regulator_least = 0, regulator_most = 0;  // m3/s it holds its setting between; zero: its sheet is not stated
  double barb_loss = 1.8;                          // velocity heads lost where small tubing leaves larger
  bool regulator_free = false;                     // its settings are the shipped ones, so outlets may ask for others
  bool rule_of_thumb = true;
};

// Values under this stage's keys that cannot be read; settings_of() takes the default for them.
void check_settings(const Practice& practice, Diagnostics& diagnostics);

Settings settings_of(const Practice& practice);

// The limits that verdicts are judged by, and the figures taken for granted, each with where it comes from.
Limits limits_of(const Practice& practice, const Settings& settings);
std::vector<TakenFigure> figures_taken(const Garden& garden, const Practice& practice, const Settings& settings,
                                       UnitSystem units);

}  // namespace teetally::hydraulics
