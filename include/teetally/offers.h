#pragma once
// A Takeoff and Catalogs become an OfferBook: for every need the items that serve it, under which choice of
// fit family, and on request the items that nearly do and why they do not. The optimiser reads nothing else.
#include <memory>
#include <string>
#include <vector>

#include "teetally/base.h"
#include "teetally/catalog.h"
#include "teetally/needs.h"

namespace teetally {

// One pair of diameters that tubing of a system can have; every piece and fitting of the system must fit it.
struct FitFamily {
  Diameter inside, outside;
  bool operator==(const FitFamily&) const = default;
};
struct SystemFamilies {
  int system = -1;                  // index into Takeoff::systems
  std::vector<FitFamily> families;  // from the tubing on offer; empty: no tubing of this system is bought
};

struct BookItem {
  int catalog = -1;  // index into OfferBook::catalogs
  int item = -1;     // index into Catalog::items
};

// `item` can serve `need` when, for each condition, the chosen family of the system is among those listed.
struct FitCondition {
  int system = -1;
  std::vector<int> families;  // indices into SystemFamilies::families
};
struct Serving {
  int need = -1;
  int item = -1;  // index into OfferBook::items
  std::vector<FitCondition> conditions;
};

struct NearMiss {
  int need = -1;
  int item = -1;
  std::string why;  // "grips 0.520 in inside; no tubing on offer for '1/2 in' has that"
};

struct OfferBook {
  Takeoff takeoff;
  std::vector<std::shared_ptr<const Catalog>> catalogs;
  std::vector<BookItem> items;            // every item that serves any need
  std::vector<SystemFamilies> systems;    // one per Takeoff::systems
  std::vector<Serving> servings;          // by need, then catalog order
  std::vector<NearMiss> near_misses;      // filled on request; nearest first within a need
};

struct OfferWishes {
  bool near_misses = false;
  int most_near_misses = 3;  // per need
};
OfferBook find_offers(Takeoff takeoff, std::vector<Catalog> catalogs, const Vocabulary& vocabulary,
                      const OfferWishes& wishes, UnitSystem units);

Json to_json(const OfferBook& book);

}  // namespace teetally
