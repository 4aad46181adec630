#pragma once
// Plain sums of a pool's figures that its outputs share.
#include <cmath>

#include "teetally/render/pool.h"
#include "teetally/render/pool_papers.h"

namespace teetally {

std::int64_t size_of(const auto& list) { return static_cast<std::int64_t>(list.size()); }

inline double percent_of(Money part, Money whole) {
  return whole.minor == 0 ? 0 : 100.0 * static_cast<double>(part.minor) / static_cast<double>(whole.minor);
}

bool all_known_alone(const PoolResult& result);

// A member with the plots they answer for; plots without a member stand for themselves.
struct MemberAccount {
  std::string member;
  std::vector<const PlotShare*> plots;
  Money alone, own, shared;
  bool known = true;   // what every plot would cost alone
  bool proven = true;  // that no order alone costs less
};
std::vector<MemberAccount> member_accounts(const PaperView& view);  // with `plot` the one who answers for it
// What a member's own parts would cost alone, and what the pool saves; empty when it is not known.
std::string member_saving_words(const MemberAccount& account, const Currency& currency);
Money alone_in_all(const PoolResult& result);  // plots and shared parts, each bought alone

}  // namespace teetally
