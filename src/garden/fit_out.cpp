// Fittings and pieces follow from the network and its sizes alone.
#include "garden/joints.h"
#include "garden/network.h"
#include "garden/pieces.h"

namespace teetally {

void fit_out(Garden& garden, const Practice& practice) {
  for (Leg& leg : garden.legs) leg.size = garden.runs[static_cast<std::size_t>(leg.run)].size;
  garden.fittings.clear();
  const std::vector<std::vector<int>> legs = garden::legs_at_nodes(garden);
  const int source = garden.zones.empty() ? -1 : garden.zones.front().head_node;
  std::vector<std::pair<int, int>> through;
  for (std::size_t node = 0; node < garden.nodes.size(); ++node) {
    const int index = static_cast<int>(node);
    garden::NodeJoint joint = garden::joint_at(garden, practice, index, legs[node], index == source);
    if (joint.through) through.push_back(*joint.through);
    for (Fitting& fitting : joint.fittings) garden.fittings.push_back(std::move(fitting));
  }
  garden.pieces = garden::cut_pieces(garden, through);
}

}  // namespace teetally
