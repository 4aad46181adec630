#include <algorithm>

#include "teetally/verify/parts.h"
#include "verify/attainable.h"
#include "verify/cover.h"
#include "verify/goods.h"
#include "verify/groups.h"

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
  closed_ = closed_ || !std::all_of(groups_.begin(), groups_.end(), can_be_met);
}

std::int64_t OpenCase::bound(const PriceSplit& prices, std::int64_t steps, CaseLook* look) const {
  return closed_ ? kDearest : CaseParts(*this, prices, steps).bound(look);
}

}  // namespace teetally
