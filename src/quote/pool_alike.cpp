// Needs that the same offers serve under the same conditions need not be told apart when buying: filters for many
// different flows are one need where every filter on sale serves all of them.
#include <map>
#include <tuple>

#include "teetally/quote/pool.h"

namespace teetally {
namespace {

struct ServedBy {
  int item = -1;
  std::vector<std::pair<int, std::vector<int>>> conditions;
  std::int64_t least_coil = 0;
  auto operator<=>(const ServedBy&) const = default;
};
// Alike needs have equal keys.
using AlikeKey = std::tuple<std::string, std::vector<int>, int, std::vector<ServedBy>>;

std::vector<AlikeKey> keys_of(const OfferBook& book, std::size_t needs) {
  std::vector<AlikeKey> keys;
  for (std::size_t n = 0; n < needs; ++n) {
    const Need& need = book.takeoff.needs[n];
    keys.emplace_back(need.part.kind, need.systems, book.coupling_need[n], std::vector<ServedBy>());
  }
  for (const Serving& serving : book.servings) {
    if (serving.need >= static_cast<int>(needs)) continue;
    ServedBy by{serving.item, {}, serving.least_coil.tenths_mm};
    for (const FitCondition& condition : serving.conditions)
      by.conditions.emplace_back(condition.system, condition.families);
    std::get<3>(keys[serving.need]).push_back(std::move(by));
  }
  return keys;
}

// Adds one basket's pieces to the pool's needs, plot by plot.
void add_pieces(const Basket& basket, std::int64_t times, std::vector<Need>& needs) {
  for (std::int64_t copy = 0; copy < times; ++copy) {
    for (const Portion& portion : basket) {
      std::vector<NeededPiece>& pieces = needs[portion.need].pieces;
      pieces.insert(pieces.end(), portion.pieces.begin(), portion.pieces.end());
    }
  }
}

Basket merged(const Basket& basket, const std::vector<int>& number) {
  std::map<int, Portion> portions;
  for (const Portion& portion : basket) {
    Portion& all = portions.try_emplace(number[portion.need], Portion{number[portion.need], 0, {}}).first->second;
    all.amount += portion.amount;
    all.pieces.insert(all.pieces.end(), portion.pieces.begin(), portion.pieces.end());
  }
  Basket made;
  for (auto& [need, portion] : portions) made.push_back(std::move(portion));
  return made;
}

}  // namespace

Pooled merge_alike(const Pooled& pooled, const std::vector<PoolPart>& parts, const OfferBook& book, UnitSystem units) {
  Pooled made;
  made.takeoff.name = pooled.takeoff.name;
  made.takeoff.systems = pooled.takeoff.systems;
  made.takeoff.cautions = pooled.takeoff.cautions;
  made.takeoff.cutting = pooled.takeoff.cutting;
  std::map<AlikeKey, int> known;
  std::vector<int> number;
  const std::vector<AlikeKey> keys = keys_of(book, pooled.takeoff.needs.size());
  for (std::size_t n = 0; n < keys.size(); ++n) {
    const Need& need = pooled.takeoff.needs[n];
    const auto next = static_cast<int>(made.takeoff.needs.size());
    const bool served = !std::get<3>(keys[n]).empty();  // what nothing serves keeps its name
    number.push_back(served ? known.try_emplace(keys[n], next).first->second : next);
    if (number.back() == next) {
      made.takeoff.needs.push_back(need);
      made.takeoff.needs.back().pieces.clear();
      continue;
    }
    Need& first = made.takeoff.needs[number.back()];
    first.amount += need.amount;
    for (Reason reason : need.reasons) {
      reason.where = to_text(need.part, units);
      first.reasons.push_back(std::move(reason));
    }
  }
  for (std::size_t b = 0; b < parts.size(); ++b) {
    made.baskets.push_back(merged(pooled.baskets[b], number));
    add_pieces(made.baskets.back(), parts[b].times, made.takeoff.needs);
  }
  return made;
}

}  // namespace teetally
