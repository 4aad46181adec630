#pragma once
// The reasons of a takeoff, gathered by the element that asked for them.
#include <string>
#include <vector>

#include "teetally/render/by_place.h"

namespace teetally {

struct PlacedPart {
  const Need* need = nullptr;
  std::int64_t amount = 0;
  std::vector<std::string> spots;          // "trunk at 12 ft", "4 at bed 'greens' row 1"
  std::vector<const NeededPiece*> pieces;  // of tubing, to the last cut, where they are known
};
struct GardenPlace {
  std::string name;  // "bed 'tomatoes'"
  std::vector<PlacedPart> parts;
};
struct PlacedTakeoff {
  std::vector<GardenPlace> places;  // in the order of the file
  std::vector<PlacedPart> besides;  // belongs to no place; `spots` say what for
};
// What comes back points into the takeoff.
PlacedTakeoff by_place(const Takeoff& takeoff);

}  // namespace teetally
