#include "hydraulics/settings.h"
#include "hydraulics/wording.h"

namespace teetally::hydraulics {
namespace {

// Where a value under one of this stage's own keys comes from; `otherwise` when the practice does not state it.
std::string origin_of(const Practice& practice, const std::string& key, const std::string& otherwise) {
  const auto at = practice.other.find(key);
  return at == practice.other.end() ? otherwise : at->second.origin;
}

constexpr const char* kAssumed = "assumed; your parts' sheets know better";

}  // namespace

Limits limits_of(const Practice& practice, const Settings& settings) {
  Limits limits;
  limits.margin = settings.margin;
  limits.margin_origin = practice.flow_margin.origin;
  limits.velocity_m_per_s = settings.most_velocity;
  limits.velocity_origin = practice.most_velocity_m_per_s.origin;
  limits.variation = settings.most_variation;
  limits.variation_origin = origin_of(practice, "most flow variation", "published design rule");
  limits.emitter_cv = settings.emitter_cv;
  limits.emitter_cv_origin = origin_of(practice, "emitter manufacturing variation", "assumed");
  limits.rule_of_thumb = settings.rule_of_thumb;
  return limits;
}

std::vector<TakenFigure> figures_taken(const Garden& garden, const Practice& practice, const Settings& settings,
                                       UnitSystem units) {
  std::vector<TakenFigure> taken;
  const double pa_per_m = settings.water.pa_per_m();
  const auto loss = [&](const std::string& what, const std::string& key, double head) {
    taken.push_back({what + " " + pressure_text(head * pa_per_m, units), origin_of(practice, key, kAssumed)});
  };
  if (garden.source.timer) loss("the timer takes", "timer loss", settings.timer_loss);
  loss("the backflow preventer takes", "backflow preventer loss", settings.backflow_loss);
  loss("the filter takes", "filter loss", settings.filter_loss);
  loss("the regulator needs above its setting", "regulator needs above its setting", settings.regulator_needs);
  if (settings.regulator_least <= 0 && settings.regulator_most <= 0) {
    taken.push_back({"the regulator holds its setting at any flow", "its range is not stated"});
  }
  taken.push_back({"a barb takes " + number_text(settings.barb_loss) + " velocity heads",
                   origin_of(practice, "barb loss", "assumed, as the branch of a tee")});
  taken.push_back({settings.law.formula == Formula::hazen_williams
                       ? "friction is by Hazen-Williams with C " + number_text(settings.law.c)
                       : "friction is by Darcy-Weisbach for smooth tubing",
                   origin_of(practice, "friction formula", "default")});
  return taken;
}

}  // namespace teetally::hydraulics
