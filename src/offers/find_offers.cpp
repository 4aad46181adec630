#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "offers/families.h"
#include "offers/fitting.h"
#include "offers/near_misses.h"
#include "offers/shelf.h"

namespace teetally {

namespace {

using ItemKey = std::pair<int, int>;  // catalog, item

ItemKey key_of(const BookItem& item) { return {item.catalog, item.item}; }

// A serving whose item has no number in the book yet.
struct Found {
  BookItem item;
  Serving serving;
};

const Item& item_at(const OfferBook& book, const BookItem& at) {
  return book.catalogs[static_cast<std::size_t>(at.catalog)]->items[static_cast<std::size_t>(at.item)];
}

std::vector<Way> ways_for_tubing(const Need& need, const Item& item, const std::vector<SystemFamilies>& systems) {
  Way way;
  for (const int system : need.systems) {
    if (system < 0 || !item.inside || !item.outside) continue;
    const auto& families = systems[static_cast<std::size_t>(system)].families;
    const auto own = std::find(families.begin(), families.end(), family_of(item));
    way.push_back({system, {static_cast<int>(own - families.begin())}});
  }
  return {way};
}

void add_servings(const Need& need, int number, const BookItem& at, const OfferBook& book, const Shelf& shelf,
                  const Vocabulary& vocabulary, std::vector<Found>& found) {
  const Item& item = item_at(book, at);
  const KindType* kind = vocabulary.find(need.part.kind);
  if (kind == nullptr || !shelf.of(at).for_sale || (need.by_length && !can_be_cut_for(need, at, shelf))) return;
  std::vector<Way> ways =
      need.by_length ? ways_for_tubing(need, item, book.systems) : ways_to_fit(need, item, kind->ends, book.systems);
  for (Way& way : ways) found.push_back({at, {number, -1, std::move(way), longest_unjoined(need)}});
}

std::vector<Found> find_servings(const OfferBook& book, const Shelf& shelf, const Vocabulary& vocabulary,
                                 UnitSystem units) {
  std::vector<Found> found;
  for (std::size_t n = 0; n < book.takeoff.needs.size(); ++n) {
    const Need& need = book.takeoff.needs[n];
    const auto first = static_cast<std::ptrdiff_t>(found.size());
    for (const Alike& alike : shelf.of_kind(need.part.kind)) {
      if (mismatch(need.part, alike.part, vocabulary, units)) continue;
      for (const BookItem& at : alike.items) {
        add_servings(need, static_cast<int>(n), at, book, shelf, vocabulary, found);
      }
    }
    std::stable_sort(found.begin() + first, found.end(),
                     [](const Found& a, const Found& b) { return key_of(a.item) < key_of(b.item); });
  }
  return found;
}

// Joining tubing takes couplings of its size that grip its system: a need of its own, whose amount the purchase
// decides.
int coupling_need_for(const Need& tubing, Takeoff& takeoff, const Vocabulary& vocabulary) {
  const bool joins = std::any_of(tubing.pieces.begin(), tubing.pieces.end(),
                                 [](const NeededPiece& piece) { return piece.may_join && !piece.any_cut; });
  const auto size = tubing.part.attributes.find("size");
  if (!joins || size == tubing.part.attributes.end() || vocabulary.find("coupling") == nullptr) return -1;
  Need coupling;
  coupling.part = {"coupling", {*size}};
  if (!tubing.systems.empty()) coupling.systems = {tubing.systems[0], tubing.systems[0]};
  coupling.place = tubing.place;
  for (std::size_t n = 0; n < takeoff.needs.size(); ++n) {
    const Need& need = takeoff.needs[n];
    if (need.part == coupling.part && need.systems == coupling.systems) return static_cast<int>(n);
  }
  const std::size_t number = takeoff.needs.size() + takeoff.covered.size() + 1;
  coupling.id = fmt::format("N{:02}", number);
  takeoff.needs.push_back(std::move(coupling));
  return static_cast<int>(takeoff.needs.size()) - 1;
}

void add_coupling_needs(OfferBook& book, const Vocabulary& vocabulary) {
  const std::size_t needs = book.takeoff.needs.size();
  for (std::size_t n = 0; n < needs; ++n) {
    const Need tubing = book.takeoff.needs[n];
    book.coupling_need.push_back(tubing.by_length ? coupling_need_for(tubing, book.takeoff, vocabulary) : -1);
  }
  book.coupling_need.resize(book.takeoff.needs.size(), -1);
}

// Numbers items in catalog order, so that the book does not depend on the order of the needs.
void enter_servings(std::vector<Found> found, OfferBook& book, std::map<ItemKey, int>& numbers) {
  for (const Found& one : found) numbers.emplace(key_of(one.item), -1);
  for (auto& [key, number] : numbers) {
    number = static_cast<int>(book.items.size());
    book.items.push_back({key.first, key.second});
  }
  for (Found& one : found) {
    one.serving.item = numbers.at(key_of(one.item));
    book.servings.push_back(std::move(one.serving));
  }
}

void enter_near_misses(OfferBook& book, const Shelf& shelf, const Vocabulary& vocabulary, const OfferWishes& wishes,
                       UnitSystem units, std::map<ItemKey, int>& numbers) {
  for (std::size_t n = 0; n < book.takeoff.needs.size(); ++n) {
    for (Miss& miss : nearest_misses(book.takeoff.needs[n], book, shelf, vocabulary, wishes.most_near_misses, units)) {
      const auto [number, is_new] = numbers.emplace(key_of(miss.item), static_cast<int>(book.items.size()));
      if (is_new) book.items.push_back(miss.item);
      book.near_misses.push_back({static_cast<int>(n), number->second, std::move(miss.why)});
    }
  }
}

// Fittings bought for tubing that is there already cannot be checked against it.
void caution_unchecked_fit(OfferBook& book) {
  for (std::size_t s = 0; s < book.takeoff.systems.size(); ++s) {
    const auto touches = [&](const Need& need) {
      return std::find(need.systems.begin(), need.systems.end(), static_cast<int>(s)) != need.systems.end();
    };
    const auto& needs = book.takeoff.needs;
    const bool tubing =
        std::any_of(needs.begin(), needs.end(), [&](const Need& need) { return need.by_length && touches(need); });
    if (tubing || !std::any_of(needs.begin(), needs.end(), touches)) continue;
    book.takeoff.cautions.push_back("No " + book.takeoff.systems[s].name +
                                    " tubing is bought: measure what is there and check that the fittings grip it.");
  }
}

}  // namespace

OfferBook find_offers(Takeoff takeoff, std::vector<Catalog> catalogs, const Vocabulary& vocabulary,
                      const OfferWishes& wishes, UnitSystem units) {
  OfferBook book;
  book.takeoff = std::move(takeoff);
  for (Catalog& catalog : catalogs) book.catalogs.push_back(std::make_shared<const Catalog>(std::move(catalog)));
  add_coupling_needs(book, vocabulary);
  const Shelf shelf = stack_shelf(book.catalogs);
  book.systems = collect_families(book.takeoff, book.catalogs, shelf, vocabulary, units);
  std::map<ItemKey, int> numbers;
  enter_servings(find_servings(book, shelf, vocabulary, units), book, numbers);
  if (wishes.near_misses) enter_near_misses(book, shelf, vocabulary, wishes, units, numbers);
  caution_unchecked_fit(book);
  return book;
}

}  // namespace teetally
