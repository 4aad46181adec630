#include <algorithm>
#include <cassert>
#include <numeric>

#include "quote/wide.h"
#include "teetally/quote.h"

namespace teetally {
namespace {

constexpr std::int64_t kWhole = 1'000'000;

}  // namespace

Money price_with_margin(Money cost, Percent margin) {
  assert(margin.ppm < kWhole && "a margin is less than the whole price");
  const Wide rest = kWhole - margin.ppm;
  return {narrowed((static_cast<Wide>(cost.minor) * kWhole * 2 + rest) / (rest * 2))};
}

// Shares are rounded down, and the minor units left over go to the largest remainders, the first where they tie.
std::vector<Money> spread(Money total, const std::vector<Money>& weights) {
  std::vector<Money> shares(weights.size());
  if (weights.empty()) return shares;
  Wide sum = 0;
  for (const Money weight : weights) sum += weight.minor;
  if (sum == 0) {
    shares.front() = total;
    return shares;
  }
  std::vector<Wide> remainders(weights.size());
  Money left = total;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    const Wide part = static_cast<Wide>(total.minor) * weights[i].minor;
    shares[i] = {static_cast<std::int64_t>(part / sum)};
    remainders[i] = part % sum;
    left -= shares[i];
  }
  std::vector<std::size_t> order(weights.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return remainders[a] > remainders[b]; });
  for (std::size_t i = 0; left.minor > 0; ++i, left -= Money{1}) shares[order[i]] += Money{1};
  return shares;
}

}  // namespace teetally
