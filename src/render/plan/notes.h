#pragma once
// A garden with more labels than there is room for: what belongs to a bed, a group of pots and the like then stands in
// notes below the plan, and the plan shows the number of the note. Elements next to one another that are alike share
// one line of the notes.
#include <string>
#include <vector>

#include "render/plan/labels.h"
#include "render/plan/numbers.h"

namespace teetally {

struct ElementName {
  int element = -1;  // index into Garden::elements
  std::string name;  // "greens"
  std::string high;  // "1 ft high", of raised beds
  std::string rows;  // "4 rows of 11 ft 6 in, N02"
  PlanSpot spot;
  double room = 0;  // how wide its name may be on the sheet
};

struct NotedPlan {
  std::vector<Label> labels;  // numbers in place of what the notes tell, then all other labels
  struct Line {
    std::string numbers;  // "3 to 8"
    std::string words;
  };
  std::vector<Line> lines;
};
NotedPlan with_notes(const std::vector<Label>& labels, const std::vector<ElementName>& names);

// The notes as text below `top`; `bottom` is where they end.
struct NoteBlock {
  std::string elements;
  double bottom = 0;
};
NoteBlock note_block(const std::vector<NotedPlan::Line>& lines, double top);

}  // namespace teetally
