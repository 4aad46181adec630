#include "verify/cover.h"

#include <algorithm>

#include "verify/wide.h"

namespace teetally {
namespace {

std::int64_t times(std::int64_t price, std::int64_t money) {
  const Wide product = static_cast<Wide>(price) * money;
  return product > kDearest ? kDearest : static_cast<std::int64_t>(product);
}

std::int64_t plus(std::int64_t a, std::int64_t b) { return std::min(a + b, kDearest); }

std::int64_t price_of_lots(const CoverOffer& offer, std::int64_t rate, std::int64_t lots) {
  if (lots == 0) return 0;
  if (!offer.costs.empty()) {
    const std::int64_t money =
        lots < static_cast<std::int64_t>(offer.costs.size()) ? offer.costs[static_cast<std::size_t>(lots)] : -1;
    return money < 0 ? kDearest : times(rate, money);
  }
  std::int64_t least = kDearest;
  for (const CoverRun& run : offer.runs) {
    const std::int64_t first = std::max(run.first, offer.least);
    if (lots < first) continue;
    const std::int64_t start = times(rate, run.start + run.each * (first - run.first));
    least = std::min(least, plus(start, times(times(rate, run.each), lots - first)));
  }
  return least;
}

}  // namespace

Covering::Covering(const CoverGroup& group) : group_(group), size_(static_cast<std::size_t>(group.states)) {
  std::int64_t stride = 1;
  for (const std::int64_t demand : group.demand) {
    strides_.push_back(stride);
    stride *= demand + 1;
    total_ += demand;
  }
}

Steps Covering::nothing_taken() const {
  Steps table(size_, kDearest);
  table[0] = 0;
  return table;
}

// Calls `visit` with every state that is left when `units` are given to what is missing at `state`.
template <typename Visit>
void Covering::give(std::size_t state, unsigned dims, std::int64_t units, Visit visit) const {
  if (group_.demand.size() == 1) {
    visit(state - static_cast<std::size_t>(std::min(units, static_cast<std::int64_t>(state))));
    return;
  }
  std::vector<std::int64_t> room;
  std::int64_t all = 0;
  for (std::size_t d = 0; d < strides_.size(); ++d) {
    const std::int64_t missing = static_cast<std::int64_t>(state) / strides_[d] % (group_.demand[d] + 1);
    room.push_back((dims >> d & 1U) != 0 ? missing : 0);
    all += room.back();
  }
  give_from(0, static_cast<std::int64_t>(state), std::min(units, all), all, room, visit);
}

template <typename Visit>
void Covering::give_from(std::size_t d, std::int64_t state, std::int64_t units, std::int64_t room_left,
                         const std::vector<std::int64_t>& room, Visit visit) const {
  if (units == 0) {
    visit(static_cast<std::size_t>(state));
    return;
  }
  const std::int64_t rest = room_left - room[d];
  for (std::int64_t g = std::max<std::int64_t>(0, units - rest); g <= std::min(units, room[d]); ++g) {
    give_from(d + 1, state - g * strides_[d], units - g, rest, room, visit);
  }
}

void Covering::add(const Steps& before, Steps& after, unsigned dims, std::int64_t units, std::int64_t cost) const {
  if (group_.demand.size() > 1) {
    for (std::size_t x = 0; x < size_; ++x) {
      give(x, dims, units, [&](std::size_t left) { after[x] = std::min(after[x], plus(before[left], cost)); });
    }
    return;
  }
  const auto whole = static_cast<std::size_t>(std::min(units, static_cast<std::int64_t>(size_)));
  for (std::size_t x = 0; x < whole; ++x) after[x] = std::min(after[x], plus(before[0], cost));
  for (std::size_t x = whole; x < size_; ++x) after[x] = std::min(after[x], plus(before[x - whole], cost));
}

// The first lots at once, then one by one on top of what the run itself has reached.
void Covering::take_run(const CoverOffer& offer, std::int64_t first, std::int64_t start, std::int64_t each,
                        const Steps& before, Steps& after) const {
  Steps reached(size_, kDearest);
  add(before, reached, offer.dims, first * offer.units, start);
  for (std::size_t x = 0; x < size_; ++x) {
    give(x, offer.dims, offer.units, [&](std::size_t left) {
      if (left != x) reached[x] = std::min(reached[x], plus(reached[left], each));
    });
    after[x] = std::min(after[x], reached[x]);
  }
}

void Covering::take_pack(const CoverOffer& offer, std::int64_t rate, const Steps& before, Steps& after) const {
  after.assign(size_, kDearest);
  if (offer.least == 0) after = before;
  if (!offer.costs.empty()) {
    for (std::int64_t n = std::max<std::int64_t>(offer.least, 1); n < static_cast<std::int64_t>(offer.costs.size());
         ++n) {
      const std::int64_t cost = price_of_lots(offer, rate, n);
      if (cost < kDearest) add(before, after, offer.dims, n * offer.units, cost);
    }
    return;
  }
  for (const CoverRun& run : offer.runs) {
    const std::int64_t first = std::max(run.first, offer.least);
    take_run(offer, first, times(rate, run.start + run.each * (first - run.first)), times(rate, run.each), before,
             after);
  }
}

std::int64_t Covering::enough(const CoverOffer& offer) const { return (total_ + offer.units - 1) / offer.units; }

bool Covering::counted(const CoverOffer& offer, const StatedShare& share) const {
  return offer.runs.empty() || !share.values.empty();
}

std::int64_t Covering::last_count(const CoverOffer& offer, const StatedShare& share) const {
  if (offer.runs.empty()) return offer.most;
  const std::int64_t beyond = share.first + static_cast<std::int64_t>(share.values.size()) - 1;
  return std::min(offer.most, std::max({enough(offer), beyond, offer.least}));
}

void Covering::take_content(const CoverOffer& offer, const StatedShare& share, const Steps& before,
                            Steps& after) const {
  after.assign(size_, kDearest);
  if (counted(offer, share)) {
    for (std::int64_t n = offer.least; n <= last_count(offer, share); ++n) {
      add(before, after, offer.dims, n * offer.units, share.of(n));
    }
    return;
  }
  if (offer.least == 0) after = before;
  const std::int64_t first = std::max<std::int64_t>(offer.least, 1);
  take_run(offer, first, share.of(first), share.each, before, after);
}

std::int64_t Covering::meet(const Steps& before, const Steps& after, unsigned dims, std::int64_t units) const {
  std::int64_t least = kDearest;
  for (std::size_t x = 0; x < size_; ++x) {
    give(x, dims, units, [&](std::size_t left) { least = std::min(least, plus(before[left], after[size_ - 1 - x])); });
  }
  return least;
}

Covering::Found Covering::look_back(const CoverOffer& offer, std::int64_t rate, const StatedShare* share,
                                    const Steps& before, const Steps& after, std::size_t state) const {
  std::int64_t most = std::max(enough(offer), offer.least);
  for (const CoverRun& run : offer.runs) most = std::max(most, run.first);
  if (share != nullptr && counted(offer, *share)) most = last_count(offer, *share);
  if (share == nullptr && !offer.costs.empty()) most = static_cast<std::int64_t>(offer.costs.size()) - 1;
  Found found{0, state};
  bool done = offer.least == 0 && (share == nullptr || share->of(0) == 0) && after[state] == before[state];
  for (std::int64_t n = offer.least; n <= most && !done; ++n) {
    const std::int64_t cost = share != nullptr ? share->of(n) : price_of_lots(offer, rate, n);
    give(state, offer.dims, n * offer.units, [&](std::size_t left) {
      if (done || plus(before[left], cost) != after[state]) return;
      found = {n, left};
      done = true;
    });
  }
  return found;
}

bool can_be_met(const CoverGroup& group) {
  const Covering covering(group);
  Steps now = covering.nothing_taken(), next;
  for (const CoverOffer& offer : group.offers) {
    if (offer.pack >= 0) {
      covering.take_pack(offer, 0, now, next);
    } else {
      covering.take_content(offer, {}, now, next);
    }
    now.swap(next);
  }
  return now.back() < kDearest;
}

}  // namespace teetally
