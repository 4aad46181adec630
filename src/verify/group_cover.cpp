#include <algorithm>

#include "verify/cover.h"

namespace teetally {
namespace {

bool must_buy(const CoverGroup& group, const GroupCover::Element& element) {
  return std::any_of(group.offers.begin() + static_cast<std::ptrdiff_t>(element.offer),
                     group.offers.begin() + static_cast<std::ptrdiff_t>(element.end),
                     [](const CoverOffer& offer) { return offer.least > 0; });
}

void lower(Steps& table, const Steps& to, std::int64_t more) {
  for (std::size_t x = 0; x < table.size(); ++x) table[x] = std::min({table[x], to[x] + more, kDearest});
}

const StatedShare& share_of(const PriceSplit& prices, const CoverOffer& offer) {
  return prices.shares[static_cast<std::size_t>(offer.bundle)][static_cast<std::size_t>(offer.share)];
}

// Tables after each of a supplier's offers, the first before all of them.
std::vector<Steps> buy(const CoverGroup& group, const GroupCover::Element& element, std::int64_t rate,
                       const Steps& before) {
  const Covering covering(group);
  std::vector<Steps> tables{before};
  for (std::size_t i = element.offer; i < element.end; ++i) {
    Steps next;
    covering.take_pack(group.offers[i], rate, tables.back(), next);
    tables.push_back(std::move(next));
  }
  return tables;
}

// Calls `visit` with each open state and what comes of it; states of one rate share a table.
template <typename Visit>
void each_state(const CoverGroup& group, const GroupCover::Element& element, const std::vector<OpenState>& states,
                const Steps& before, Visit visit) {
  const bool must = must_buy(group, element);
  std::vector<Steps> bought;
  std::int64_t rate = -1;
  for (const OpenState& state : states) {
    if (state.state < 0) {
      visit(state, must ? Steps(before.size(), kDearest) : before);
      continue;
    }
    if (bought.empty() || state.rate != rate) bought = buy(group, element, state.rate, before);
    rate = state.rate;
    visit(state, bought.back());
  }
}

}  // namespace

std::int64_t StatedShare::of(std::int64_t count) const {
  if (values.empty()) return each > 0 && count > kDearest / each ? kDearest : each * count;
  const std::int64_t last = static_cast<std::int64_t>(values.size()) - 1;
  return values[static_cast<std::size_t>(std::clamp<std::int64_t>(count - first, 0, last))];
}

GroupCover::GroupCover(const CoverGroup& group, const PriceSplit& prices,
                       const std::vector<std::vector<OpenState>>& states)
    : group_(&group), prices_(&prices), states_(&states) {
  const Covering covering(group);
  std::size_t i = 0;
  for (; i < group.offers.size() && group.offers[i].bundle >= 0; ++i) {
    const CoverOffer& offer = group.offers[i];
    elements_.push_back({i, i + 1, -1, offer.bundle, offer.share, offer.always,
                         covering.counted(offer, share_of(prices, offer)), offer.least});
  }
  for (std::size_t s = 0; s < states.size(); ++s) {
    const std::size_t first = i;
    while (i < group.offers.size() && group.offers[i].supplier == static_cast<int>(s)) ++i;
    const bool called = !prices.calls.empty() && !prices.calls[s].empty();
    if (i > first || called) elements_.push_back({first, i, static_cast<int>(s), -1, -1, false, false, 0});
  }
  front_.resize(elements_.size() + 1);
  back_.resize(elements_.size() + 1);
  start();
}

void GroupCover::start() { front_.front() = back_.back() = Covering(*group_).nothing_taken(); }

std::int64_t GroupCover::call(int supplier, int state) const {
  const auto s = static_cast<std::size_t>(supplier);
  if (prices_->calls.empty() || prices_->calls[s].empty()) return 0;
  std::int64_t sum = 0;
  for (const int need : group_->needs) {
    sum += prices_->calls[s][static_cast<std::size_t>(need)][static_cast<std::size_t>(state) + 1];
  }
  return sum;
}

void GroupCover::take(std::size_t element, const Steps& before, Steps& after) const {
  const Element& at = elements_[element];
  if (at.bundle >= 0) {
    const CoverOffer& offer = group_->offers[at.offer];
    Covering(*group_).take_content(offer, share_of(*prices_, offer), before, after);
    return;
  }
  after.assign(before.size(), kDearest);
  each_state(*group_, at, (*states_)[static_cast<std::size_t>(at.supplier)], before,
             [&](const OpenState& state, const Steps& table) { lower(after, table, call(at.supplier, state.state)); });
}

void GroupCover::forward(std::size_t element) { take(element, front_[element], front_[element + 1]); }
void GroupCover::backward(std::size_t element) { take(element, back_[element + 1], back_[element]); }

std::int64_t GroupCover::meet(const Steps& before, const Steps& after) const {
  std::int64_t least = kDearest;
  for (std::size_t x = 0; x < before.size(); ++x) least = std::min(least, before[x] + after[before.size() - 1 - x]);
  return least;
}

Steps GroupCover::settled(std::size_t element) const {
  const Element& at = elements_[element];
  const Steps& before = front_[element];
  const Steps& after = back_[element + 1];
  Steps least;
  if (at.bundle < 0) {
    each_state(*group_, at, (*states_)[static_cast<std::size_t>(at.supplier)], before,
               [&](const OpenState& state, const Steps& table) {
                 least.push_back(std::min(meet(table, after) + call(at.supplier, state.state), kDearest));
               });
    return least;
  }
  if (!at.counted) return least;
  const Covering covering(*group_);
  const CoverOffer& offer = group_->offers[at.offer];
  const StatedShare& share = share_of(*prices_, offer);
  for (std::int64_t n = offer.least; n <= covering.last_count(offer, share); ++n) {
    least.push_back(std::min(covering.meet(before, after, offer.dims, n * offer.units) + share.of(n), kDearest));
  }
  return least;
}

void GroupCover::read_off(CaseLook& look) const {
  if (from_front() >= kDearest) return;
  const Covering covering(*group_);
  std::size_t x = front_.back().size() - 1;
  for (std::size_t e = elements_.size(); e-- > 0;) {
    const Element& at = elements_[e];
    if (at.bundle >= 0) {
      const CoverOffer& offer = group_->offers[at.offer];
      const auto found = covering.look_back(offer, 0, &share_of(*prices_, offer), front_[e], front_[e + 1], x);
      look.uses[static_cast<std::size_t>(at.bundle)][static_cast<std::size_t>(at.share)] += found.lots;
      x = found.from;
      continue;
    }
    for (const OpenState& state : (*states_)[static_cast<std::size_t>(at.supplier)]) {
      const auto tables = state.state < 0 ? std::vector<Steps>{front_[e]} : buy(*group_, at, state.rate, front_[e]);
      if (tables.back()[x] + call(at.supplier, state.state) != front_[e + 1][x]) continue;
      for (std::size_t i = tables.size() - 1; i-- > 0;) {
        const CoverOffer& offer = group_->offers[at.offer + i];
        const auto found = covering.look_back(offer, state.rate, nullptr, tables[i], tables[i + 1], x);
        look.packs[static_cast<std::size_t>(offer.pack)] += found.lots * offer.lot;
        x = found.from;
      }
      break;
    }
  }
}

}  // namespace teetally
