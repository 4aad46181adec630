#pragma once
// Suppliers whose goods must reach a threshold: under pressure their goods count as cheaper, and the threshold times
// the pressure is charged instead. Any pressure gives a true bound; this looks for one that gives a high bound. The
// bound is concave in all pressures together, but has edges, so that climbing along one supplier at a time can stop
// where climbing along all of them would not.
#include "purchase/exact/bound.h"

namespace teetally {

// Moves the node's pressures and answers its bound under them, with the messages as they are; stops early when the
// bound is above `enough` (scaled). `thorough` also climbs along all suppliers at once.
double raise_by_pressure(const ExactModel& model, Bound& bound, SearchNode& node, double enough, bool thorough);

}  // namespace teetally
