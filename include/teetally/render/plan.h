#pragma once
// The garden from above as one SVG picture: beds, tubing with sizes and lengths, every fitting as a shape, with the
// numbers of the takeoff. It stands by itself (no style sheet, no script, no font file), is to scale, and is the same
// bytes for the same garden. Where two labels would cover one another one moves aside on a leader line; what finds no
// room is left out and counted at the foot of the picture. Text from files is escaped.
#include <string>

#include "teetally/design.h"
#include "teetally/hydraulics.h"
#include "teetally/needs.h"

namespace teetally {

// What the labels along supply lines and headers tell.
enum class PlanLayer {
  lengths,   // of each piece to cut
  flow,      // through each stretch; wider lines carry more
  pressure,  // at the end of each stretch
};

struct PlanSubject {
  const Site& site;  // for the outlines of beds and their heights
  const SizedGarden& sized;
  const Takeoff& takeoff;
};
std::string plan_svg(const PlanSubject& subject, PlanLayer layer, UnitSystem units);

}  // namespace teetally
