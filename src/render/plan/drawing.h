#pragma once
// The garden drawn into a field: grid, beds, tubing, shapes of parts and labels, with the scale bar below. What found
// no room beside what it tells about stands in the notes.
#include <string>
#include <vector>

#include "render/plan/labels.h"
#include "render/plan/notes.h"
#include "render/plan/numbers.h"
#include "render/plan/parts.h"
#include "render/plan/view.h"

namespace teetally {

struct PlanDrawing {
  Box field;
  std::string elements;
  double bottom = 0;  // of the scale bar
  std::vector<PlanPart> parts;
  std::vector<Box> symbols;  // of parts drawn
  LabelPlan labels;
  std::vector<NotedPlan::Line> notes;
};
// `top` is where the field starts on the sheet.
PlanDrawing draw_plan(const PlanSubject& subject, const PlanNumbers& numbers, PlanLayer layer, UnitSystem units,
                      double top);

std::string without_room_words(const PlanDrawing& drawing);  // nothing where every label found room
std::string plan_description(const PlanSubject& subject);

}  // namespace teetally
