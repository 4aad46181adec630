#include <algorithm>

#include "teetally/verify/bound.h"
#include "verify/attainable.h"
#include "verify/cover.h"
#include "verify/goods.h"
#include "verify/groups.h"
#include "verify/wide.h"

namespace teetally {
namespace {

bool is_wanted(const Market& market, std::size_t b) {
  return market.question.take_bundle && market.bundle(b).sku == *market.question.take_bundle;
}

// With only one bundle left that may be the one wanted, it is taken. False when none is left.
bool take_wanted(const Market& market, std::vector<Span>& bundles) {
  if (!market.question.take_bundle) return true;
  Span* last = nullptr;
  int left = 0;
  for (std::size_t b = 0; b < bundles.size(); ++b) {
    if (!is_wanted(market, b) || bundles[b].to < 1) continue;
    ++left;
    last = &bundles[b];
  }
  if (left == 1) last->from = std::max<std::int64_t>(last->from, 1);
  return left > 0;
}

// The smallest that a bundle's price can become by its changes.
std::int64_t least_price(const Market& market, std::size_t b) {
  const Bundle& bundle = market.bundle(b);
  Money price = bundle.price;
  if (market.bundles[b].leave_outs) {
    for (const BundleContent& content : bundle.contents) price -= content.leave_out.value_or(Money{});
  }
  return price.minor;
}

std::int64_t units_swapped(const BundleContent& content) { return content.length.tenths_mm > 0 ? 1 : content.count; }

// What one bundle costs more than the needs pay for it, with its changes as cheap as they can be.
Wide bundle_excess(const Market& market, std::size_t b, const PriceSplit& prices, std::vector<int>* kept) {
  const Wide rate = prices.rates[static_cast<std::size_t>(market.bundles[b].supplier)];
  const std::vector<std::int64_t>& shares = prices.shares[b];
  Wide excess = rate * market.bundle(b).price.minor;
  std::size_t share = 0;
  for (const BundleContent& content : market.bundle(b).contents) {
    Wide least = -static_cast<Wide>(shares[share]);
    int choice = static_cast<int>(share);
    const auto offer = [&](Wide value, int which) {
      if (value < least) least = value, choice = which;
    };
    if (content.leave_out && market.bundles[b].leave_outs) offer(-rate * content.leave_out->minor, -1);
    for (std::size_t s = 0; s < content.swaps.size(); ++s) {
      const Wide extra = rate * content.swaps[s].extra.minor * units_swapped(content);
      offer(extra - shares[share + 1 + s], static_cast<int>(share + 1 + s));
    }
    share += 1 + content.swaps.size();
    excess += least;
    if (kept != nullptr) kept->push_back(choice);
  }
  return excess;
}

}  // namespace

// NOLINTNEXTLINE(readability-function-size): limits follow from one another, read from top to bottom
OpenCase::OpenCase(const Market& market, const CaseSpans& spans, std::int64_t cost)
    : market_(market), bundles_(spans.bundles) {
  const auto empty = [](const Span& span) { return span.from > span.to; };
  for (const auto& list : {spans.families, spans.goods, spans.bundles, spans.packs}) {
    closed_ = closed_ || std::any_of(list.begin(), list.end(), empty);
  }
  std::vector<bool> bought_from;
  std::int64_t used = 0;
  std::vector<std::int64_t> most_goods;
  for (std::size_t s = 0; s < market.catalogs.size(); ++s) {
    unused_allowed_.push_back(spans.goods[s].from < 0);
    stretches_.push_back(market.open[s] ? goods_stretches(market.catalogs[s]->terms, spans.goods[s], cost)
                                        : std::vector<GoodsStretch>());
    bought_from.push_back(!stretches_[s].empty());
    std::int64_t& most = most_goods.emplace_back(0);
    for (const GoodsStretch& stretch : stretches_[s]) most = std::max(most, stretch.to);
    if (most > 0) {
      const auto attainable = attainable_goods(market, spans, static_cast<int>(s), most);
      if (attainable) stretches_[s] = within(stretches_[s], *attainable, market.catalogs[s]->terms);
      bought_from[s] = !stretches_[s].empty();
    }
    closed_ = closed_ || (!unused_allowed_[s] && !bought_from[s]);
    used += !unused_allowed_[s] && market.counts[s] ? 1 : 0;
  }
  if (market.question.most_suppliers && used > *market.question.most_suppliers) closed_ = true;
  for (std::size_t b = 0; b < bundles_.size(); ++b) {
    const auto supplier = static_cast<std::size_t>(market.bundles[b].supplier);
    const std::int64_t price = least_price(market, b);
    if (!bought_from[supplier]) bundles_[b].to = 0;
    if (price > 0) bundles_[b].to = std::min(bundles_[b].to, most_goods[supplier] / price);
  }
  closed_ = closed_ || !take_wanted(market, bundles_) || std::any_of(bundles_.begin(), bundles_.end(), empty);
  if (closed_) return;
  CaseSpans limited = spans;
  limited.bundles = bundles_;
  std::optional<std::vector<CoverGroup>> groups = cover_groups(market, limited, bought_from);
  closed_ = !groups;
  if (groups) groups_ = std::move(*groups);
  // Free of charge, only what cannot be met is out of reach.
  PriceSplit nothing{std::vector<std::int64_t>(market.catalogs.size(), 0), {}, {}};
  for (std::size_t b = 0; b < bundles_.size(); ++b) nothing.shares.emplace_back(shares_of(market.bundle(b)), 0);
  for (const CoverGroup& group : groups_) closed_ = closed_ || least_cover(group, nothing, nullptr) >= kDearest;
}

std::int64_t OpenCase::bound(const PriceSplit& prices, std::int64_t steps, CaseLook* look) const {
  if (closed_) return kDearest;
  if (look != nullptr) {
    *look = {std::vector<std::int64_t>(stretches_.size(), -1),
             std::vector<std::int64_t>(market_.packs.size(), 0),
             std::vector<std::int64_t>(bundles_.size(), 0),
             std::vector<std::vector<int>>(bundles_.size()),
             {}};
    for (std::size_t b = 0; b < bundles_.size(); ++b) look->uses.emplace_back(prices.shares[b].size(), 0);
  }
  Wide total = 0;
  for (std::size_t s = 0; s < stretches_.size(); ++s) {
    GoodsFloor least;
    if (unused_allowed_[s]) least = {0, -1};
    for (const GoodsStretch& stretch : stretches_[s]) {
      const GoodsFloor floor = goods_floor(market_.catalogs[s]->terms, stretch, prices.rates[s], steps);
      if (floor.steps < least.steps) least = floor;
    }
    total += least.steps;
    if (look != nullptr) look->order_goods[s] = least.goods;
  }
  for (std::size_t b = 0; b < bundles_.size(); ++b) {
    if (bundles_[b].to == 0) continue;
    const Wide excess = bundle_excess(market_, b, prices, look != nullptr ? &look->kept[b] : nullptr);
    const std::int64_t count = excess >= 0 ? bundles_[b].from : bundles_[b].to;
    total += excess * count;
    if (look != nullptr) look->bundles[b] = count;
  }
  for (const CoverGroup& group : groups_) total += least_cover(group, prices, look);
  const Wide most = kDearest;
  return static_cast<std::int64_t>(std::clamp(total, -most, most));
}

}  // namespace teetally
