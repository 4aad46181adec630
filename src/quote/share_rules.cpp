#include <algorithm>
#include <numeric>
#include <stdexcept>

#include "teetally/quote/shares.h"

namespace teetally {
namespace {

struct RuleWord {
  ShareRule rule;
  const char* word;
};
constexpr RuleWord kRules[] = {
    {ShareRule::price_list, "price list"},
    {ShareRule::alone, "alone"},
    {ShareRule::use, "use"},
    {ShareRule::equal, "equal"},
    {ShareRule::nucleolus, "nucleolus"},
    {ShareRule::equal_saving, "equal saving"},
};

// Everybody in an order that depends on neither the file's order nor, but for equals, on names.
std::vector<std::size_t> in_fixed_order(const std::vector<Sharer>& sharers, const std::vector<std::int64_t>& listed,
                                        const std::vector<std::int64_t>& alone, const std::vector<Basket>& baskets) {
  std::vector<std::size_t> order(sharers.size());
  std::iota(order.begin(), order.end(), 0U);
  const auto before = [&](const Portion& a, const Portion& b) {
    return a.need != b.need ? a.need < b.need : a.amount > b.amount;
  };
  const auto differ = [&](const Basket& a, const Basket& b) {
    return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(), before) ||
           std::lexicographical_compare(b.begin(), b.end(), a.begin(), a.end(), before);
  };
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if (alone[a] != alone[b]) return alone[a] > alone[b];
    if (listed[a] != listed[b]) return listed[a] > listed[b];
    if (sharers[a].basket != sharers[b].basket) {
      const Basket& left = baskets[sharers[a].basket];
      const Basket& right = baskets[sharers[b].basket];
      if (differ(left, right)) {
        return std::lexicographical_compare(left.begin(), left.end(), right.begin(), right.end(), before);
      }
    }
    return sharers[a].name < sharers[b].name;
  });
  return order;
}

// The remainder as evenly as can be while nobody's part exceeds their room: the level to which everybody is filled
// up, and single units to those with room above it. What exceeds all room goes in proportion to what is alone.
std::vector<std::int64_t> fill_up(std::int64_t remainder, const std::vector<std::int64_t>& room,
                                  const std::vector<std::int64_t>& alone) {
  const std::size_t n = room.size();
  const std::int64_t all = std::accumulate(room.begin(), room.end(), std::int64_t{0});
  std::vector<std::int64_t> parts(n);
  if (remainder >= all) {
    const std::vector<std::int64_t> above = apportion(remainder - all, alone);
    for (std::size_t i = 0; i < n; ++i) parts[i] = room[i] + above[i];
    return parts;
  }
  std::vector<std::int64_t> rising = room;
  std::sort(rising.begin(), rising.end());
  std::int64_t level = 0, left = remainder;
  for (std::size_t i = 0; i < n; ++i) {
    const auto sharing = static_cast<std::int64_t>(n - i);
    const std::int64_t step = std::min(rising[i] - level, left / sharing);
    level += step;
    left -= step * sharing;
    if (level < rising[i]) break;
  }
  for (std::size_t i = 0; i < n; ++i) {
    parts[i] = std::min(room[i], level);
    if (left > 0 && room[i] > level) {
      ++parts[i];
      --left;
    }
  }
  return parts;
}

}  // namespace

std::optional<ShareRule> share_rule(std::string_view word) {
  for (const RuleWord& row : kRules) {
    if (word == row.word) return row.rule;
  }
  return std::nullopt;
}

std::string to_text(ShareRule rule) {
  for (const RuleWord& row : kRules) {
    if (row.rule == rule) return row.word;
  }
  return {};
}

std::vector<std::string> share_rule_names() {
  std::vector<std::string> names;
  for (const RuleWord& row : kRules) names.emplace_back(row.word);
  return names;
}

Shares state_shares(Money total, const std::vector<Alone>& alone, const std::vector<Sharer>& sharers,
                    std::vector<Share> split, const PriceList& prices, ShareRule rule) {
  Shares shares;
  shares.rule = rule;
  shares.rounding = prices.rounding;
  Money sum;
  for (std::size_t i = 0; i < split.size(); ++i) {
    Share& share = split[i];
    share.top_up = share.paid - share.listed;
    shares.listed += share.listed;
    shares.top_ups += share.top_up;
    shares.largest_top_up = std::max(shares.largest_top_up, share.top_up);
    shares.least_alone += alone[sharers[i].basket].least;
    const Money excess = share.paid - alone[sharers[i].basket].least;
    if (excess > Money{}) ++shares.pay_more;
    shares.worst_excess = std::max(shares.worst_excess, excess);
    sum += share.paid;
  }
  if (!split.empty() && sum != total) throw std::logic_error("shares do not add up to the order");
  shares.shares = std::move(split);
  return shares;
}

Shares share_out(Money total, const std::vector<Basket>& baskets, const std::vector<Alone>& alone,
                 const std::vector<Sharer>& sharers, const PriceList& prices, ShareRule rule) {
  std::vector<std::int64_t> value;  // by basket
  for (const Basket& basket : baskets) value.push_back(listed_value(prices, basket).minor);
  std::vector<std::int64_t> listed, least;
  for (const Sharer& sharer : sharers) {
    least.push_back(alone[sharer.basket].least.minor);
    // The list may exceed what a basket costs alone by its rounding; nobody is charged that.
    listed.push_back(std::min(value[sharer.basket], least.back()));
  }
  const std::vector<std::size_t> order = in_fixed_order(sharers, listed, least, baskets);
  std::vector<std::int64_t> weights, room;
  for (const std::size_t i : order) {
    const bool empty = baskets[sharers[i].basket].empty();
    room.push_back(least[i] - listed[i]);
    weights.push_back(rule == ShareRule::equal ? (empty ? 0 : 1) : rule == ShareRule::use ? listed[i] : least[i]);
  }
  const std::int64_t charged = std::accumulate(listed.begin(), listed.end(), std::int64_t{0});
  std::vector<Share> split(sharers.size());
  // A list that brings in more than the order costs (it may, by its rounding) is lowered in proportion.
  const bool by_list = rule == ShareRule::price_list && charged <= total.minor;
  if (rule == ShareRule::price_list && !by_list) {
    for (std::size_t k = 0; k < order.size(); ++k) weights[k] = listed[order[k]];
  }
  std::vector<std::int64_t> ordered_least;
  for (const std::size_t i : order) ordered_least.push_back(least[i]);
  const std::vector<std::int64_t> parts =
      by_list ? fill_up(total.minor - charged, room, ordered_least) : apportion(total.minor, weights);
  for (std::size_t k = 0; k < order.size(); ++k) {
    const std::size_t i = order[k];
    split[i].listed = {listed[i]};
    split[i].paid = {by_list ? listed[i] + parts[k] : parts[k]};
  }
  return state_shares(total, alone, sharers, std::move(split), prices, rule);
}

}  // namespace teetally
