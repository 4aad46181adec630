#pragma once
// What a zone does: solved once with the pressure it wants at its head, and once at the pressure the tap can give.
#include <optional>
#include <string>
#include <vector>

#include "hydraulics/evenness.h"
#include "hydraulics/regulator.h"
#include "hydraulics/zone_network.h"

namespace teetally::hydraulics {

// The tap as a curve: static pressure less what the flow costs, falling with the square of the flow from the
// static pressure at rest to nothing at the open tap's flow (the bucket test). Service pipe, meter and tap are
// rough and turbulent at garden flows, so their loss goes with the square; and an open tap has no gauge pressure left.
struct Supply {
  std::optional<double> static_head;  // m at the tap
  std::optional<double> tested;       // m3/s through the open tap
  double height = 0;                  // m, of the tap
  double droop() const { return static_head && tested && *tested > 0 ? *static_head / (*tested * *tested) : 0; }
};
Supply supply_of(const Garden& garden, const Settings& settings);

struct ZoneFlow {
  ZoneNetwork zone;
  bool tape = false;
  RegulatorChoice regulator;
  double wanted_head = 0;      // m, the regulator's setting
  double head_losses = 0;      // m, timer, backflow preventer and filter
  double rated = 0;            // m3/s, the sum of rated flows
  double demand = 0;           // m3/s at the wanted pressure
  bool supply_limits = false;  // the tap cannot hold the wanted pressure
  double start_head = 0;       // m at the head node, as solved
  Solution solution;           // as the tap gives it
  std::vector<Share> shares;   // by outlet
  Evenness evenness;           // over all outlets, but for the variation, which is the largest within one kind
  double least_over_mean = 0;  // the smallest within one kind of outlet: for emission uniformity
};

bool has_tape(const Garden& garden, int zone);
ZoneFlow flow_of(const Garden& garden, int zone, const std::vector<double>& insides, const std::vector<double>& losses,
                 const Settings& settings);

// Only the network at the wanted pressure: what sizing needs.
ZoneFlow wanted_flow_of(const Garden& garden, int zone, const std::vector<double>& insides,
                        const std::vector<double>& losses, const Settings& settings);

// The head the tap has for the tubing's start with no water running: less the fall to it, the head assembly's losses
// and what the regulator needs above its setting.
double at_rest_head(const Supply& supply, const ZoneFlow& flow, const Settings& settings);

// Flow of a leg (m3/s, from its start), its largest.
double leg_flow(const ZoneFlow& flow, int leg);

}  // namespace teetally::hydraulics
