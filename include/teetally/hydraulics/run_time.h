#pragma once
// How long to water: from what plants use or a depth a week, the wetted area and a zone's flow, to minutes at a start.
// Depths are millimetres of water over the wetted area (one millimetre on a square metre is a litre), flows m3/s.
#include <optional>

namespace teetally {

// How an application efficiency e below one enlarges what is given. Published practice differs, so it is named.
enum class EfficiencyRule {
  divide,         // depth / e
  add_shortfall,  // depth * (1 + (1 - e))
};

struct WateringWish {
  double mm_per_week = 0;  // wanted in the soil
  double wetted_m2 = 0;
  double flow_m3_per_s = 0;  // of the whole zone, as computed
  double efficiency = 0.9;   // 0 to 1, the share of the water that serves
  EfficiencyRule rule = EfficiencyRule::divide;
  int days_per_week = 7;                     // at most so many starts
  int least_starts = 1;                      // at least so many, though the soil would hold more
  std::optional<double> minutes_soil_holds;  // at one start; see minutes_soil_holds()
};

struct WateringTime {
  double litres_per_week = 0;
  double minutes_per_week = 0;
  int starts_per_week = 0;
  double minutes_per_start = 0;
  bool soil_overfull = false;  // even with every allowed start, one start gives more than the soil holds
};

// Depths in millimetres a week that a crop uses: reference evapotranspiration (mm a day) times crop coefficient.
double crop_mm_per_week(double reference_mm_per_day, double crop_coefficient);
double litres_for_depth(double mm, double m2);
// Depth with what is lost on the way.
double given_depth(double mm, double efficiency, EfficiencyRule rule);
double rate_mm_per_h(double flow_m3_per_s, double m2);
double minutes_for(double litres, double flow_m3_per_s);
// Minutes that fill the root zone from the wanted depletion: available water (mm per mm of soil) times root depth
// times the part that may be used up.
double minutes_soil_holds(double available_mm_per_mm, double root_mm, double part_used, double m2,
                          double flow_m3_per_s);

// As many starts as the soil asks for, no fewer than one, all alike. Zero minutes when there is no flow or area.
WateringTime watering_time(const WateringWish& wish);

}  // namespace teetally
