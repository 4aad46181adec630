#include "needs/tally.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

namespace teetally {
namespace {

std::size_t rank_of(const std::string& kind, const Vocabulary& vocabulary) {
  const auto found = std::find_if(vocabulary.kinds.begin(), vocabulary.kinds.end(),
                                  [&](const KindType& type) { return type.name == kind; });
  return static_cast<std::size_t>(found - vocabulary.kinds.begin());
}

}  // namespace

Need& Tally::add(const PartSpec& part, const std::vector<int>& systems, Reason reason) {
  auto [entry, is_new] = needs_.try_emplace(Key{rank_of(part.kind, vocabulary_), part, systems});
  Need& need = entry->second;
  if (is_new) {
    const KindType* kind = vocabulary_.find(part.kind);
    need.part = part;
    need.systems = systems;
    need.by_length = kind != nullptr && kind->by_length;
    need.place = reason.place;
  }
  add(need, std::move(reason));
  return need;
}

void Tally::add(Need& need, Reason reason) {
  need.amount += reason.amount;
  need.reasons.push_back(std::move(reason));
}

std::vector<Need*> Tally::needs() {
  std::vector<Need*> all;
  for (auto& [key, need] : needs_) all.push_back(&need);
  return all;
}

void Tally::finish(std::vector<Need>& to_buy, std::vector<Need>& covered) {
  const int digits = std::max(2, static_cast<int>(std::to_string(needs_.size()).size()));
  int number = 0;
  for (auto& [key, need] : needs_) {
    assert(adds_up(need) && need.amount >= 0);
    need.id = fmt::format("N{:0{}}", ++number, digits);
    (need.amount > 0 ? to_buy : covered).push_back(std::move(need));
  }
  needs_.clear();
}

bool adds_up(const Need& need) {
  std::int64_t sum = 0;
  for (const Reason& reason : need.reasons) sum += reason.amount;
  return sum == need.amount;
}

}  // namespace teetally
