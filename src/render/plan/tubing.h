#pragma once
// The tubing on the plan: strokes by role and size, and what stands beside them: names, sizes, need numbers, lengths
// of pieces, flows or pressures.
#include <string>
#include <vector>

#include "render/plan/labels.h"
#include "render/plan/numbers.h"
#include "render/plan/view.h"

namespace teetally {

std::string tubing_elements(const PlanSubject& subject, const GroundView& view, PlanLayer layer);
std::vector<Stroke> tubing_strokes(const PlanSubject& subject, const GroundView& view);
std::vector<Label> run_labels(const PlanSubject& subject, const PlanNumbers& numbers, const GroundView& view);
std::vector<Label> stretch_labels(const PlanSubject& subject, const GroundView& view, PlanLayer layer,
                                  UnitSystem units);

// How a role's tubing is drawn, for the tubing itself and for the key.
std::string tubing_look(LegRole role, double width);
double usual_width(LegRole role);

}  // namespace teetally
