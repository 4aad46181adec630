#include "purchase/certify/sweep.h"

#include <algorithm>
#include <cmath>

namespace teetally {
namespace {

constexpr std::int64_t kMostCounts = 600;       // of a bundle
constexpr std::int64_t kMostWork = 60'000'000;  // moves of a sweep
constexpr std::size_t kMostStretches = 6;
constexpr std::int64_t kMostPaid = 900'000'000'000;
constexpr std::int64_t kMillion = 1'000'000;

bool is_open(const OpenCase& open, std::size_t b) {
  const Span& span = open.bundle_spans()[b];
  return span.to > span.from && span.to - span.from <= kMostCounts;
}

// Where a part holds a count or a state.
struct Seat {
  std::size_t cover = 0, element = 0;
};

class Sweep {
 public:
  Sweep(const OpenCase& open, PriceSplit& prices, std::int64_t steps)
      : open_(open),
        prices_(prices),
        parts_(open, prices, steps),
        seats_(prices.shares.size()),
        order_seats_(prices.rates.size()) {
    for (std::size_t g = 0; g < parts_.covers().size(); ++g) {
      const auto& elements = parts_.covers()[g].elements();
      for (std::size_t e = 0; e < elements.size(); ++e) {
        auto& seats = elements[e].bundle >= 0 ? seats_[static_cast<std::size_t>(elements[e].bundle)]
                                              : order_seats_[static_cast<std::size_t>(elements[e].supplier)];
        seats.push_back({g, e});
      }
    }
  }

  // The bound before the pass.
  std::int64_t pass(bool rising) {
    const std::int64_t bound = parts_.start(!rising);
    const std::size_t bundles = seats_.size(), all = bundles + order_seats_.size();
    for (std::size_t i = 0; i < all; ++i) {
      const std::size_t variable = rising ? i : all - 1 - i;
      if (variable < bundles) {
        if (is_open(open_, variable)) share_count(variable, rising);
        step(seats_[variable], rising);
      } else {
        if (parts_.states()[variable - bundles].size() > 1) share_state(variable - bundles, rising);
        step(order_seats_[variable - bundles], rising);
      }
    }
    return bound;
  }
  std::int64_t bound() { return parts_.start(); }

 private:
  void step(const std::vector<Seat>& seats, bool rising) {
    for (std::size_t i = 0; i < seats.size(); ++i) {
      const Seat& seat = seats[rising ? i : seats.size() - 1 - i];
      if (rising) {
        parts_.covers()[seat.cover].forward(seat.element);
      } else {
        parts_.covers()[seat.cover].backward(seat.element);
      }
    }
  }

  // One seat in each cover, counts listed; those passed over on the way to it are stepped.
  std::vector<Seat> sharers(std::size_t bundle, bool rising) {
    std::vector<Seat> sharers;
    const std::vector<Seat>& seats = seats_[bundle];
    for (std::size_t i = 0; i < seats.size(); ++i) {
      const Seat& seat = seats[rising ? i : seats.size() - 1 - i];
      const GroupCover::Element& at = parts_.covers()[seat.cover].elements()[seat.element];
      const bool listed = !prices_.shares[bundle][static_cast<std::size_t>(at.share)].values.empty();
      const bool again =
          std::any_of(sharers.begin(), sharers.end(), [&](const Seat& s) { return s.cover == seat.cover; });
      if (again) continue;
      if (listed && at.always && at.counted) {
        sharers.push_back(seat);
      } else {
        step({seat}, rising);
      }
    }
    return sharers;
  }

  // What values cost more than the least, so that none is out of all measure.
  static void temper(Steps& values) {
    const std::int64_t least = *std::min_element(values.begin(), values.end());
    for (std::int64_t& value : values) value = std::min(value, least + kMostPaid / 16);
  }

  void share_count(std::size_t bundle, bool rising) {
    const std::vector<Seat> seats = sharers(bundle, rising);
    if (seats.empty()) return;
    const Span& span = open_.bundle_spans()[bundle];
    const std::int64_t counts = span.to - span.from + 1;
    Steps sum = parts_.order_by_count(bundle, counts);
    temper(sum);
    std::vector<Steps> margins;
    for (const Seat& seat : seats) {
      GroupCover& cover = parts_.covers()[seat.cover];
      const Steps settled = cover.settled(seat.element);
      const std::int64_t first = cover.elements()[seat.element].first;
      Steps& margin = margins.emplace_back();
      for (std::int64_t k = 0; k < counts; ++k) {
        const auto last = static_cast<std::int64_t>(settled.size()) - 1;
        margin.push_back(settled[static_cast<std::size_t>(std::clamp<std::int64_t>(span.from + k - first, 0, last))]);
      }
      temper(margin);
      for (std::size_t k = 0; k < margin.size(); ++k) sum[k] += margin[k];
    }
    const auto parts = static_cast<std::int64_t>(seats.size()) + 1;
    for (std::size_t i = 0; i < seats.size(); ++i) {
      const int share = parts_.covers()[seats[i].cover].elements()[seats[i].element].share;
      std::vector<std::int64_t>& values = prices_.shares[bundle][static_cast<std::size_t>(share)].values;
      for (std::size_t k = 0; k < values.size(); ++k) move(values[k], sum[k] / parts - margins[i][k]);
    }
  }

  void share_state(std::size_t supplier, bool rising) {
    std::vector<Seat> seats;
    Steps sum = parts_.order(supplier);
    temper(sum);
    std::vector<Steps> margins;
    for (std::size_t i = 0; i < order_seats_[supplier].size(); ++i) {
      const Seat& seat = order_seats_[supplier][rising ? i : order_seats_[supplier].size() - 1 - i];
      GroupCover& cover = parts_.covers()[seat.cover];
      const GroupCover::Element& at = cover.elements()[seat.element];
      if (at.offer == at.end) continue;
      seats.push_back(seat);
      margins.push_back(cover.settled(seat.element));
      temper(margins.back());
      for (std::size_t a = 0; a < sum.size(); ++a) sum[a] += margins.back()[a];
    }
    const auto parts = static_cast<std::int64_t>(seats.size()) + 1;
    for (std::size_t i = 0; i < seats.size(); ++i) {
      const auto need = static_cast<std::size_t>(open_.groups()[seats[i].cover].needs.front());
      for (std::size_t a = 0; a < sum.size(); ++a) {
        const auto state = static_cast<std::size_t>(parts_.states()[supplier][a].state) + 1;
        move(prices_.calls[supplier][need][state], sum[a] / parts - margins[i][a]);
      }
    }
  }

  static void move(std::int64_t& value, std::int64_t by) { value = std::clamp(value + by, -kMostPaid, kMostPaid); }

  const OpenCase& open_;
  PriceSplit& prices_;
  CaseParts parts_;
  std::vector<std::vector<Seat>> seats_;        // by bundle
  std::vector<std::vector<Seat>> order_seats_;  // by supplier
};

std::vector<StatedRate> rates_of(const OrderingTerms& terms, const std::vector<GoodsStretch>& stretches,
                                 std::int64_t steps) {
  std::vector<StatedRate> rates;
  for (const GoodsStretch& stretch : stretches) {
    const double slope = (1 - static_cast<double>(stretch.discount_ppm) / kMillion) *
                         (1 + static_cast<double>(terms.tax.ppm) / kMillion);
    const auto rate = static_cast<std::int64_t>(std::floor(slope * static_cast<double>(steps)));
    rates.push_back({rates.empty() ? 0 : stretch.from, rate});
  }
  return rates;
}

}  // namespace

bool can_sweep(const OpenCase& open) {
  std::int64_t work = 0;
  for (const CoverGroup& group : open.groups()) {
    if (group.demand.size() > 1 && group.states > 2'000) return false;
    for (const CoverOffer& offer : group.offers) {
      const std::int64_t counts =
          offer.bundle < 0 ? 3 : 1 + std::min(offer.most, kMostCounts) - std::min(offer.least, offer.most);
      work += group.states * std::max<std::int64_t>(counts, 1);
    }
  }
  return work <= kMostWork;
}

PriceSplit listed_prices(const OpenCase& open, const PriceSplit& from, std::int64_t steps) {
  PriceSplit prices = from;
  const Market& market = open.market();
  const bool fresh = prices.calls.empty();
  if (fresh) prices.calls.resize(market.catalogs.size());
  for (std::size_t s = 0; s < market.catalogs.size(); ++s) {
    if (!fresh && open_states(open, s, prices, steps).size() < 2) prices.calls[s].clear();
    const auto& stretches = open.stretches()[s];
    if (!fresh || stretches.empty()) continue;
    if (stretches.size() <= kMostStretches) prices.rates[s] = rates_of(market.catalogs[s]->terms, stretches, steps);
    prices.calls[s].assign(market.question.needs.size(), Steps(prices.rates[s].size() + 1, 0));
  }
  for (std::size_t b = 0; b < market.bundles.size(); ++b) {
    const Span& span = open.bundle_spans()[b];
    std::size_t share = 0;
    for (const BundleContent& content : market.bundle(b).contents) {
      StatedShare& paid = prices.shares[b][share];
      share += 1 + content.swaps.size();
      if (!is_always_taken(market, b, content) || span.to - span.from > kMostCounts) continue;
      StatedShare listed{0, span.from, {}};
      const bool used = span.to > span.from && market.bundles[b].useful[share - 1 - content.swaps.size()] > 0;
      for (std::int64_t n = span.from; used && n <= span.to; ++n)
        listed.values.push_back(std::min(paid.of(n), kMostPaid));
      paid = std::move(listed);
    }
  }
  return prices;
}

Swept sweep(const OpenCase& open, PriceSplit prices, std::int64_t steps, std::int64_t enough, int rounds) {
  Swept best{prices, -kDearest};
  Sweep sweeping(open, prices, steps);
  std::int64_t last = -kDearest;
  PriceSplit before;
  for (int round = 0; round < rounds; ++round) {
    before = prices;
    const std::int64_t bound = sweeping.pass(round % 2 == 0);
    if (bound > best.bound) best = {before, bound};
    if (bound > enough) return best;
    if (round % 2 == 1) continue;
    if (round > 2 && bound - last < (enough - bound) / 20) break;
    last = bound;
  }
  const std::int64_t bound = sweeping.bound();
  if (bound > best.bound) best = {prices, bound};
  return best;
}

std::vector<Wavering> wavering(const OpenCase& open, const PriceSplit& prices, std::int64_t steps,
                               std::int64_t enough) {
  CaseParts parts(open, prices, steps);
  const std::int64_t total = parts.start(false);
  const CaseParts::Rises rises = parts.rises();
  const double warmth = std::max(static_cast<double>(enough - total) / 50, static_cast<double>(steps));
  std::vector<Wavering> found;
  const auto look = [&](Wavering one, const Steps& values, const auto& start_of) {
    if (values.size() < 2) return;
    const std::int64_t least = *std::min_element(values.begin(), values.end());
    double weight = 0, mean = 0, square = 0;
    for (std::size_t v = 0; v < values.size(); ++v) {
      const double w = std::exp(static_cast<double>(least - values[v]) / warmth), value = static_cast<double>(v);
      weight += w;
      mean += w * value;
      square += w * value * value;
    }
    mean /= weight;
    one.spread = std::max(0.0, square / weight - mean * mean);
    const double last = static_cast<double>(values.size()) - 1;
    one.at = start_of(static_cast<std::size_t>(std::clamp(std::floor(mean) + 1, 1.0, last)));
    found.push_back(one);
  };
  for (std::size_t b = 0; b < rises.counts.size(); ++b) {
    look({Splits::bundle, b, 0, 0}, rises.counts[b],
         [&](std::size_t v) { return open.bundle_spans()[b].from + static_cast<std::int64_t>(v); });
  }
  for (std::size_t s = 0; s < rises.states.size(); ++s) {
    look({Splits::goods, s, 0, 0}, rises.states[s],
         [&](std::size_t v) { return prices.rates[s][static_cast<std::size_t>(parts.states()[s][v].state)].from; });
  }
  std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.spread > b.spread; });
  return found;
}

}  // namespace teetally
