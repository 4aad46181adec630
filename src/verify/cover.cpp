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

// States count what is still missing of each demand; the first is nothing at all. Offers are taken one after another.
class Cover {
 public:
  Cover(const CoverGroup& group, const PriceSplit& prices, bool trace)
      : group_(group), prices_(prices), size_(static_cast<std::size_t>(group.states)), trace_(trace) {
    std::int64_t stride = 1;
    for (const std::int64_t demand : group.demand) {
      strides_.push_back(stride);
      stride *= demand + 1;
    }
    best_.assign(size_, kDearest);
    best_[0] = 0;
    if (trace_) steps_.resize(group.offers.size());
  }

  std::int64_t run() {
    for (std::size_t i = 0; i < group_.offers.size(); ++i) take(i);
    return best_.back();
  }

  void read_off(CaseLook& look) const {
    if (best_.back() >= kDearest) return;
    std::size_t at = size_ - 1;
    for (std::size_t i = group_.offers.size(); i-- > 0;) {
      const Step& step = steps_[i][at];
      const CoverOffer& offer = group_.offers[i];
      if (offer.pack >= 0) {
        look.packs[static_cast<std::size_t>(offer.pack)] += step.lots * offer.lot;
      } else {
        look.uses[static_cast<std::size_t>(offer.bundle)][static_cast<std::size_t>(offer.share)] += step.lots;
      }
      at = step.from;
    }
  }

 private:
  struct Step {
    std::size_t from = 0;  // state before the offer
    std::int64_t lots = 0;
  };

  std::int64_t cost_of(const CoverOffer& offer, std::int64_t money) const {
    return times(prices_.rates[static_cast<std::size_t>(offer.supplier)], money);
  }
  std::int64_t share_of_bundle(const CoverOffer& offer) const {
    return prices_.shares[static_cast<std::size_t>(offer.bundle)][static_cast<std::size_t>(offer.share)];
  }

  // Calls `visit` with every state that is left when `units` are given to what is missing at `state`.
  template <typename Visit>
  void give(std::size_t state, unsigned dims, std::int64_t units, Visit visit) const {
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
  void give_from(std::size_t d, std::int64_t state, std::int64_t units, std::int64_t room_left,
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

  void keep(std::vector<std::int64_t>& now, std::size_t offer, std::size_t state, std::int64_t value, Step step) {
    if (value >= now[state]) return;
    now[state] = value;
    if (trace_) steps_[offer][state] = step;
  }

  void take(std::size_t i) {
    const CoverOffer& offer = group_.offers[i];
    const bool must = offer.least > 0;
    std::vector<std::int64_t> now = must ? std::vector<std::int64_t>(size_, kDearest) : best_;
    if (trace_) {
      steps_[i].resize(size_);
      for (std::size_t x = 0; x < size_; ++x) steps_[i][x] = {x, 0};
    }
    if (offer.runs.empty()) {
      take_counted(i, now);
    } else {
      for (const CoverRun& run : offer.runs) take_run(i, run, now);
    }
    best_ = std::move(now);
  }

  void take_counted(std::size_t i, std::vector<std::int64_t>& now) {
    const CoverOffer& offer = group_.offers[i];
    for (std::int64_t n = offer.least; n < static_cast<std::int64_t>(offer.costs.size()); ++n) {
      const std::int64_t money = offer.costs[static_cast<std::size_t>(n)];
      if (money < 0) continue;
      const std::int64_t cost = offer.pack >= 0 ? cost_of(offer, money) : times(share_of_bundle(offer), n);
      for (std::size_t x = 0; x < size_; ++x) {
        give(x, offer.dims, n * offer.units, [&](std::size_t left) {
          keep(now, i, x, plus(best_[left], cost), {left, n});
        });
      }
    }
  }

  // The first lots at once, then one by one on top of what the run itself has reached.
  void take_run(std::size_t i, const CoverRun& run, std::vector<std::int64_t>& now) {
    const CoverOffer& offer = group_.offers[i];
    const std::int64_t first = std::max(run.first, offer.least);
    const std::int64_t each = offer.pack >= 0 ? cost_of(offer, run.each) : share_of_bundle(offer);
    const std::int64_t start =
        offer.pack >= 0 ? cost_of(offer, run.start + run.each * (first - run.first)) : times(each, first);
    std::vector<std::int64_t> reached(size_, kDearest);
    std::vector<Step> from(trace_ ? size_ : 0);
    const auto note = [&](std::size_t x, std::int64_t value, Step step) {
      if (value >= reached[x]) return;
      reached[x] = value;
      if (trace_) from[x] = step;
    };
    for (std::size_t x = 0; x < size_; ++x) {
      give(x, offer.dims, first * offer.units, [&](std::size_t left) {
        note(x, plus(best_[left], start), {left, first});
      });
      give(x, offer.dims, offer.units, [&](std::size_t left) {
        if (left == x || reached[left] >= kDearest) return;
        note(x, plus(reached[left], each), trace_ ? Step{from[left].from, from[left].lots + 1} : Step{});
      });
    }
    for (std::size_t x = 0; x < size_; ++x) {
      keep(now, i, x, reached[x], trace_ ? from[x] : Step{});
    }
  }

  const CoverGroup& group_;
  const PriceSplit& prices_;
  std::size_t size_;
  bool trace_;
  std::vector<std::int64_t> strides_;
  std::vector<std::int64_t> best_;
  std::vector<std::vector<Step>> steps_;  // by offer and state
};

}  // namespace

std::int64_t least_cover(const CoverGroup& group, const PriceSplit& prices, CaseLook* look) {
  Cover cover(group, prices, look != nullptr);
  const std::int64_t least = cover.run();
  if (look != nullptr) cover.read_off(*look);
  return least;
}

}  // namespace teetally
