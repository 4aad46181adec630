// The cut list in the words of the book: coils by the need that is cut from them first, each with its cuts in order.
#include <algorithm>
#include <map>
#include <tuple>

#include "purchase/state_purchase.h"

namespace teetally {
namespace {

using PieceKey = std::pair<int, int>;  // need, index into Need::pieces

std::map<PieceKey, int> parts_of(const PurchaseProblem& problem, const std::vector<LaidCoil>& coils) {
  std::map<PieceKey, int> parts;
  for (const LaidCoil& coil : coils) {
    for (const LaidCut& cut : coil.cuts) ++parts[{cut.need, problem.pieces[cut.need][cut.piece].index}];
  }
  return parts;
}

// Coils that are joined follow one another, so only whole runs of coils may change places.
struct Chain {
  std::vector<CutCoil> coils;
  int need = 0;
  bool used = false;
};

bool goes_on(const CutCoil& coil) { return !coil.cuts.empty() && coil.cuts.front().part > 1; }

}  // namespace

std::int64_t needed_with_joins(const OfferBook& book, const Purchase& purchase, int need) {
  std::int64_t amount = book.takeoff.needs[need].amount;
  for (const JoinReason& join : purchase.joins) amount += join.need == need ? join.amount : 0;
  return amount;
}

void state_cuts(const OfferBook& book, const PurchaseProblem& problem, const Solved& solved, Purchase& purchase) {
  const std::map<PieceKey, int> parts = parts_of(problem, solved.coils);
  std::map<PieceKey, int> seen;
  std::vector<Chain> chains;
  for (const LaidCoil& laid : solved.coils) {
    CutCoil coil;
    if (laid.product >= 0) {
      coil.catalog = problem.products[laid.product].catalog;
      coil.item = problem.products[laid.product].item;
    }
    coil.length = coil.left = Length{laid.length};
    for (const LaidCut& cut : laid.cuts) {
      const PieceKey key{cut.need, problem.pieces[cut.need][cut.piece].index};
      coil.cuts.push_back({key.first, key.second, Length{cut.length}, ++seen[key], parts.at(key)});
      coil.left = coil.left - Length{cut.length};
    }
    coil.spare = coil.left.tenths_mm > 0 && coil.left >= book.takeoff.cutting.spare_from;
    if (chains.empty() || !goes_on(coil)) chains.emplace_back();
    Chain& chain = chains.back();
    if (chain.coils.empty() && !coil.cuts.empty()) chain.need = coil.cuts.front().need, chain.used = true;
    chain.coils.push_back(std::move(coil));
  }
  std::stable_sort(chains.begin(), chains.end(), [](const Chain& a, const Chain& b) {
    return std::tuple{!a.used, a.need, -a.coils[0].length.tenths_mm} <
           std::tuple{!b.used, b.need, -b.coils[0].length.tenths_mm};
  });
  for (Chain& chain : chains) {
    for (CutCoil& coil : chain.coils) purchase.coils.push_back(std::move(coil));
  }
  for (const auto& [key, count] : parts) {
    const NeededPiece& piece = book.takeoff.needs[key.first].pieces[key.second];
    if (count > 1 && !piece.any_cut) {
      purchase.joins.push_back({book.coupling_need[key.first], key.first, key.second, count - 1});
    }
  }
}

}  // namespace teetally
