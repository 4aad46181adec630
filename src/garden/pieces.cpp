#include "garden/pieces.h"

#include <fmt/format.h>

#include <algorithm>

namespace teetally::garden {

namespace {

// Follows uncut tubing from a leg until it is cut or comes round again.
std::vector<int> follow(int first, int came_from, const std::vector<std::vector<int>>& next) {
  std::vector<int> legs{first};
  int before = came_from, here = first;
  while (true) {
    int onward = -1;
    for (const int candidate : next[static_cast<std::size_t>(here)]) {
      if (candidate != before) onward = candidate;
    }
    if (onward < 0 || onward == first) return legs;
    legs.push_back(onward);
    before = here;
    here = onward;
  }
}

// The leg at one end of the uncut length that `leg` is part of; any leg of a ring.
int far_end(int leg, const std::vector<std::vector<int>>& next) { return follow(leg, -1, next).back(); }

// An end of a piece in few words: what its run or the run's element is called already is not said again.
std::string end_words(const Garden& garden, const Run& run, int node) {
  const std::string& label = garden.nodes[static_cast<std::size_t>(node)].label;
  if (label == "end of " + run.name) return "its end";
  if (label == "start of " + run.name) return "its start";
  if (label.starts_with(run.name + " at ")) return label.substr(run.name.size() + 4);
  const std::string element =
      run.element < 0 ? std::string() : garden.elements[static_cast<std::size_t>(run.element)].name + " ";
  const std::size_t said = element.size() > 1 ? label.find(element) : std::string::npos;
  return said == std::string::npos ? label : label.substr(0, said) + label.substr(said + element.size());
}

std::string words_for(const Garden& garden, const Piece& piece) {
  const auto at = [&](int index) -> const Leg& { return garden.legs[static_cast<std::size_t>(index)]; };
  const Leg& first = at(piece.legs.front());
  const Leg& last = at(piece.legs.back());
  const auto free_end = [&](const Leg& leg, const Leg& neighbour) {
    return leg.from == neighbour.from || leg.from == neighbour.to ? leg.to : leg.from;
  };
  int from = first.from, to = first.to;
  if (piece.legs.size() > 1) {
    from = free_end(first, at(piece.legs[1]));
    to = free_end(last, at(piece.legs[piece.legs.size() - 2]));
  }
  const Run& run = garden.runs[static_cast<std::size_t>(piece.run)];
  if (from == to) return run.name + ", all the way round";
  return fmt::format("{}, from {} to {}", run.name, end_words(garden, run, from), end_words(garden, run, to));
}

}  // namespace

std::vector<Piece> cut_pieces(const Garden& garden, const std::vector<std::pair<int, int>>& through) {
  std::vector<std::vector<int>> next(garden.legs.size());
  for (const auto& [a, b] : through) {
    next[static_cast<std::size_t>(a)].push_back(b);
    next[static_cast<std::size_t>(b)].push_back(a);
  }
  std::vector<bool> used(garden.legs.size(), false);
  std::vector<Piece> pieces;
  for (std::size_t i = 0; i < garden.legs.size(); ++i) {
    if (used[i]) continue;
    Piece piece;
    piece.legs = follow(far_end(static_cast<int>(i), next), -1, next);
    // The same way round whichever leg was met first: from the leg that was drawn first.
    if (piece.legs.back() < piece.legs.front()) std::reverse(piece.legs.begin(), piece.legs.end());
    piece.run = garden.legs[i].run;
    for (const int leg : piece.legs) {
      used[static_cast<std::size_t>(leg)] = true;
      piece.length += garden.legs[static_cast<std::size_t>(leg)].length;
      piece.run = std::min(piece.run, garden.legs[static_cast<std::size_t>(leg)].run);
    }
    if (garden.runs[static_cast<std::size_t>(piece.run)].existing) continue;
    piece.where = words_for(garden, piece);
    pieces.push_back(std::move(piece));
  }
  std::stable_sort(pieces.begin(), pieces.end(), [](const Piece& a, const Piece& b) { return a.run < b.run; });
  return pieces;
}

}  // namespace teetally::garden
