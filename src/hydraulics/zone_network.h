#pragma once
// One zone of a garden as a pipe network: every emitter of a row is an outlet of its own at its own place, every
// fitting a loss. Outlets of other zones are shut. The head node is held at a pressure or fed through the tap.
#include <utility>
#include <vector>

#include "hydraulics/network.h"
#include "hydraulics/settings.h"

namespace teetally::hydraulics {

// Whose outlet NetworkOutlet i is.
struct Spot {
  int run = -1;     // in-line emitter of this run, or -1
  int device = -1;  // outlet device, or -1
  int element = -1;
  double count = 1;  // outlets alike at this spot
  double along = 0;  // m from the run's start, in-line emitters only
};

struct ZoneNetwork {
  Network network;
  int head = -1;                                  // network node
  std::vector<int> node_of;                       // by garden node; -1 when not joined to the head
  std::vector<std::pair<int, int>> links_of_leg;  // by garden leg: first link and how many; count 0 when not joined
  std::vector<Spot> spots;                        // by network outlet
  std::vector<int> unreached;                     // elements of the zone with outlets that no leg joins to the head
};

ZoneNetwork network_of(const Garden& garden, int zone, const std::vector<double>& insides,
                       const std::vector<double>& losses, const Settings& settings);

// Distances of in-line emitters from the start of their run, in metres.
std::vector<double> emitter_places(const Run& run, double run_length);

// The head node held at `head` metres of pressure.
void hold(ZoneNetwork& zone, double head);
// The head node fed from a reservoir of `head` metres at the head node through a loss of `quadratic` Q^2.
void feed(ZoneNetwork& zone, double head, double quadratic);

}  // namespace teetally::hydraulics
