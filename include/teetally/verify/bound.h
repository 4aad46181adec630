#pragma once
// What a case costs at least. The true cost of a plan is, by supplier, what its order costs. That is split: goods at a
// supplier are charged a rate that may depend on the state of its order, and the order is given that much back; a
// bundle's goods are charged to it, and it is given back what the needs pay for its contents; what needs pay for the
// state of an order is given back to it. Each part is then made as cheap as it can be by itself - an order with its
// bundles by its goods value, counts and changes, and needs that share items by a smallest cover, tried for every
// amount. The sum of these is never more than the cost of any plan of the case.
//
// All in whole steps; rounding goes down. kNever stands for what cannot be or is dearer than any order.
#include <cstdint>
#include <vector>

#include "teetally/verify.h"

namespace teetally {

inline constexpr std::int64_t kMostOfAll = 4'000'000'000'000'000;  // goods, counts
inline constexpr std::int64_t kShortStretch = 48;                  // goods values looked at one by one
inline constexpr std::int64_t kDearest = 1'000'000'000'000'000'000;

struct MarketPack {
  int supplier = -1, item = -1, pack = -1;
  std::int64_t useful = 0;  // of one pack: pieces, or what can be used of a coil at most
};
struct MarketBundle {
  int supplier = -1, bundle = -1;
  bool leave_outs = true;            // false where credits exceed the price: then none are given
  std::vector<std::int64_t> useful;  // by share
};
// What the question lets one buy: packs of items that serve a need, and bundles. Packs that serve none cost money and
// do no harm to any bound.
struct Market {
  OrderQuestion question;
  std::vector<const Catalog*> catalogs;  // by supplier
  std::vector<bool> open;                // by supplier: the limits allow it
  std::vector<bool> counts;              // towards the most suppliers
  std::vector<MarketPack> packs;
  std::vector<MarketBundle> bundles;
  std::vector<std::int64_t> asked;  // by need: what has to be bought at least, coils cut into its pieces
  const Catalog& catalog(int supplier) const { return *catalogs[static_cast<std::size_t>(supplier)]; }
  const Bundle& bundle(std::size_t b) const {
    return catalog(bundles[b].supplier).bundles[static_cast<std::size_t>(bundles[b].bundle)];
  }
};
Market open_market(const OrderQuestion& question, const std::vector<const Catalog*>& catalogs);
std::size_t shares_of(const Bundle& bundle);
// Neither swapped nor left out.
bool is_always_taken(const Market& market, std::size_t bundle, const BundleContent& content);

// Both ends included.
struct Span {
  std::int64_t from = 0, to = kMostOfAll;
};
// What a case leaves open. Goods from -1: there may be no order. Packs are counted as packs.
struct CaseSpans {
  std::vector<Span> families, goods, bundles, packs;
  std::vector<Span>& of(Splits by);
};
CaseSpans all_cases(const Market& market);

// One cheapest way for each part, for those who look for better prices.
struct CaseLook {
  std::vector<std::int64_t> order_goods;        // by supplier; -1: no order
  std::vector<std::int64_t> packs;              // by Market::packs
  std::vector<std::int64_t> bundles;            // by Market::bundles
  std::vector<std::vector<int>> kept;           // by bundle and content: which share, -1 left out
  std::vector<std::vector<std::int64_t>> uses;  // by bundle and share: what the needs take
};

// One stretch of goods values with the same charges.
struct GoodsStretch {
  std::int64_t from = 0, to = 0;
  std::int64_t discount_ppm = 0, charge = 0;
  struct Value {
    std::int64_t goods = 0, cost = 0;
  };
  std::vector<Value> values;  // every one there is, where the stretch is short
};
struct CoverRun {
  std::int64_t first = 1, start = 0, each = 0;  // lots, money, money
};
struct CoverOffer {
  int pack = -1;  // or
  int bundle = -1, share = -1;
  int supplier = -1;
  unsigned dims = 1;
  std::int64_t units = 0;           // a lot
  std::int64_t lot = 1;             // packs in it
  std::int64_t least = 0;           // lots
  std::vector<CoverRun> runs;       // any number of lots from `first` on; else
  std::vector<std::int64_t> costs;  // money of 0, 1, 2, ... lots; -1: not sold so
  std::int64_t most = kMostOfAll;   // lots, of contents
  bool always = false;              // of contents: every bundle brings it
};
struct CoverGroup {
  std::vector<std::int64_t> demand;
  std::int64_t states = 1;
  std::vector<int> needs;
  std::vector<CoverOffer> offers;  // contents, then packs by supplier
};

class OpenCase {
 public:
  // `cost`: of the order; what costs as much is of no interest.
  OpenCase(const Market& market, const CaseSpans& spans, std::int64_t cost);
  // No plan cheaper than `cost` is in it, whatever prices are.
  bool closed() const { return closed_; }
  // At least so many steps; kDearest when closed.
  std::int64_t bound(const PriceSplit& prices, std::int64_t steps, CaseLook* look = nullptr) const;
  const std::vector<std::vector<GoodsStretch>>& stretches() const { return stretches_; }
  const std::vector<Span>& bundle_spans() const { return bundles_; }
  const std::vector<CoverGroup>& groups() const { return groups_; }
  const Market& market() const { return market_; }
  bool may_be_unused(std::size_t supplier) const { return unused_allowed_[supplier]; }

 private:
  const Market& market_;
  bool closed_ = false;
  std::vector<bool> unused_allowed_;
  std::vector<std::vector<GoodsStretch>> stretches_;  // by supplier
  std::vector<Span> bundles_;
  std::vector<CoverGroup> groups_;
};

}  // namespace teetally
