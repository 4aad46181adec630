#include <algorithm>
#include <numeric>

#include "purchase/cut/cutting.h"
#include "teetally/needs.h"

namespace teetally {

std::vector<std::int64_t> cut_lengths(const Need& need) {
  std::int64_t gross = need.amount, measured = 0;
  for (const Reason& reason : need.reasons) {
    if (reason.reason_class == ReasonClass::on_site) gross -= reason.amount;
  }
  for (const NeededPiece& piece : need.pieces) measured += piece.length.tenths_mm;
  std::vector<std::int64_t> lengths;
  std::int64_t sum = 0;
  for (const NeededPiece& piece : need.pieces) {
    const double scale = static_cast<double>(gross) / static_cast<double>(std::max<std::int64_t>(1, measured));
    const double share = static_cast<double>(piece.length.tenths_mm) * scale;
    lengths.push_back(gross == measured ? piece.length.tenths_mm : static_cast<std::int64_t>(share));
    sum += lengths.back();
  }
  std::vector<std::size_t> order(lengths.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return lengths[a] > lengths[b]; });
  for (std::size_t i = 0; i < order.size() && sum < gross; ++i, ++sum) ++lengths[order[i]];
  if (!lengths.empty()) lengths[order.front()] += gross - sum;
  return lengths;
}

}  // namespace teetally
