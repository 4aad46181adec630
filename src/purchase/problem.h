#pragma once
// The purchase as plain integers, cut loose from catalogs and gardens: what an engine has to solve. Amounts are
// pieces or tenths of a millimetre, money is whole minor units. Packs are counted in lots: a lot is the
// fewest packs that may be added at once (the order multiple), so multiples need no rule of their own.
//
// Every count has a limit `most` that is safe: some cheapest plan keeps all of them (see count_limits.h).
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace teetally {

// Goods values no purchase reaches; small enough that a double holds every smaller integer exactly.
inline constexpr std::int64_t kMostGoods = 4'000'000'000'000'000;

// From `from` lots on, n lots cost `base + each * n`. All-units breaks have base 0; incremental ones carry the
// dearer first lots in `base`.
struct LotPrice {
  std::int64_t from = 1;
  std::int64_t base = 0;
  std::int64_t each = 0;
};

struct PackOffer {
  int supplier = -1, product = -1;
  std::int64_t content = 0;  // of one lot
  std::int64_t packs_per_lot = 1;
  std::vector<LotPrice> prices;  // rising `from`; nothing below the first `from` is sold
  std::int64_t needed = 0;       // lots that cover alone every need the product can serve
  std::int64_t most = 0;         // lots
  int catalog = -1, item = -1, pack = -1;
};

// What a part of a bundle may become instead: another product, or nothing (product -1, extra negative).
struct BundleChoice {
  int product = -1;
  std::int64_t extra = 0;  // per bundle
  int swap = -1;           // index into BundleContent::swaps; -1 when left out
};
struct BundlePart {
  int product = -1;
  std::int64_t content = 0;
  std::vector<BundleChoice> choices;
};
struct BundleOffer {
  int supplier = -1;
  std::int64_t price = 0;
  std::vector<BundlePart> parts;  // as Bundle::contents
  std::int64_t least = 0, most = 0;
  int catalog = -1, bundle = -1;
};

// Orders whose goods lie in [from, to] get this discount and pay this charge (shipping and small-order fee).
// Goods values in no bracket are not delivered.
struct OrderBracket {
  std::int64_t from = 0, to = kMostGoods;
  std::int64_t discount_ppm = 0;
  std::int64_t charge = 0;
};
struct SupplierTerms {
  std::vector<OrderBracket> brackets;  // rising, disjoint
  std::int64_t tax_ppm = 0;            // of goods less discount, and of the charge when `tax_on_charge`
  bool tax_on_charge = false;
  bool counts = true;  // among the suppliers of an order; parts on hand do not
  int catalog = -1;
};

// Something that can be bought: an item of one catalog.
struct Product {
  int catalog = -1, item = -1;
  int book_item = -1;  // index into OfferBook::items; -1 when it serves no need
  bool by_length = false;
};

struct FamilyCondition {
  int system = -1;
  std::vector<bool> allowed;  // by family of the system
};
struct ServingOption {
  int need = -1, product = -1;
  std::vector<FamilyCondition> conditions;
};

// A piece of tubing to cut for a need, its allowance included.
struct CutPiece {
  std::int64_t length = 0;
  bool may_join = false;
  bool any_cut = false;  // part of a total: cut as it suits, joined at no cost
  int index = -1;        // into Need::pieces
};
// Joins of tubing: each takes one more of what serves the need (couplings).
struct JoinOffer {
  int need = -1;
  std::int64_t most = 0;
};

// Something that a plan counts, times `each`: lots of a pack; contents of bundles as they come, or as they are changed
// by a choice; joins.
struct CountTerm {
  int pack = -1;
  int bundle = -1, part = -1, choice = -1;
  int join = -1;
  std::int64_t each = 1;
};
struct Reach {
  std::vector<CountTerm> terms;
  std::int64_t least = 0;
};
// Where every system listed has the family listed, at least one of the sums must reach its least: no plan without
// that can be cut. Found while solving (cut_rules.h), never part of the problem as built.
struct CutRule {
  std::vector<std::pair<int, int>> when;  // system, family
  std::vector<Reach> any_of;
};

struct PurchaseProblem {
  std::vector<SupplierTerms> suppliers;
  std::vector<Product> products;
  std::vector<PackOffer> packs;
  std::vector<BundleOffer> bundles;
  std::vector<std::int64_t> needs;  // amount of each need; zero when it is left aside
  std::vector<ServingOption> servings;
  std::vector<int> families;          // how many each system has to choose from; zero: nothing to choose
  std::optional<int> most_suppliers;  // counted ones
  bool bundle_wanted = false;         // at least one of `wanted_bundles` must be bought
  std::vector<int> wanted_bundles;    // indices into `bundles`

  // Cutting. A plan that meets the needs in total may still not be cuttable: see solve_whole.
  std::vector<std::vector<CutPiece>> pieces;          // by need; empty for what is not cut
  std::vector<std::vector<std::int64_t>> site_coils;  // by need: tubing that the site has, free
  std::vector<JoinOffer> joins;
  std::vector<int> join_of_need;  // by need of tubing: index into `joins`, or -1
  std::int64_t least_joined = 0;  // no part of a joined piece is shorter
  std::vector<CutRule> cut_rules;
};

// Calls `take(product, content)` for whatever a pack or a bundle may bring; product -1: nothing.
template <typename Take>
void for_each_content(const PurchaseProblem& problem, const Take& take) {
  for (const PackOffer& offer : problem.packs) take(offer.product, offer.content);
  for (const BundleOffer& bundle : problem.bundles) {
    for (const BundlePart& part : bundle.parts) {
      take(part.product, part.content);
      for (const BundleChoice& choice : part.choices) take(choice.product, part.content);
    }
  }
}

}  // namespace teetally
