#pragma once
// Where labels go. Each label has a spot it belongs to and tries places around it, near ones first; a place that
// touches another label, a symbol or the edge of the sheet is never taken, and one that covers lines costs. Labels
// are placed in the order given, so the important ones come first.
#include <optional>
#include <string>
#include <vector>

#include "render/page/shapes.h"

namespace teetally {

struct Label {
  std::vector<std::string> lines;
  double size = 11;
  PlanSpot spot;         // what it tells about
  double clear = 7;      // half the size of what stands there
  bool over = false;     // may stand on the spot itself: names of beds
  double farthest = 60;  // how far it may move away
  std::string look;      // attributes: weight, colour
  int element = -1;      // of the garden, where a note below the plan can tell the same about all of it
};

struct PlacedLabel {
  Label label;
  Box box;
  std::optional<Stroke> leader;  // from the spot to a label that had to move away
};

struct LabelRoom {
  Box sheet;
  std::vector<Box> symbols;     // never covered
  std::vector<Stroke> strokes;  // better not covered
};

struct LabelPlan {
  std::vector<PlacedLabel> placed;
  std::vector<Label> without_room;
};
LabelPlan place_labels(const std::vector<Label>& labels, const LabelRoom& room);

std::string label_element(const PlacedLabel& placed);

}  // namespace teetally
