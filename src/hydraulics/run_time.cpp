#include "teetally/hydraulics/run_time.h"

#include <algorithm>
#include <cmath>

namespace teetally {

double crop_mm_per_week(double reference_mm_per_day, double crop_coefficient) {
  return 7 * reference_mm_per_day * crop_coefficient;
}

double litres_for_depth(double mm, double m2) { return mm * m2; }

double given_depth(double mm, double efficiency, EfficiencyRule rule) {
  if (rule == EfficiencyRule::add_shortfall) return mm * (2 - efficiency);
  return efficiency > 0 ? mm / efficiency : 0;
}

double rate_mm_per_h(double flow_m3_per_s, double m2) { return m2 > 0 ? flow_m3_per_s * 3.6e6 / m2 : 0; }

double minutes_for(double litres, double flow_m3_per_s) {
  return flow_m3_per_s > 0 ? litres / (flow_m3_per_s * 6e4) : 0;
}

double minutes_soil_holds(double available_mm_per_mm, double root_mm, double part_used, double m2,
                          double flow_m3_per_s) {
  return minutes_for(litres_for_depth(available_mm_per_mm * root_mm * part_used, m2), flow_m3_per_s);
}

WateringTime watering_time(const WateringWish& wish) {
  WateringTime time;
  const double depth = given_depth(wish.mm_per_week, wish.efficiency, wish.rule);
  time.litres_per_week = litres_for_depth(depth, wish.wetted_m2);
  time.minutes_per_week = minutes_for(time.litres_per_week, wish.flow_m3_per_s);
  if (time.minutes_per_week <= 0) return time;
  double starts = 1;
  if (wish.minutes_soil_holds && *wish.minutes_soil_holds > 0) {
    starts = std::ceil(time.minutes_per_week / *wish.minutes_soil_holds - 1e-9);
  }
  const double most = std::max(1, wish.days_per_week);
  starts = std::max(starts, static_cast<double>(std::min(wish.least_starts, std::max(1, wish.days_per_week))));
  time.soil_overfull = starts > most;
  time.starts_per_week = static_cast<int>(std::clamp(starts, 1.0, most));
  time.minutes_per_start = time.minutes_per_week / time.starts_per_week;
  return time;
}

}  // namespace teetally
