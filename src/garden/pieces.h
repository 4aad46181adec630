#pragma once
// Pieces: every length of tubing between two cuts. Legs that run through a node uncut are one piece.
#include <utility>
#include <vector>

#include "teetally/garden.h"

namespace teetally::garden {

// `through` lists the pairs of legs that are uncut where they meet.
std::vector<Piece> cut_pieces(const Garden& garden, const std::vector<std::pair<int, int>>& through);

}  // namespace teetally::garden
