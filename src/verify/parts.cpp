#include "teetally/verify/parts.h"

#include <algorithm>

#include "verify/goods.h"
#include "verify/wide.h"

namespace teetally {
namespace {

constexpr std::int64_t kMostCounts = 1'000;  // of a bundle, looked at one by one

// Whatever is as low as -kDearest stays so, whatever is added: nothing is known of it.
std::int64_t bounded(Wide value) {
  const Wide most = kDearest;
  return static_cast<std::int64_t>(std::clamp(value, -most, most));
}
std::int64_t together(std::int64_t a, std::int64_t b) {
  return std::min(a, b) <= -kDearest ? -kDearest : bounded(static_cast<Wide>(a) + b);
}

// The part of a stretch that lies in a state.
GoodsStretch part_of(const GoodsStretch& stretch, std::int64_t from, std::int64_t to) {
  GoodsStretch part{std::max(stretch.from, from), std::min(stretch.to, to), stretch.discount_ppm, stretch.charge, {}};
  for (const GoodsStretch::Value& value : stretch.values) {
    if (value.goods >= from && value.goods <= to) part.values.push_back(value);
  }
  return part;
}

std::int64_t units_swapped(const BundleContent& content) { return content.length.tenths_mm > 0 ? 1 : content.count; }

// Leaves out values at either end whose bound is above `enough`; by how many each end moves.
std::pair<std::int64_t, std::int64_t> ends_above(const Steps& bounds, std::int64_t enough) {
  const auto low = [&](std::int64_t bound) { return bound <= enough; };
  const auto first = std::find_if(bounds.begin(), bounds.end(), low);
  const auto last = std::find_if(bounds.rbegin(), bounds.rend(), low);
  return {first - bounds.begin(), last - bounds.rbegin()};
}

}  // namespace

std::vector<OpenState> open_states(const OpenCase& open, std::size_t supplier, const PriceSplit& prices,
                                   std::int64_t steps) {
  std::vector<OpenState> states;
  if (open.may_be_unused(supplier)) states.push_back({});
  const std::vector<StatedRate>& rates = prices.rates[supplier];
  for (std::size_t j = 0; j < rates.size(); ++j) {
    const std::int64_t from = rates[j].from, to = j + 1 < rates.size() ? rates[j + 1].from - 1 : kMostOfAll;
    GoodsFloor least;
    bool any = false;
    for (const GoodsStretch& stretch : open.stretches()[supplier]) {
      const GoodsStretch part = part_of(stretch, from, to);
      if (part.from > part.to || (part.values.empty() && !stretch.values.empty())) continue;
      const GoodsFloor floor = goods_floor(open.market().catalogs[supplier]->terms, part, rates[j].rate, steps);
      if (!any || floor.steps < least.steps) least = floor;
      any = true;
    }
    if (any) states.push_back({static_cast<int>(j), rates[j].rate, bounded(least.steps), least.goods});
  }
  return states;
}

CaseParts::CaseParts(const OpenCase& open, const PriceSplit& prices, std::int64_t steps)
    : open_(open), prices_(prices), steps_(steps) {
  const Market& market = open.market();
  for (std::size_t s = 0; s < market.catalogs.size(); ++s) states_.push_back(open_states(open, s, prices, steps));
  for (const CoverGroup& group : open.groups()) covers_.emplace_back(group, prices, states_);
  bundles_of_.resize(market.catalogs.size());
  for (std::size_t b = 0; b < market.bundles.size(); ++b) {
    if (open.bundle_spans()[b].to > 0) bundles_of_[static_cast<std::size_t>(market.bundles[b].supplier)].push_back(b);
  }
}

// What so many bundles cost more than the needs pay for them, with their changes as cheap as they can be.
std::int64_t CaseParts::bundle_cost(std::size_t bundle, const OpenState& state, std::int64_t count) const {
  if (state.state < 0 && count > 0) return kDearest;
  const Market& market = open_.market();
  const std::vector<StatedShare>& shares = prices_.shares[bundle];
  const Wide rate = state.rate;
  Wide cost = rate * market.bundle(bundle).price.minor * count;
  std::size_t share = 0;
  for (const BundleContent& content : market.bundle(bundle).contents) {
    if (is_always_taken(market, bundle, content)) {
      const StatedShare& paid = shares[share++];
      cost -= paid.values.empty() ? static_cast<Wide>(paid.each) * count : static_cast<Wide>(paid.of(count));
      continue;
    }
    Wide least = -static_cast<Wide>(shares[share].each);
    if (content.leave_out && market.bundles[bundle].leave_outs) {
      least = std::min(least, -rate * content.leave_out->minor);
    }
    for (std::size_t i = 0; i < content.swaps.size(); ++i) {
      least =
          std::min(least, rate * content.swaps[i].extra.minor * units_swapped(content) - shares[share + 1 + i].each);
    }
    share += 1 + content.swaps.size();
    cost += least * count;
  }
  return bounded(cost);
}

// Between the last count that shares tell apart and the case's most, cost is a straight line.
std::int64_t CaseParts::bundle_least(std::size_t bundle, const OpenState& state, std::int64_t* count) const {
  const Span& span = open_.bundle_spans()[bundle];
  std::int64_t least = bundle_cost(bundle, state, span.from), last = span.from;
  if (count != nullptr) *count = span.from;
  const auto look = [&](std::int64_t n) {
    const std::int64_t cost = bundle_cost(bundle, state, n);
    if (cost >= least) return;
    least = cost;
    if (count != nullptr) *count = n;
  };
  if (state.state < 0) return least;
  for (const StatedShare& share : prices_.shares[bundle]) {
    last = std::max(last, share.first + static_cast<std::int64_t>(share.values.size()) - 1);
  }
  for (std::int64_t n = span.from + 1; n <= std::min(last, span.to); ++n) look(n);
  if (span.to > span.from) look(span.to);
  return least;
}

Steps CaseParts::order_without(std::size_t supplier, std::size_t bundle) const {
  Steps least;
  for (const OpenState& state : states_[supplier]) {
    std::int64_t sum = state.least;
    for (const GroupCover& cover : covers_) sum = together(sum, -cover.call(static_cast<int>(supplier), state.state));
    for (const std::size_t b : bundles_of_[supplier]) {
      if (b != bundle) sum = together(sum, bundle_least(b, state, nullptr));
    }
    least.push_back(sum);
  }
  return least;
}

Steps CaseParts::order(std::size_t supplier) const { return order_without(supplier, open_.bundle_spans().size()); }

Steps CaseParts::order_by_count(std::size_t bundle, std::int64_t counts) const {
  const auto supplier = static_cast<std::size_t>(open_.market().bundles[bundle].supplier);
  const Steps others = order_without(supplier, bundle);
  Steps least(static_cast<std::size_t>(counts), kDearest);
  for (std::size_t a = 0; a < others.size(); ++a) {
    for (std::int64_t n = 0; n < counts; ++n) {
      const std::int64_t cost = bundle_cost(bundle, states_[supplier][a], open_.bundle_spans()[bundle].from + n);
      std::int64_t& slot = least[static_cast<std::size_t>(n)];
      slot = std::min(slot, together(others[a], cost));
    }
  }
  return least;
}

std::int64_t CaseParts::start(bool from_front) {
  Wide total = 0;
  for (GroupCover& cover : covers_) {
    cover.start();
    const std::size_t count = cover.elements().size();
    for (std::size_t e = 0; e < count; ++e) {
      if (from_front) {
        cover.forward(e);
      } else {
        cover.backward(count - 1 - e);
      }
    }
    total += from_front ? cover.from_front() : cover.from_back();
  }
  for (std::size_t s = 0; s < states_.size(); ++s) {
    const Steps least = order(s);
    const std::int64_t part = least.empty() ? kDearest : *std::min_element(least.begin(), least.end());
    if (part <= -kDearest) return -kDearest;
    total += part;
  }
  return bounded(total);
}

void CaseParts::look_at_orders(CaseLook& look) const {
  const Market& market = open_.market();
  for (std::size_t s = 0; s < states_.size(); ++s) {
    const Steps least = order(s);
    if (least.empty()) continue;
    const auto best = static_cast<std::size_t>(std::min_element(least.begin(), least.end()) - least.begin());
    look.order_goods[s] = states_[s][best].goods;
    for (const std::size_t b : bundles_of_[s]) {
      bundle_least(b, states_[s][best], &look.bundles[b]);
      const std::vector<StatedShare>& shares = prices_.shares[b];
      const Wide rate = states_[s][best].rate;
      int share = 0;
      for (const BundleContent& content : market.bundle(b).contents) {
        Wide cheapest = -static_cast<Wide>(shares[static_cast<std::size_t>(share)].each);
        int kept = share;
        const auto offer = [&](Wide value, int which) {
          if (value < cheapest) cheapest = value, kept = which;
        };
        if (content.leave_out && market.bundles[b].leave_outs) offer(-rate * content.leave_out->minor, -1);
        for (const Swap& swap : content.swaps) {
          ++share;
          offer(rate * swap.extra.minor * units_swapped(content) - shares[static_cast<std::size_t>(share)].each, share);
        }
        ++share;
        look.kept[b].push_back(kept);
      }
    }
  }
}

std::int64_t CaseParts::bound(CaseLook* look) {
  const std::int64_t total = start();
  if (look == nullptr) return total;
  const Market& market = open_.market();
  const std::size_t bundles = market.bundles.size();
  *look = {std::vector<std::int64_t>(states_.size(), -1),
           std::vector<std::int64_t>(market.packs.size(), 0),
           std::vector<std::int64_t>(bundles, 0),
           std::vector<std::vector<int>>(bundles),
           {}};
  for (std::size_t b = 0; b < bundles; ++b) look->uses.emplace_back(prices_.shares[b].size(), 0);
  for (const GroupCover& cover : covers_) cover.read_off(*look);
  look_at_orders(*look);
  return total;
}

// How far a value's bound lies above the case's: by what every part rises in which it is settled.
CaseParts::Rises CaseParts::rises() {
  Rises rises;
  rises.states.resize(states_.size());
  rises.counts.resize(prices_.shares.size());
  for (std::size_t s = 0; s < states_.size(); ++s) rises.states[s] = order(s);
  for (std::size_t b = 0; b < rises.counts.size(); ++b) {
    const Span& span = open_.bundle_spans()[b];
    if (span.to > span.from && span.to - span.from <= kMostCounts) {
      rises.counts[b] = order_by_count(b, span.to - span.from + 1);
    }
  }
  const auto from_least = [](Steps& values) {
    if (values.empty()) return;
    const std::int64_t least = *std::min_element(values.begin(), values.end());
    for (std::int64_t& value : values) value = together(value, -least);
  };
  for (Steps& values : rises.states) from_least(values);
  for (Steps& values : rises.counts) from_least(values);
  for (GroupCover& cover : covers_) add_rises(cover, rises);
  return rises;
}

void CaseParts::add_rises(GroupCover& cover, Rises& rises) const {
  for (std::size_t e = 0; e < cover.elements().size(); ++e) {
    const GroupCover::Element& at = cover.elements()[e];
    const Steps settled = cover.settled(e);
    cover.forward(e);
    if (settled.empty() || (at.bundle >= 0 && !at.always)) continue;
    const std::int64_t shift =
        at.bundle < 0 ? 0 : open_.bundle_spans()[static_cast<std::size_t>(at.bundle)].from - at.first;
    Steps& sums = at.bundle < 0 ? rises.states[static_cast<std::size_t>(at.supplier)]
                                : rises.counts[static_cast<std::size_t>(at.bundle)];
    const auto last = static_cast<std::int64_t>(settled.size()) - 1;
    for (std::size_t v = 0; v < sums.size(); ++v) {
      // Counts beyond the last cover nothing more and are paid no more.
      const auto i = std::clamp<std::int64_t>(static_cast<std::int64_t>(v) + shift, 0, last);
      sums[v] = together(sums[v], settled[static_cast<std::size_t>(i)] - cover.from_back());
    }
  }
}

std::size_t CaseParts::narrow(CaseSpans& spans, std::int64_t enough) {
  const std::int64_t total = start(false);
  if (total <= -kDearest) return 0;
  const Rises above = rises();
  std::size_t left_out = 0;
  for (std::size_t s = 0; s < states_.size(); ++s) {
    if (above.states[s].empty()) continue;
    const auto [low, high] = ends_above(above.states[s], enough - total);
    if (low + high == 0) continue;
    left_out += static_cast<std::size_t>(low + high);
    narrow_order(s, spans.goods[s], low, high);
  }
  for (std::size_t b = 0; b < above.counts.size(); ++b) {
    if (above.counts[b].empty()) continue;
    const auto [low, high] = ends_above(above.counts[b], enough - total);
    left_out += static_cast<std::size_t>(low + high);
    const Span& open = open_.bundle_spans()[b];
    spans.bundles[b] = {open.from + low, open.to - high};
  }
  return left_out;
}

void CaseParts::narrow_order(std::size_t supplier, Span& span, std::int64_t low, std::int64_t high) const {
  const auto count = static_cast<std::int64_t>(states_[supplier].size());
  if (low == count) {
    span.to = span.from - 1;
    return;
  }
  const std::vector<StatedRate>& rates = prices_.rates[supplier];
  const int lowest = states_[supplier][static_cast<std::size_t>(low)].state;
  const int highest = states_[supplier][static_cast<std::size_t>(count - 1 - high)].state;
  if (low > 0) span.from = std::max(span.from, lowest < 0 ? -1 : rates[static_cast<std::size_t>(lowest)].from);
  if (high > 0) {
    span.to = std::min(span.to, highest < 0 ? -1 : rates[static_cast<std::size_t>(highest) + 1].from - 1);
  }
}

}  // namespace teetally
