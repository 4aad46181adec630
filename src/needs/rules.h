#pragma once
// The rules of the takeoff, one verb each, in the order in which take_off applies them. Each adds needs with
// their reasons, and the assumptions it rests on, to the worksheet. docs/needs.md says them in words.
#include "needs/worksheet.h"

namespace teetally {

void state_assumptions(Worksheet& sheet);  // of layout, outlets and sizes
void count_tubing(Worksheet& sheet);       // every run's pieces, then the cutting allowance
void count_fittings(Worksheet& sheet);     // every joint of the network
void count_devices(Worksheet& sheet);      // valves and outlets
void assemble_heads(Worksheet& sheet);     // from the tap outward, once for each start of tubing
void count_small_parts(Worksheet& sheet);  // hold-downs and the punch
void add_spares(Worksheet& sheet);         // fittings, couplings, hole plugs
void deduct_what_is_there(Worksheet& sheet, Diagnostics& diagnostics);
void add_cautions(Worksheet& sheet);
// Every element of the design must have yielded a part.
void check_elements(const Worksheet& sheet, Diagnostics& diagnostics);

}  // namespace teetally
