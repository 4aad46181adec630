#pragma once
// The parts on the plan: every fitting and device of the network with its shape, its spot and its need; what stands
// within one shape's reach of another shares its spot and its label.
#include <string>
#include <vector>

#include "render/plan/labels.h"
#include "render/plan/numbers.h"
#include "render/plan/view.h"

namespace teetally {

struct PlanPart {
  std::string kind;
  PlanSpot spot;
  int need = -1;
  int element = -1;
  std::int64_t count = 1;
};
// In the order of the network: fittings, then devices. A tubing's start at the head and joints of old tubing have no
// need.
std::vector<PlanPart> parts_on_plan(const PlanSubject& subject, const PlanNumbers& numbers, const GroundView& view);

// Those that are drawn: at each spot the one that matters most.
std::vector<PlanPart> drawn_parts(const std::vector<PlanPart>& parts);

// "N04", "2 N04, N07", or for a bed's many alike "6 N07", beside the middle one of them.
std::vector<Label> part_labels(const PlanSubject& subject, const std::vector<PlanPart>& parts);

}  // namespace teetally
