#include "render/takeoff/by_place.h"

#include <algorithm>
#include <limits>
#include <map>
#include <utility>

#include "render/json_parts.h"
#include "render/phrases.h"
#include "teetally/base/csv.h"

namespace teetally {
namespace {

PlacedPart& part_of(std::vector<PlacedPart>& parts, const Need& need) {
  if (parts.empty() || parts.back().need != &need) parts.push_back({&need, 0, {}, {}});
  return parts.back();
}

GardenPlace& place_named(std::vector<GardenPlace>& places, const std::string& name) {
  const auto found = std::find_if(places.begin(), places.end(), [&](const auto& place) { return place.name == name; });
  if (found != places.end()) return *found;
  places.push_back({name, {}});
  return places.back();
}

std::string spot_words(const Need& need, const Reason& reason) {
  if (reason.where.empty() || need.by_length || reason.amount == 1) return reason.where;
  return std::to_string(reason.amount) + " at " + reason.where;
}

// All of them at one spot: the amount of the part says how many.
void shorten(PlacedPart& part) {
  const std::string all = std::to_string(part.amount) + " at ";
  if (part.spots.size() == 1 && part.spots.front().rfind(all, 0) == 0) part.spots.front().erase(0, all.size());
}

// Pieces of a need by the reason they are for. A piece is called after its run, "trunk, from tap to ..."; a run may be
// called like the beginning of another, so the longest name that fits is meant.
using PiecesByReason = std::map<const Reason*, std::vector<const NeededPiece*>>;
PiecesByReason pieces_by_reason(const Need& need) {
  std::map<std::string_view, const Reason*> by_run;
  for (const Reason& reason : need.reasons) {
    if (!reason.where.empty()) by_run.emplace(reason.where, &reason);
  }
  PiecesByReason found;
  for (const NeededPiece& piece : need.pieces) {
    const std::string_view where = piece.where;
    for (std::size_t end = where.rfind(", "); end != std::string_view::npos && end > 0;
         end = where.rfind(", ", end - 1)) {
      const auto run = by_run.find(where.substr(0, end));
      if (run == by_run.end()) continue;
      found[run->second].push_back(&piece);
      break;
    }
  }
  return found;
}

void add_design(const Need& need, const Reason& reason, const PiecesByReason& pieces, PlacedTakeoff& placed) {
  PlacedPart& part = part_of(place_named(placed.places, reason.element).parts, need);
  part.amount += reason.amount;
  if (const std::string spot = spot_words(need, reason); !spot.empty()) part.spots.push_back(spot);
  const auto of_reason = pieces.find(&reason);
  if (of_reason == pieces.end()) return;
  part.pieces.insert(part.pieces.end(), of_reason->second.begin(), of_reason->second.end());
}

void add_besides(const Need& need, const Reason& reason, PlacedTakeoff& placed) {
  PlacedPart& part = part_of(placed.besides, need);
  part.amount += reason.amount;
  part.spots.push_back(class_prefix(reason) + reason.rule);
}

// The lines of the file that speak of it, first and last; what the file never speaks of comes after all else.
std::pair<int, int> lines_of(const Takeoff& takeoff, const std::string& element) {
  std::pair<int, int> lines{std::numeric_limits<int>::max(), 0};
  for (const Need& need : takeoff.needs) {
    for (const Reason& reason : need.reasons) {
      if (reason.element != element || !reason.place.known()) continue;
      lines = {std::min(lines.first, reason.place.line), std::max(lines.second, reason.place.line)};
    }
  }
  return lines;
}

std::string what_words(const PlacedPart& part, UnitSystem units) {
  return part_phrase(part.need->part, units) + " (" + part.need->id + ")";
}

std::string piece_words(const NeededPiece& piece, UnitSystem units) {
  return to_text(piece.length, units) + ": " + printable(piece.where);
}

std::string parts_text(const std::vector<PlacedPart>& parts, const Page& page) {
  TextTable table{{{"", Column::Side::right}, {"", Column::Side::left, true}}, {}};
  for (const PlacedPart& part : parts) {
    table.rows.push_back({amount_text(*part.need, part.amount, page.units), what_words(part, page.units)});
    for (const NeededPiece* piece : part.pieces) table.rows.push_back({"", "  " + piece_words(*piece, page.units)});
    if (part.pieces.empty() && !part.spots.empty()) {
      std::string spots;
      for (const std::string& spot : part.spots) spots += (spots.empty() ? "" : "; ") + printable(spot);
      table.rows.push_back({"", "  " + spots});
    }
  }
  return laid_out(table, page.width, 2);
}

Json parts_json(const std::vector<PlacedPart>& parts, UnitSystem units) {
  Json list = Json::array();
  for (const PlacedPart& part : parts) {
    Json pieces = Json::array();
    for (const NeededPiece* piece : part.pieces) {
      pieces.push(
          Json::object().set("length", amount_json(true, piece->length.tenths_mm, units)).set("where", piece->where));
    }
    Json one = Json::object();
    one.set("need", part.need->id).set("part", part_json(part.need->part, units));
    one.set("amount", amount_json(part.need->by_length, part.amount, units)).set("spots", words_json(part.spots));
    list.push(one.set("pieces", std::move(pieces)));
  }
  return list;
}

void add_rows(std::string& out, const std::string& place, const std::vector<PlacedPart>& parts, UnitSystem units) {
  for (const PlacedPart& part : parts) {
    out += csv_row({place, part.need->id, to_text(part.need->part, units), std::to_string(part.amount),
                    part.need->by_length ? "0.1 mm" : "piece", amount_text(*part.need, part.amount, units),
                    listed(part.spots)});
  }
}

}  // namespace

PlacedTakeoff by_place(const Takeoff& takeoff) {
  PlacedTakeoff placed;
  for (const Need& need : takeoff.needs) {
    const PiecesByReason pieces = pieces_by_reason(need);
    for (const Reason& reason : need.reasons) {
      if (reason.reason_class == ReasonClass::design && !reason.element.empty()) {
        add_design(need, reason, pieces, placed);
      } else {
        add_besides(need, reason, placed);
      }
    }
  }
  for (GardenPlace& place : placed.places) {
    for (PlacedPart& part : place.parts) shorten(part);
  }
  std::stable_sort(placed.places.begin(), placed.places.end(),
                   [&](const auto& a, const auto& b) { return lines_of(takeoff, a.name) < lines_of(takeoff, b.name); });
  return placed;
}

std::string by_place_text(const Takeoff& takeoff, const Page& page) {
  const PlacedTakeoff placed = by_place(takeoff);
  std::string out = title_line(takeoff.name, "Parts") + "What goes where\n";
  for (const GardenPlace& place : placed.places) {
    out += heading(printable(place.name)) + parts_text(place.parts, page);
  }
  if (!placed.besides.empty()) out += heading("Besides") + parts_text(placed.besides, page);
  return out + cautions_text(takeoff.cautions, page);
}

Json by_place_document(const Takeoff& takeoff, UnitSystem units) {
  const PlacedTakeoff placed = by_place(takeoff);
  Json places = Json::array();
  for (const GardenPlace& place : placed.places) {
    places.push(Json::object().set("place", place.name).set("parts", parts_json(place.parts, units)));
  }
  Json json = document_start("teetally/by-place", takeoff.name);
  return json.set("places", std::move(places)).set("besides", parts_json(placed.besides, units));
}

std::string by_place_csv(const Takeoff& takeoff, UnitSystem units) {
  const PlacedTakeoff placed = by_place(takeoff);
  std::string out = csv_row({"place", "need", "part", "amount", "unit", "amount in words", "where"});
  for (const GardenPlace& place : placed.places) add_rows(out, place.name, place.parts, units);
  add_rows(out, "", placed.besides, units);
  return out;
}

}  // namespace teetally
