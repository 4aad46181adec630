// Whole units by largest remainder (Hamilton's method; OpenStax, Contemporary Mathematics, section 11.4).
#include <algorithm>
#include <cmath>
#include <numeric>

#include "quote/wide.h"
#include "teetally/quote/shares.h"

namespace teetally {
namespace {

// Adds one to the first entries of `order` until the sum is reached.
void hand_out(std::vector<std::int64_t>& parts, std::int64_t left, const std::vector<std::size_t>& order) {
  for (std::size_t i = 0; left > 0; i = (i + 1) % order.size(), --left) ++parts[order[i]];
}

std::vector<std::size_t> numbered(std::size_t n) {
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), 0U);
  return order;
}

}  // namespace

std::vector<std::int64_t> apportion(std::int64_t total, const std::vector<std::int64_t>& weights) {
  if (weights.empty()) return {};
  Wide sum = 0;
  for (const std::int64_t weight : weights) sum += weight;
  const bool equally = sum == 0;
  if (equally) sum = static_cast<Wide>(weights.size());
  const auto weight_of = [&](std::size_t i) { return equally ? Wide{1} : Wide{weights[i]}; };
  std::vector<std::int64_t> parts;
  std::vector<Wide> remainders;
  std::int64_t left = total;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    const Wide quota = Wide{total} * weight_of(i);
    parts.push_back(static_cast<std::int64_t>(quota / sum));
    remainders.push_back(quota % sum);
    left -= parts.back();
  }
  std::vector<std::size_t> order = numbered(weights.size());
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return remainders[a] != remainders[b] ? remainders[a] > remainders[b] : weights[a] > weights[b];
  });
  hand_out(parts, left, order);
  return parts;
}

std::vector<std::int64_t> to_whole(const std::vector<double>& quotas, std::int64_t total) {
  if (quotas.empty()) return {};
  std::vector<std::int64_t> parts;
  std::vector<double> remainders;
  std::int64_t left = total;
  for (const double quota : quotas) {
    const double down = std::floor(quota + 1e-6);  // 2.9999999 is a 3 that was computed
    parts.push_back(static_cast<std::int64_t>(down));
    remainders.push_back(quota - down);
    left -= parts.back();
  }
  std::vector<std::size_t> order = numbered(quotas.size());
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if (std::abs(remainders[a] - remainders[b]) > 1e-6) return remainders[a] > remainders[b];
    return quotas[a] > quotas[b] + 1e-6;
  });
  hand_out(parts, left, order);
  for (std::size_t i = order.size(); left < 0; ++left) --parts[order[i = (i == 0 ? order.size() : i) - 1]];
  return parts;
}

}  // namespace teetally
