#include "offers/families.h"

#include <algorithm>
#include <set>
#include <utility>

namespace teetally {

namespace {

using Pair = std::pair<Diameter, Diameter>;

void collect_for(const Need& need, const std::vector<std::shared_ptr<const Catalog>>& catalogs, const Shelf& shelf,
                 const Vocabulary& vocabulary, UnitSystem units, std::set<Pair>& found) {
  for (const Alike& alike : shelf.of_kind(need.part.kind)) {
    if (mismatch(need.part, alike.part, vocabulary, units)) continue;
    for (const BookItem& at : alike.items) {
      const Item& item = catalogs[static_cast<std::size_t>(at.catalog)]->items[static_cast<std::size_t>(at.item)];
      if (!item.inside || !item.outside || !can_be_cut_for(need, at, shelf)) continue;
      found.insert({*item.inside, *item.outside});
    }
  }
}

}  // namespace

Length longest_unjoined(const Need& need) {
  Length longest;
  for (const NeededPiece& piece : need.pieces) {
    if (!piece.may_join) longest = std::max(longest, piece.length);
  }
  return longest;
}

bool can_be_cut_for(const Need& need, const BookItem& item, const Shelf& shelf) {
  const Availability& available = shelf.of(item);
  return available.for_sale && available.longest_coil >= longest_unjoined(need);
}

std::vector<SystemFamilies> collect_families(const Takeoff& takeoff,
                                             const std::vector<std::shared_ptr<const Catalog>>& catalogs,
                                             const Shelf& shelf, const Vocabulary& vocabulary, UnitSystem units) {
  std::vector<std::set<Pair>> found(takeoff.systems.size());
  for (const Need& need : takeoff.needs) {
    if (!need.by_length) continue;
    for (const int system : need.systems) {
      if (system >= 0) collect_for(need, catalogs, shelf, vocabulary, units, found[static_cast<std::size_t>(system)]);
    }
  }
  std::vector<SystemFamilies> systems;
  for (std::size_t s = 0; s < found.size(); ++s) {
    SystemFamilies one{static_cast<int>(s), {}};
    for (const Pair& pair : found[s]) one.families.push_back({pair.first, pair.second});
    systems.push_back(std::move(one));
  }
  return systems;
}

FitFamily family_of(const Item& tubing) { return {*tubing.inside, *tubing.outside}; }

}  // namespace teetally
