#include "verify/attainable.h"

#include <algorithm>
#include <map>

namespace teetally {
namespace {

constexpr std::int64_t kMostGoodsTried = 100'000;
constexpr std::int64_t kMostWork = 6'000'000;  // words moved
constexpr std::int64_t kMostListed = 2'000;    // counts tried one by one
constexpr std::size_t kMostWays = 64;          // to change one bundle
constexpr std::int64_t kWord = 64;

// A set of goods values from 0 to `most`.
class Values {
 public:
  explicit Values(std::int64_t most) : most_(most), words_(static_cast<std::size_t>(most / kWord) + 1, 0) {}
  static Values of_nothing(std::int64_t most) {
    Values values(most);
    values.words_[0] = 1;
    return values;
  }

  // Adds the other's values, each dearer by `more`.
  void add(const Values& other, std::int64_t more) {
    if (more < 0 || more > most_) return;
    const auto by = static_cast<std::size_t>(more / kWord);
    const auto bits = static_cast<unsigned>(more % kWord);
    for (std::size_t i = words_.size(); i-- > by;) {
      std::uint64_t word = other.words_[i - by] << bits;
      if (bits > 0 && i > by) word |= other.words_[i - by - 1] >> (kWord - bits);
      words_[i] |= word;
    }
  }
  // With up to `times` more of `each`.
  void repeat(std::int64_t each, std::int64_t times) {
    if (each <= 0) return;
    times = std::min(times, most_ / each);
    for (std::int64_t step = 1; times > 0; step *= 2) {
      const std::int64_t now = std::min(step, times);
      const Values before = *this;
      add(before, each * now);
      times -= now;
    }
  }
  std::vector<bool> list() const {
    std::vector<bool> all;
    for (std::int64_t v = 0; v <= most_; ++v) {
      all.push_back((words_[static_cast<std::size_t>(v / kWord)] >> (v % kWord) & 1U) != 0);
    }
    return all;
  }
  std::int64_t words() const { return static_cast<std::int64_t>(words_.size()); }

 private:
  std::int64_t most_;
  std::vector<std::uint64_t> words_;
};

class Attainable {
 public:
  Attainable(const Market& market, const CaseSpans& spans, int supplier, std::int64_t most)
      : market_(market), spans_(spans), supplier_(supplier), most_(most), values_(Values::of_nothing(most)) {}

  std::optional<std::vector<bool>> find() {
    const Catalog& catalog = market_.catalog(supplier_);
    const std::map<std::pair<int, int>, Span> limits = pack_limits();
    for (std::size_t i = 0; i < catalog.items.size(); ++i) {
      for (std::size_t p = 0; p < catalog.items[i].packs.size(); ++p) {
        const auto found = limits.find({static_cast<int>(i), static_cast<int>(p)});
        if (!take_pack(catalog.items[i].packs[p], found == limits.end() ? Span{} : found->second)) return std::nullopt;
      }
    }
    for (std::size_t b = 0; b < market_.bundles.size(); ++b) {
      if (market_.bundles[b].supplier == supplier_ && !take_bundle(b)) return std::nullopt;
    }
    return values_.list();
  }

 private:
  std::map<std::pair<int, int>, Span> pack_limits() const {
    std::map<std::pair<int, int>, Span> limits;
    for (std::size_t i = 0; i < market_.packs.size(); ++i) {
      const MarketPack& at = market_.packs[i];
      if (at.supplier == supplier_) limits[{at.item, at.pack}] = spans_.packs[i];
    }
    return limits;
  }

  bool worked(std::int64_t moves) {
    work_ += moves * values_.words();
    return work_ <= kMostWork;
  }

  bool take_pack(const Pack& pack, const Span& span) {
    const std::int64_t lot = pack.multiple;
    const std::int64_t most = std::min(span.to, pack.stock.value_or(kMostOfAll)) / lot;
    const std::int64_t fewest = (std::max(span.from, std::int64_t{0}) + lot - 1) / lot;
    const std::int64_t last_from = (std::max(pack.prices.back().from, pack.minimum) + lot - 1) / lot;
    Values now(most_);
    if (fewest == 0) now.add(values_, 0);
    std::int64_t n = std::max<std::int64_t>(1, fewest);
    for (; n <= most && n < last_from; ++n) {
      if (n > kMostListed || !worked(1)) return false;
      if (n * lot >= pack.minimum) now.add(values_, price_of(pack, n * lot).minor);
    }
    if (n <= most) {
      const std::int64_t start = price_of(pack, n * lot).minor, each = pack.prices.back().price.minor * lot;
      if (start <= most_) {
        Values beyond(most_);
        beyond.add(values_, start);
        beyond.repeat(each, most - n);
        now.add(beyond, 0);
      }
      if (!worked(2 * doublings(each))) return false;
    }
    values_ = std::move(now);
    return true;
  }

  std::int64_t doublings(std::int64_t each) const {
    std::int64_t count = 2;
    for (std::int64_t reach = std::max<std::int64_t>(each, 1); reach < most_; reach *= 2) ++count;
    return count;
  }

  // What one bundle can cost, changed in every way; empty when there are too many.
  std::vector<std::int64_t> prices_of(std::size_t b) const {
    std::vector<std::int64_t> prices{market_.bundle(b).price.minor};
    for (const BundleContent& content : market_.bundle(b).contents) {
      std::vector<std::int64_t> next = prices;
      const auto change = [&](std::int64_t extra) {
        for (const std::int64_t price : prices) next.push_back(price + extra);
      };
      if (content.leave_out && market_.bundles[b].leave_outs) change(-content.leave_out->minor);
      for (const Swap& swap : content.swaps) {
        change(swap.extra.minor * (content.length.tenths_mm > 0 ? 1 : content.count));
      }
      std::sort(next.begin(), next.end());
      next.erase(std::unique(next.begin(), next.end()), next.end());
      if (next.size() > kMostWays) return {};
      prices = std::move(next);
    }
    return prices;
  }

  bool take_bundle(std::size_t b) {
    const Span& span = spans_.bundles[b];
    if (span.to <= 0) return true;
    const std::vector<std::int64_t> prices = prices_of(b);
    if (prices.empty()) return false;
    Values layer = values_, now(most_);
    if (span.from <= 0) now.add(layer, 0);
    const std::int64_t least = std::max<std::int64_t>(prices.front(), 1);
    for (std::int64_t n = 1; n <= std::min(span.to, most_ / least + 1); ++n) {
      if (n > kMostListed || !worked(static_cast<std::int64_t>(prices.size()) + 2)) return false;
      Values next(most_);
      for (const std::int64_t price : prices) next.add(layer, price);
      layer = std::move(next);
      if (n >= span.from) now.add(layer, 0);
    }
    values_ = std::move(now);
    return true;
  }

  const Market& market_;
  const CaseSpans& spans_;
  int supplier_;
  std::int64_t most_;
  Values values_;
  std::int64_t work_ = 0;
};

}  // namespace

std::optional<std::vector<bool>> attainable_goods(const Market& market, const CaseSpans& spans, int supplier,
                                                  std::int64_t most) {
  if (most > kMostGoodsTried) return std::nullopt;
  return Attainable(market, spans, supplier, most).find();
}

std::vector<GoodsStretch> within(const std::vector<GoodsStretch>& stretches, const std::vector<bool>& attainable,
                                 const OrderingTerms& terms) {
  std::vector<GoodsStretch> kept;
  const auto can = [&](std::int64_t goods) { return attainable[static_cast<std::size_t>(goods)]; };
  for (const GoodsStretch& stretch : stretches) {
    GoodsStretch cut{stretch.from, stretch.to, stretch.discount_ppm, stretch.charge, {}};
    while (cut.from <= cut.to && !can(cut.from)) ++cut.from;
    while (cut.from <= cut.to && !can(cut.to)) --cut.to;
    if (cut.from > cut.to) continue;
    if (!stretch.values.empty() || cut.to - cut.from < kShortStretch) {
      for (std::int64_t goods = cut.from; goods <= cut.to; ++goods) {
        if (can(goods)) cut.values.push_back({goods, landed_cost(terms, Money{goods}).total.minor});
      }
    }
    kept.push_back(std::move(cut));
  }
  return kept;
}

}  // namespace teetally
