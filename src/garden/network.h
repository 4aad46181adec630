#pragma once
// A Draft's paths become nodes and legs: ends within the joining tolerance are one node, an end on another leg
// splits that leg. Nothing else joins: tubing that merely crosses stays apart.
#include "garden/draft.h"

namespace teetally::garden {

// Fills nodes and legs, every device's node, and turns legs away from the source. Answers the source's node.
int build_network(const Draft& draft, Garden& garden, const Practice& practice);

// Legs by node, in the order of the legs.
std::vector<std::vector<int>> legs_at_nodes(const Garden& garden);
int other_end(const Leg& leg, int node);

// How each node is reached from the source by the shortest way; -1 where it is not reached.
struct Reach {
  std::vector<Length> away;  // by node
  std::vector<int> by_leg;   // by node: the last leg of the way, -1 at the source
  std::vector<bool> reached;
};
Reach reach_from(const Garden& garden, int source);

// Puts a device on a leg, so far from the leg's start; the leg becomes two. Answers the new node.
int insert_device(Garden& garden, int leg, Length from_start, Device device);

// Numbers the legs that hang together without passing through the source.
void number_systems(Garden& garden, int source);

}  // namespace teetally::garden
