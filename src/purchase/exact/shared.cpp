#include "purchase/exact/shared.h"

#include <algorithm>
#include <numeric>

namespace teetally {
namespace {

constexpr std::int64_t kManyStates = std::int64_t{1} << 40;

// The sets of needs as bits, with what they ask for and what serves them.
class Sets {
 public:
  Sets(const std::vector<std::int64_t>& demands, const std::vector<unsigned>& dims_of, std::int64_t unit)
      : all_((1U << demands.size()) - 1), least_(all_ + 1, 0), kinds_(all_ + 1) {
    std::vector<unsigned> kinds;  // of products, by what they serve
    for (unsigned dims : dims_of) {
      if (dims != 0 && std::count(kinds.begin(), kinds.end(), dims) == 0) kinds.push_back(dims);
    }
    for (unsigned set = 1; set <= all_; ++set) {
      std::int64_t amount = 0;
      for (std::size_t d = 0; d < demands.size(); ++d) amount += (set >> d & 1) != 0 ? demands[d] : 0;
      least_[set] = (amount + unit - 1) / unit;
      for (unsigned dims : kinds) kinds_[set].push_back((dims & set) != 0);
    }
  }

  unsigned all() const { return all_; }
  std::int64_t least(unsigned set) const { return least_[set]; }

  // Whether the other sets ask for it already.
  bool follows(unsigned set) const {
    for (unsigned other = 1; other <= all_; ++other) {
      if (other == set || !is_within(kinds_[other], kinds_[set]) || least_[other] < least_[set]) continue;
      const bool same = kinds_[other] == kinds_[set] && least_[other] == least_[set];
      if (!same || other > set) return true;
    }
    for (unsigned part = (set - 1) & set; part > 0; part = (part - 1) & set) {
      if (are_apart(kinds_[part], kinds_[set & ~part]) && least_[part] + least_[set & ~part] >= least_[set])
        return true;
    }
    return false;
  }

 private:
  using Kinds = std::vector<bool>;  // by kind of product: whether it serves any of the set

  static bool is_within(const Kinds& few, const Kinds& many) {
    for (std::size_t k = 0; k < few.size(); ++k) {
      if (few[k] && !many[k]) return false;
    }
    return true;
  }
  static bool are_apart(const Kinds& one, const Kinds& two) {
    for (std::size_t k = 0; k < one.size(); ++k) {
      if (one[k] && two[k]) return false;
    }
    return true;
  }

  unsigned all_;
  std::vector<std::int64_t> least_;
  std::vector<Kinds> kinds_;
};

// Everything that serves any of the set, with its units.
std::vector<CountTerm> whatever_serves(const PurchaseProblem& problem, const std::vector<unsigned>& dims_of,
                                       unsigned set, std::int64_t unit) {
  const auto serves = [&](int product) { return product >= 0 && (dims_of[product] & set) != 0; };
  std::vector<CountTerm> terms;
  for (std::size_t i = 0; i < problem.packs.size(); ++i) {
    const PackOffer& offer = problem.packs[i];
    if (serves(offer.product)) terms.push_back({static_cast<int>(i), -1, -1, -1, -1, offer.content / unit});
  }
  for (std::size_t b = 0; b < problem.bundles.size(); ++b) {
    const std::vector<BundlePart>& parts = problem.bundles[b].parts;
    for (std::size_t p = 0; p < parts.size(); ++p) {
      const int bundle = static_cast<int>(b), part = static_cast<int>(p);
      const std::int64_t each = parts[p].content / unit;
      if (serves(parts[p].product)) terms.push_back({-1, bundle, part, -1, -1, each});
      for (std::size_t c = 0; c < parts[p].choices.size(); ++c) {
        if (serves(parts[p].choices[c].product)) terms.push_back({-1, bundle, part, static_cast<int>(c), -1, each});
      }
    }
  }
  return terms;
}

}  // namespace

SharedNeeds share_needs(const PurchaseProblem& problem, const std::vector<std::int64_t>& demands,
                        const std::vector<unsigned>& dims_of) {
  SharedNeeds shared;
  std::int64_t unit = 0;
  for_each_content(problem, [&](int product, std::int64_t content) {
    if (product >= 0 && dims_of[product] != 0) unit = std::gcd(unit, content);
  });
  shared.unit = std::max<std::int64_t>(unit, 1);
  const Sets sets(demands, dims_of, shared.unit);
  shared.total = sets.least(sets.all());
  shared.states = shared.total + 1;
  for (unsigned set = 1; set < sets.all(); ++set) {
    if (sets.follows(set)) continue;
    shared.sums.push_back({whatever_serves(problem, dims_of, set, shared.unit), sets.least(set)});
    shared.states = std::min(kManyStates, shared.states * (sets.least(set) + 1));
  }
  return shared;
}

}  // namespace teetally
