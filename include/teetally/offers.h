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
  std::vector<FitFamily> families;  // from all tubing on offer, smallest first; empty: no tubing is on offer
};

struct BookItem {
  int catalog = -1;  // index into OfferBook::catalogs
  int item = -1;     // index into Catalog::items
};

// `item` can serve `need` when, for each condition, the chosen family of the system is among those listed. There
// is one condition for each system the need touches, unless no tubing of that system is on offer. Where two ends
// of a fitting interchange but grip differently, one need and one item may have several servings, one for each
// way round; any one of them will do.
struct FitCondition {
  int system = -1;
  std::vector<int> families;  // indices into SystemFamilies::families
};
struct Serving {
  int need = -1;
  int item = -1;  // index into OfferBook::items
  std::vector<FitCondition> conditions;
  Length least_coil{};  // tubing: the longest piece that may not be joined; shorter coils cannot serve the need
};

struct NearMiss {
  int need = -1;
  int item = -1;
  std::string why;  // "grips 0.520 in inside; no tubing on offer for '1/2 in' has that"
};

struct OfferBook {
  Takeoff takeoff;
  std::vector<std::shared_ptr<const Catalog>> catalogs;
  std::vector<BookItem> items;          // every item that serves any need, then those that nearly do
  std::vector<SystemFamilies> systems;  // one per Takeoff::systems
  std::vector<Serving> servings;        // by need, then catalog order
  std::vector<NearMiss> near_misses;    // filled on request; nearest first within a need
  // By need: the need that a coupling adds to when this tubing is joined, or -1. Where the takeoff asks for no such
  // coupling yet, the book's takeoff has gained a need with amount zero.
  std::vector<int> coupling_need;
};

struct OfferWishes {
  bool near_misses = false;
  int most_near_misses = 3;  // per need
};
// Items that nobody can buy (no packs and in no bundle, or none left) are not offers. A system whose fittings
// are bought but not its tubing has no families to choose from; the takeoff gains a caution that says so.
OfferBook find_offers(Takeoff takeoff, std::vector<Catalog> catalogs, const Vocabulary& vocabulary,
                      const OfferWishes& wishes, UnitSystem units);

Json to_json(const OfferBook& book);

}  // namespace teetally
