#pragma once
// What a pooled order costs is shared among those who buy in it: whole minor units that add up exactly, and a
// stated limit on what any group of them can be paying above going alone.
//
// The default rule goes by a price list: a price for every need such that no order whatever, from whatever mix of
// suppliers, costs less than the listed value of what it brings (but for the rounding of discounts and taxes, see
// PriceList::rounding). So no group, however chosen, could buy alone for less than its listed value, and what it
// pays above that is its top-ups: the part of the total that the list does not bring in, split as evenly as
// possible while nobody pays more than alone. The list is dual to a linear relaxation of the purchase: Owen,
// Mathematical Programming 9:358-370, 1975.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "teetally/base.h"
#include "teetally/purchase.h"

namespace teetally {

// `total` in whole units, in proportion to weights that are not negative: everybody's quota rounded down, and the
// units left over by largest remainder. Ties go to the larger weight, then to the earlier entry. All weights
// zero: equal parts.
std::vector<std::int64_t> apportion(std::int64_t total, const std::vector<std::int64_t>& weights);
// Quotas that are computed already: rounded down, then the units missing by largest remainder.
std::vector<std::int64_t> to_whole(const std::vector<double>& quotas, std::int64_t total);

// So much of one need of a pool.
struct Portion {
  int need = -1;  // index into the pool's Takeoff::needs
  std::int64_t amount = 0;
  std::vector<NeededPiece> pieces{};  // tubing whose pieces are known, allowance included: they add up to `amount`
};
using Basket = std::vector<Portion>;  // by need, amounts above zero

struct PriceList {
  std::vector<std::int64_t> nanos;  // by need: billionths of a minor unit per piece or tenth of a millimetre
  Money rounding;                   // a group's order may come out this much below its listed value, and no more
};
// `cost` is what an order of all needs costs: no group would spend more. Parts on hand are left out.
PriceList price_list(const OfferBook& book, const BuyLimits& limits, Money cost);
// Rounded down to the minor unit.
Money listed_value(const PriceList& prices, const Basket& basket);

// One basket bought alone.
struct Alone {
  Money cost;   // of the best order found
  Money least;  // no order of this basket costs less; equals `cost` when that is proven
  Outcome outcome = Outcome::out_of_time;
};

struct Sharer {
  std::string name;  // settles ties between sharers who are equal in everything else
  int basket = -1;
};

enum class ShareRule {
  price_list,    // listed value and the smallest top-ups: nobody pays more than alone
  alone,         // in proportion to what each would pay alone
  use,           // in proportion to listed value
  equal,         // the same for everybody
  nucleolus,     // the group that gains least gains as much as it can, then the next; small pools
  equal_saving,  // no group pays more than alone, and relative savings are as alike as can be; small pools
};
std::optional<ShareRule> share_rule(std::string_view word);
std::string to_text(ShareRule rule);
std::vector<std::string> share_rule_names();

struct Share {
  Money listed;  // value by the price list
  Money top_up;  // what is paid above it; below zero under rules that do not go by the list
  Money paid;
};
struct Shares {
  ShareRule rule = ShareRule::price_list;
  std::vector<Share> shares;  // as the sharers given; `paid` adds up to the total
  Money listed, top_ups;      // sums
  Money least_alone;          // what all would pay alone at least, in all
  Money largest_top_up;
  Money rounding;      // of the price list
  int pay_more = 0;    // sharers who pay more than their basket surely costs alone
  Money worst_excess;  // the most that one of them pays above it
};

// By the rules that need no group's cost (price_list, alone, use, equal). `alone` is by basket.
Shares share_out(Money total, const std::vector<Basket>& baskets, const std::vector<Alone>& alone,
                 const std::vector<Sharer>& sharers, const PriceList& prices, ShareRule rule);

// A split that was found otherwise, with its figures; throws std::logic_error when it does not add up.
Shares state_shares(Money total, const std::vector<Alone>& alone, const std::vector<Sharer>& sharers,
                    std::vector<Share> split, const PriceList& prices, ShareRule rule);

// What every group of a few members would pay alone: by bit mask, entry 0 is zero, the last is everybody.
struct GroupCosts {
  int members = 0;
  std::vector<double> cost;
};
inline constexpr int kMostGrouped = 10;  // members for which every group is looked at

struct WorstGroup {
  std::uint32_t members = 0;  // bit mask; never all
  double excess = 0;          // what it pays above going alone; below zero: what it gains
};
// Of all groups but everybody together. At least two members.
WorstGroup worst_group(const GroupCosts& groups, const std::vector<double>& paid);

// Excesses, largest first, made as small as possible one after another. Members' payments add up to everybody's
// cost. Maschler, Peleg and Shapley, Mathematics of Operations Research 4:303-338, 1979.
std::vector<double> nucleolus(const GroupCosts& groups);
// Each member's marginal cost, averaged over all orders in which members may arrive (Shapley).
std::vector<double> average_marginal_cost(const GroupCosts& groups);
struct EqualSaving {
  std::vector<double> paid;
  double spread = 0;  // greatest difference between two members' relative savings
};
// Nothing when every split overcharges some group. Frisk, Gothe-Lundgren, Jornsten and Ronnqvist, European
// Journal of Operational Research 205:448-458, 2010.
std::optional<EqualSaving> equal_saving(const GroupCosts& groups);

}  // namespace teetally
