#pragma once
// The stages in order, as the commands share them. Each answers nothing when the pipeline has to stop (errors,
// or the stage to dump was reached): the command then answers `stopped(session)`.
#include <optional>

#include "teetally/design/site.h"
#include "teetally/hydraulics.h"
#include "teetally/needs.h"
#include "teetally/needs/take_off.h"
#include "teetally/offers.h"
#include "teetally/purchase.h"
#include "teetally/render.h"
#include "tool/session.h"

namespace teetally {

// The shipped vocabulary, with what --vocabulary adds.
std::optional<Vocabulary> read_vocabulary(Session& session);

// A design as far as the hydraulics.
struct Worked {
  Vocabulary vocabulary;
  Practice practice;
  Site site;
  SizedGarden sized;
  UnitSystem units = UnitSystem::us;
};
std::optional<Worked> work_out(Session& session, const std::string& path);

// A design or a parts list as far as its needs.
struct Listed {
  Vocabulary vocabulary;
  Takeoff takeoff;
  std::optional<Site> site;          // designs only
  std::optional<SizedGarden> sized;  // designs only
  UnitSystem units = UnitSystem::us;
};
std::optional<Listed> list_needs(Session& session, const std::string& path);

// Everything: the needs with their offers and the cheapest purchase of them.
struct Bought {
  Vocabulary vocabulary;
  OfferBook book;
  Purchase purchase;
  std::optional<Site> site;
  std::optional<SizedGarden> sized;
  UnitSystem units = UnitSystem::us;
};
std::optional<Bought> buy_all(Session& session, const std::string& path, bool near_misses);
// The catalogs of the command line, with the parts at hand that join them.
std::optional<std::vector<Catalog>> catalogs_of(Session& session, const Vocabulary& vocabulary);

// What else could have been bought; `deep`: also every pack, every need and really different orders.
Comparison compare_all(Session& session, const Bought& bought, bool deep);

}  // namespace teetally
