#include <algorithm>
#include <cmath>
#include <map>

#include "teetally/quote/pool.h"

namespace teetally {
namespace {

constexpr double kSame = 1e-6;

// Paid amounts of a rule that needs every group's cost, as whole units.
std::optional<std::vector<std::int64_t>> by_groups(const GroupCosts& groups, ShareRule rule, Money total) {
  if (rule == ShareRule::nucleolus) return to_whole(nucleolus(groups), total.minor);
  const auto equal = equal_saving(groups);
  // No split is fair to all: the nucleolus treats the worst group as well as any can.
  return to_whole(equal ? equal->paid : nucleolus(groups), total.minor);
}

void look_at_groups(PoolResult& result, const GroupCosts& groups, const std::vector<Sharer>& sharers) {
  std::vector<double> paid;
  for (const Share& share : result.shares.shares) paid.push_back(static_cast<double>(share.paid.minor));
  const WorstGroup worst = worst_group(groups, paid);
  result.worst_excess = worst.excess;
  for (std::size_t i = 0; i < sharers.size(); ++i) {
    if ((worst.members >> i & 1U) != 0) result.worst_group.push_back(sharers[i].name);
  }
  const double least = worst_group(groups, nucleolus(groups)).excess;
  if (least > kSame) result.unavoidable_excess = least;
}

// Shared parts among those who pay for them, in equal parts.
void charge_shared(PoolResult& result) {
  std::map<std::string, std::size_t> by_name;
  for (std::size_t i = 0; i < result.plots.size(); ++i) by_name[result.pool.plots[result.plots[i].plot].name] = i;
  for (const PlotShare& shared : result.shared) {
    std::vector<std::size_t> payers;
    for (const std::string& name : result.pool.plots[shared.plot].paid_by) {
      if (const auto found = by_name.find(name); found != by_name.end()) payers.push_back(found->second);
    }
    if (payers.empty()) {
      for (std::size_t i = 0; i < result.plots.size(); ++i) payers.push_back(i);
    }
    const std::vector<std::int64_t> parts =
        apportion(shared.share.paid.minor, std::vector<std::int64_t>(payers.size(), 1));
    for (std::size_t i = 0; i < payers.size(); ++i) result.plots[payers[i]].for_shared += Money{parts[i]};
  }
}

}  // namespace

std::string payer_of(const Plot& plot) { return plot.member.empty() ? "plot " + plot.name : plot.member; }

bool needs_groups(ShareRule rule) { return rule == ShareRule::nucleolus || rule == ShareRule::equal_saving; }

void share_pool(PoolResult& result, ShareRule rule, const BuyLimits& limits, int threads) {
  std::vector<Sharer> sharers;
  std::vector<PlotShare*> lines;
  for (auto* list : {&result.plots, &result.shared}) {
    for (PlotShare& line : *list) {
      sharers.push_back({result.pool.plots[line.plot].name, line.basket});
      lines.push_back(&line);
    }
  }
  const Money total = result.purchase.total;
  result.prices = price_list(result.book, limits, total);
  for (std::size_t b = 0; b < result.alone.size(); ++b) {
    // A basket whose own order is not known for sure costs its listed value at least.
    Alone& alone = result.alone[b];
    const Money listed = listed_value(result.prices, result.baskets[b]) - result.prices.rounding;
    alone.least = std::max({alone.least, listed, Money{}});
    // What cannot be bought alone at all, or was not tried, may cost as much as everything.
    if (alone.outcome != Outcome::bought && rule == ShareRule::price_list) alone.least = total;
  }
  std::optional<GroupCosts> groups;
  if (needs_groups(rule) && sharers.size() >= 2 && result.purchase.proof.proven) {
    groups = buy_as_groups(result.book, result.baskets, sharers, limits, threads);
  }
  result.groups_unknown = needs_groups(rule) && sharers.size() >= 2 && !groups;
  result.shares = share_out(total, result.baskets, result.alone, sharers, result.prices,
                            needs_groups(rule) ? ShareRule::price_list : rule);
  if (groups) {
    std::vector<Share> split = result.shares.shares;
    const auto paid = by_groups(*groups, rule, total);
    for (std::size_t i = 0; i < split.size(); ++i) split[i].paid = {(*paid)[i]};
    result.shares = state_shares(total, result.alone, sharers, std::move(split), result.prices, rule);
  }
  if (groups) look_at_groups(result, *groups, sharers);
  for (std::size_t i = 0; i < lines.size(); ++i) lines[i]->share = result.shares.shares[i];
  charge_shared(result);
}

}  // namespace teetally
