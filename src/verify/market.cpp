#include <algorithm>

#include "teetally/verify/bound.h"
#include "verify/useful.h"

namespace teetally {
namespace {

bool lists(const std::vector<std::string>& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

// Parts on hand: no supplier to be counted or left out.
bool asks_no_money(const Catalog& catalog) {
  for (const Item& item : catalog.items) {
    for (const Pack& pack : item.packs) {
      for (const PriceBreak& step : pack.prices) {
        if (step.price != Money{}) return false;
      }
    }
  }
  for (const ShippingStep& step : catalog.terms.shipping) {
    if (step.fee != Money{}) return false;
  }
  return catalog.bundles.empty() && !catalog.terms.minimum_order && !catalog.terms.small_order_below;
}

bool gives_more_than_it_costs(const Bundle& bundle) {
  Money credits;
  for (const BundleContent& content : bundle.contents) credits += content.leave_out.value_or(Money{});
  return credits > bundle.price;
}

void add_packs(Market& market, int supplier) {
  std::vector<bool> serves(market.catalog(supplier).items.size(), false);
  for (const StatedServing& serving : market.question.servings) {
    if (serving.supplier == supplier) serves[static_cast<std::size_t>(serving.item)] = true;
  }
  for (std::size_t i = 0; i < serves.size(); ++i) {
    const std::size_t packs = serves[i] ? market.catalog(supplier).items[i].packs.size() : 0;
    for (std::size_t p = 0; p < packs; ++p) {
      market.packs.push_back({supplier, static_cast<int>(i), static_cast<int>(p), 0});
    }
  }
}

}  // namespace

std::size_t shares_of(const Bundle& bundle) {
  std::size_t shares = 0;
  for (const BundleContent& content : bundle.contents) shares += 1 + content.swaps.size();
  return shares;
}

bool is_always_taken(const Market& market, std::size_t bundle, const BundleContent& content) {
  return content.swaps.empty() && !(content.leave_out && market.bundles[bundle].leave_outs);
}

Market open_market(const OrderQuestion& question, const std::vector<const Catalog*>& catalogs) {
  Market market{question, catalogs, {}, {}, {}, {}, {}};
  for (std::size_t s = 0; s < catalogs.size(); ++s) {
    const int supplier = static_cast<int>(s);
    const Catalog& catalog = *catalogs[s];
    const bool counts = !asks_no_money(catalog);
    const bool only = question.only.empty() || lists(question.only, catalog.id);
    market.counts.push_back(counts);
    market.open.push_back(!counts || (only && !lists(question.avoid, catalog.id)));
    add_packs(market, supplier);
    for (std::size_t b = 0; b < catalog.bundles.size(); ++b) {
      market.bundles.push_back({supplier, static_cast<int>(b), !gives_more_than_it_costs(catalog.bundles[b]), {}});
    }
  }
  note_useful(market);
  return market;
}

std::vector<Span>& CaseSpans::of(Splits by) {
  switch (by) {
    case Splits::family:
      return families;
    case Splits::goods:
      return goods;
    case Splits::bundle:
      return bundles;
    case Splits::pack:
      return packs;
  }
  return packs;
}

CaseSpans all_cases(const Market& market) {
  CaseSpans spans;
  for (const int count : market.question.families) spans.families.push_back({0, std::max(0, count - 1)});
  spans.goods.assign(market.catalogs.size(), {-1, kMostOfAll});
  for (std::size_t b = 0; b < market.bundles.size(); ++b) {
    const bool sold = !market.question.no_bundles && market.open[static_cast<std::size_t>(market.bundles[b].supplier)];
    spans.bundles.push_back({0, sold ? market.bundle(b).stock.value_or(kMostOfAll) : 0});
  }
  for (const MarketPack& at : market.packs) {
    const Item& item = market.catalog(at.supplier).items[static_cast<std::size_t>(at.item)];
    spans.packs.push_back({0, item.packs[static_cast<std::size_t>(at.pack)].stock.value_or(kMostOfAll)});
  }
  return spans;
}

}  // namespace teetally
