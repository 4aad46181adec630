#pragma once
// A Takeoff: generic needs, each with its reasons, which always add up. It comes from a SizedGarden
// (teetally/needs/take_off.h) or from a parts list file. Waste and spares are reasons of their own, never
// hidden in a count; pack surplus is decided later, by the purchase. This header knows nothing of gardens,
// so that the stages that buy, which read it, know nothing of them either.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "teetally/base.h"

namespace teetally {

// Amounts are pieces, or tenths of a millimetre for kinds cut by length.
enum class ReasonClass {
  design,   // the design asks for it
  waste,    // cutting allowance
  spare,    // kept in the shed
  on_site,  // the site has it already: a negative amount
};
std::string to_text(ReasonClass reason_class);  // "on site"
struct Reason {
  ReasonClass reason_class = ReasonClass::design;
  std::string element;  // "bed 'tomatoes'"
  std::string rule;     // "barbed connector where a row leaves its header"
  std::string where;    // "row 2"
  std::int64_t amount = 0;
  Place place;  // in the design, practice or parts list file
};

// Tubing as measured, between two fittings or devices. A total, of which no pieces are known, is one piece that may
// be cut anyhow and joined at no cost.
struct NeededPiece {
  Length length;
  std::string where;
  bool may_join = false;  // at the cost of a coupling for each join
  bool any_cut = false;   // a total
};

struct Need {
  std::string id;            // "N07", stable within a takeoff
  PartSpec part;             // what is wanted, attributes as constraints
  std::vector<int> systems;  // for each end of the kind, the tubing system it grips; for tubing, its own
  bool by_length = false;
  std::int64_t amount = 0;  // the sum of the reasons
  std::vector<Reason> reasons;
  std::vector<NeededPiece> pieces;  // kinds cut by length only
  Place place;
};

// Tubing that is connected and shares a nominal size must be of one fit family.
struct TubingSystem {
  std::string name;  // "1/2 in", or "1/2 in, zone 'pots'" when there are several
  std::string size;
};

struct Assumption {
  std::string text;    // "hold-downs every 3 ft on supply tubing"
  std::string origin;  // "shipped practice" or a place
};

// How coils are cut. Practice sets them for designs; parts lists have these.
struct CuttingRules {
  Length least_joined = Length{3000};  // no part of a joined piece is shorter
  Length spare_from = metres(1);       // what is left of a coil is a spare from this length on, else scrap
};

struct Takeoff {
  std::string name;
  std::vector<TubingSystem> systems;
  std::vector<Need> needs;    // by kind in the vocabulary's order, then attributes; amounts above zero
  std::vector<Need> covered;  // the site has all of it: amount zero, nothing to buy, shown all the same
  std::vector<Assumption> assumptions;
  std::vector<std::string> cautions;
  CuttingRules cutting;
};

// A parts list: YAML or CSV (by the name's ending). docs/parts-list.md.
std::optional<Takeoff> read_parts_list(const Source& source, const Vocabulary& vocabulary, Diagnostics& diagnostics);
// Whether a YAML file is a parts list, a design or neither, by its first key.
enum class FileKind { design, parts_list, pool, catalog, practice, vocabulary, on_hand, unknown };
FileKind kind_of_file(const Source& source);

std::string amount_text(const Need& need, std::int64_t amount, UnitSystem units);  // "12" or "84 ft 6 in"

Json to_json(const Takeoff& takeoff);

}  // namespace teetally
