#include "purchase/certify/prices.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace teetally {
namespace {

constexpr double kPatience = 12;  // steps without a gain before they become shorter
constexpr double kShortest = 0.01;
constexpr double kMemory = 0.85;  // of averages

const Pack& pack_at(const Market& market, const MarketPack& at) {
  return market.catalog(at.supplier).items[static_cast<std::size_t>(at.item)].packs[static_cast<std::size_t>(at.pack)];
}

double content_of(const Pack& pack) {
  return static_cast<double>(pack.length.tenths_mm > 0 ? pack.length.tenths_mm : pack.count);
}

// The lowest price of a unit of each need, loose; 0 where only bundles bring it.
std::vector<double> unit_values(const Market& market) {
  std::map<std::pair<int, int>, double> of_item;
  for (const MarketPack& at : market.packs) {
    const Pack& pack = pack_at(market, at);
    const double price = static_cast<double>(pack.prices.front().price.minor) / content_of(pack);
    const auto [entry, is_new] = of_item.emplace(std::pair(at.supplier, at.item), price);
    if (!is_new) entry->second = std::min(entry->second, price);
  }
  std::vector<double> values(market.question.needs.size(), std::numeric_limits<double>::max());
  for (const StatedServing& serving : market.question.servings) {
    const auto found = of_item.find({serving.supplier, serving.item});
    double& value = values[static_cast<std::size_t>(serving.need)];
    if (found != of_item.end()) value = std::min(value, found->second);
  }
  for (double& value : values) value = value == std::numeric_limits<double>::max() ? 0 : value;
  return values;
}

std::map<std::pair<int, int>, double> item_values(const Market& market) {
  const std::vector<double> values = unit_values(market);
  std::map<std::pair<int, int>, double> of_item;
  for (const StatedServing& serving : market.question.servings) {
    if (market.question.needs[static_cast<std::size_t>(serving.need)].amount <= 0) continue;
    double& value = of_item[{serving.supplier, serving.item}];
    value = std::max(value, values[static_cast<std::size_t>(serving.need)] + 1e-6);
  }
  return of_item;
}

double rate_of(const OrderingTerms& terms) { return 1 + static_cast<double>(terms.tax.ppm) / 1e6; }

std::vector<double> spread_price(const Market& market, std::size_t b, double rate,
                                 const std::map<std::pair<int, int>, double>& values) {
  std::vector<double> shares;
  double sum = 0;
  for (const BundleContent& content : market.bundle(b).contents) {
    const auto units = static_cast<double>(content.length.tenths_mm > 0 ? content.length.tenths_mm : content.count);
    const auto value = [&](int item) {
      const auto found = values.find({market.bundles[b].supplier, item});
      return found == values.end() ? 0 : found->second * units;
    };
    shares.push_back(value(content.item));
    sum += shares.back();
    for (const Swap& swap : content.swaps) shares.push_back(value(swap.item));
  }
  const double price = rate * static_cast<double>(market.bundle(b).price.minor);
  for (double& share : shares) share = sum > 0 ? share / sum * price : 0;
  return shares;
}

// Slopes: what is bought for the needs less what the orders and bundles have.
PriceGuess slope_of(const Market& market, const CaseLook& look) {
  PriceGuess slope;
  slope.rates.assign(market.catalogs.size(), 0);
  for (std::size_t i = 0; i < market.packs.size(); ++i) {
    if (look.packs[i] == 0) continue;
    slope.rates[static_cast<std::size_t>(market.packs[i].supplier)] +=
        static_cast<double>(price_of(pack_at(market, market.packs[i]), look.packs[i]).minor);
  }
  for (std::size_t b = 0; b < market.bundles.size(); ++b) {
    std::vector<double>& shares = slope.shares.emplace_back();
    const auto count = static_cast<double>(look.bundles[b]);
    double goods = static_cast<double>(market.bundle(b).price.minor);
    int share = 0;
    for (std::size_t c = 0; c < market.bundle(b).contents.size(); ++c) {
      const BundleContent& content = market.bundle(b).contents[c];
      const int kept = count > 0 ? look.kept[b][c] : share;
      if (kept < 0) goods -= static_cast<double>(content.leave_out->minor);
      if (kept > share) {
        const Money extra = content.swaps[static_cast<std::size_t>(kept - share - 1)].extra;
        goods += static_cast<double>(extra.minor * (content.length.tenths_mm > 0 ? 1 : content.count));
      }
      for (std::size_t s = 0; s <= content.swaps.size(); ++s, ++share) {
        const auto used = static_cast<double>(look.uses[b][static_cast<std::size_t>(share)]);
        shares.push_back(used - (share == kept ? count : 0));
      }
    }
    slope.rates[static_cast<std::size_t>(market.bundles[b].supplier)] += goods * count;
  }
  for (std::size_t s = 0; s < slope.rates.size(); ++s) {
    slope.rates[s] -= static_cast<double>(std::max<std::int64_t>(look.order_goods[s], 0));
  }
  return slope;
}

// Goods that needs and bundles come to, by supplier.
std::vector<std::int64_t> goods_bought(const PriceGuess& slope, const CaseLook& look) {
  std::vector<std::int64_t> bought;
  for (std::size_t s = 0; s < slope.rates.size(); ++s) {
    bought.push_back(std::llround(slope.rates[s]) + std::max<std::int64_t>(look.order_goods[s], 0));
  }
  return bought;
}

class Averages {
 public:
  explicit Averages(const Market& market) : market_(market) {
    goods_.resize(market.catalogs.size());
    bundles_.assign(market.bundles.size(), 0);
    bundle_squares_ = bundles_;
    packs_.assign(market.packs.size(), 0);
    pack_squares_ = packs_;
  }

  void note(const CaseLook& look) {
    weight_ = weight_ * kMemory + 1;
    for (std::size_t s = 0; s < goods_.size(); ++s) {
      for (auto& [value, weight] : goods_[s]) weight *= kMemory;
      goods_[s][look.order_goods[s]] += 1;
    }
    for (std::size_t b = 0; b < bundles_.size(); ++b) note_bundle(b, look);
    for (std::size_t p = 0; p < packs_.size(); ++p) {
      const auto count = static_cast<double>(look.packs[p]);
      packs_[p] = packs_[p] * kMemory + count;
      pack_squares_[p] = pack_squares_[p] * kMemory + count * count;
    }
  }

  Undecided result() const {
    Undecided undecided;
    for (const auto& weights : goods_) {
      auto& list = undecided.goods.emplace_back();
      for (const auto& [value, weight] : weights) list.emplace_back(value, weight / weight_);
    }
    const auto spread = [this](double sum, double squares) {
      return std::max(0.0, squares / weight_ - sum / weight_ * sum / weight_);
    };
    for (std::size_t b = 0; b < bundles_.size(); ++b) {
      undecided.bundles.push_back(bundles_[b] / weight_);
      undecided.bundle_spread.push_back(spread(bundles_[b], bundle_squares_[b]));
    }
    for (std::size_t p = 0; p < packs_.size(); ++p) {
      undecided.packs.push_back(packs_[p] / weight_);
      undecided.pack_spread.push_back(spread(packs_[p], pack_squares_[p]));
    }
    return undecided;
  }

 private:
  // The contents' own wishes, each as many bundles as it asks for.
  void note_bundle(std::size_t b, const CaseLook& look) {
    double sum = 0, squares = 0, contents = 0;
    std::size_t share = 0;
    for (const BundleContent& content : market_.bundle(b).contents) {
      double asked = 0;
      for (std::size_t s = 0; s <= content.swaps.size(); ++s, ++share)
        asked += static_cast<double>(look.uses[b][share]);
      sum += asked;
      squares += asked * asked;
      contents += 1;
    }
    if (contents == 0) return;
    bundles_[b] = bundles_[b] * kMemory + sum / contents;
    bundle_squares_[b] = bundle_squares_[b] * kMemory + squares / contents;
  }

  const Market& market_;
  double weight_ = 0;
  std::vector<std::map<std::int64_t, double>> goods_;
  std::vector<double> bundles_, bundle_squares_, packs_, pack_squares_;
};

// Rates are moved in a measure of their own, so that a step changes a rate and a share by like amounts of money.
struct Measure {
  double rate = 1;
  template <typename Visit>
  static void pairs(PriceGuess& a, const PriceGuess& b, Visit visit) {
    for (std::size_t s = 0; s < a.rates.size(); ++s) visit(a.rates[s], b.rates[s], true);
    for (std::size_t k = 0; k < a.shares.size(); ++k) {
      for (std::size_t j = 0; j < a.shares[k].size(); ++j) visit(a.shares[k][j], b.shares[k][j], false);
    }
  }
  double product(PriceGuess& a, const PriceGuess& b) const {
    double sum = 0;
    pairs(a, b, [&](double x, double y, bool is_rate) { sum += is_rate ? x * y / rate / rate : x * y; });
    return sum;
  }
};

}  // namespace

PriceSplit rounded(const PriceGuess& guess, std::int64_t steps) {
  const auto whole = [steps](double value) {
    return static_cast<std::int64_t>(std::clamp(value, 0.0, 1e11) * static_cast<double>(steps));
  };
  PriceSplit split;
  for (const double rate : guess.rates) split.rates.push_back({{0, std::min<std::int64_t>(whole(rate), 100 * steps)}});
  for (const std::vector<double>& list : guess.shares) {
    std::vector<StatedShare>& shares = split.shares.emplace_back();
    for (const double share : list) shares.push_back({whole(share)});
  }
  return split;
}

PriceGuess first_guess(const Market& market) {
  PriceGuess guess;
  for (const Catalog* catalog : market.catalogs) guess.rates.push_back(rate_of(catalog->terms));
  const auto values = item_values(market);
  for (std::size_t b = 0; b < market.bundles.size(); ++b) {
    guess.shares.push_back(
        spread_price(market, b, guess.rates[static_cast<std::size_t>(market.bundles[b].supplier)], values));
  }
  return guess;
}

// Steps as long as the distance to `enough` asks for (Polyak 1969), along slopes that remember the last one where it
// points back (Camerini, Fratta, Maffioli 1975); shorter when that gains nothing.
Climbed climb(const Market& market, const OpenCase& open, const PriceGuess& start, std::int64_t steps,
              std::int64_t enough, int rounds) {
  Climbed best{start, -kDearest, {}};
  Averages averages(market);
  PriceGuess at = start, along;
  std::vector<std::int64_t> bought;
  double length = 1, patience = kPatience;
  const Measure measure{std::max(1.0, static_cast<double>(enough) / static_cast<double>(steps) / 10)};
  for (int round = 0; round < rounds; ++round) {
    CaseLook look;
    const std::int64_t bound = open.bound(rounded(at, steps), steps, &look);
    averages.note(look);
    PriceGuess slope = slope_of(market, look);
    if (bound > best.bound) {
      bought = goods_bought(slope, look);
      patience = bound > best.bound + steps / 10 ? kPatience : patience - 1;
      best.bound = bound;
      best.guess = at;
    } else {
      patience -= 1;
    }
    if (best.bound > enough) break;
    if (patience <= 0) {
      length /= 2;
      patience = kPatience;
      if (length < kShortest) break;
      at = best.guess;
      along = {};
      continue;
    }
    if (!along.rates.empty()) {
      const double back = measure.product(slope, along), own = measure.product(along, along);
      const double part = back < 0 && own > 0 ? -1.5 * back / own : 0;
      Measure::pairs(slope, along, [&](double& s, double a, bool) { s += part * a; });
    }
    const double size = measure.product(slope, slope);
    if (size < 1e-12) break;
    const double gap = static_cast<double>(enough + steps - bound) / static_cast<double>(steps);
    const double step = length * gap / size;
    Measure::pairs(at, slope, [&](double& value, double s, bool is_rate) {
      value = std::max(0.0, value + step * (is_rate ? s / measure.rate / measure.rate : s));
    });
    along = std::move(slope);
  }
  best.undecided = averages.result();
  best.undecided.bought = std::move(bought);
  return best;
}

}  // namespace teetally
