#include "purchase/exact/filler.h"

#include <algorithm>
#include <map>

namespace teetally {
namespace {

constexpr std::int64_t kLongestGap = 20'000;  // minor units that filler is looked for

}  // namespace

Filler::Filler(const PurchaseProblem& problem) : problem_(&problem), shelves_(problem.suppliers.size()) {
  std::vector<std::map<std::int64_t, std::vector<int>>> found(problem.suppliers.size());
  for (std::size_t i = 0; i < problem.packs.size(); ++i) {
    const PackOffer& offer = problem.packs[i];
    if (offer.prices.front().from != 1 || offer.prices.size() > 1 || offer.most == 0) continue;
    const std::int64_t each = offer.prices.front().base + offer.prices.front().each;
    if (each > 0) found[offer.supplier][each].push_back(static_cast<int>(i));
  }
  for (std::size_t s = 0; s < found.size(); ++s) {
    for (const auto& [each, packs] : found[s]) shelves_[s].prices.push_back({each, packs});
    shelves_[s].least.push_back({0, -1});
  }
}

void Filler::grow(Shelf& shelf, std::int64_t gap) const {
  for (std::int64_t at = static_cast<std::int64_t>(shelf.least.size()); at <= gap; ++at) {
    Step step;
    for (std::size_t p = 0; p < shelf.prices.size(); ++p) {
      const std::int64_t each = shelf.prices[p].each;
      const std::int64_t sum = each + shelf.least[std::max<std::int64_t>(0, at - each)].sum;
      if (sum < step.sum) step = {sum, static_cast<int>(p)};
      if (step.sum == at) break;  // no sum is nearer
      if (each >= at) break;      // dearer ones close the gap too, but cost more
    }
    shelf.least.push_back(step);
  }
}

// The widest gap whose closing could pay; zero when there is none.
std::int64_t Filler::longest_gap(const SupplierTerms& terms, std::int64_t goods, std::int64_t cost) const {
  std::int64_t longest = 0;
  for (const OrderBracket& bracket : terms.brackets) {
    const std::int64_t gap = bracket.from - goods;
    if (gap <= 0 || gap > kLongestGap) continue;
    if (cost_of_order(terms, bracket.from).value_or(kMostGoods) < cost) longest = std::max(longest, gap);
  }
  return longest;
}

void Filler::add(Plan& plan, const Shelf& shelf, std::int64_t gap) const {
  while (gap > 0) {
    const Price& price = shelf.prices[shelf.least[gap].price];
    const auto open = std::find_if(price.packs.begin(), price.packs.end(),
                                   [&](int pack) { return plan.lots[pack] < problem_->packs[pack].most; });
    if (open == price.packs.end()) return;
    ++plan.lots[*open];
    gap -= price.each;
  }
}

void Filler::top_up(Plan& plan, const std::vector<std::int64_t>& goods) {
  for (std::size_t s = 0; s < goods.size(); ++s) {
    if (goods[s] == 0) continue;
    const SupplierTerms& terms = problem_->suppliers[s];
    std::int64_t cost = cost_of_order(terms, goods[s]).value_or(kMostGoods);
    const std::int64_t longest = longest_gap(terms, goods[s], cost);
    if (longest == 0) continue;
    Shelf& shelf = shelves_[s];
    grow(shelf, longest);
    std::int64_t chosen = 0;
    for (const OrderBracket& bracket : terms.brackets) {
      const std::int64_t gap = bracket.from - goods[s];
      if (gap <= 0 || gap > longest || shelf.least[gap].price < 0) continue;
      const std::int64_t filled = cost_of_order(terms, goods[s] + shelf.least[gap].sum).value_or(kMostGoods);
      if (filled < cost) cost = filled, chosen = gap;
    }
    add(plan, shelf, chosen);
  }
}

std::int64_t Filler::least_sum(int supplier, std::int64_t gap) {
  if (gap > kLongestGap) return gap;
  grow(shelves_[supplier], gap);
  return shelves_[supplier].least[gap].sum;
}

}  // namespace teetally
