// The cut list: which piece from which coil, in cutting order, and what is left of every coil.
#include "render/order/cut_list.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/json_parts.h"
#include "render/order_parts.h"
#include "render/phrases.h"

namespace teetally {
namespace {

constexpr auto kRight = Column::Side::right;

const Need& need_at(const OrderView& view, int need) { return view.book.takeoff.needs[static_cast<std::size_t>(need)]; }

const NeededPiece& piece_of(const OrderView& view, int need, int piece) {
  return need_at(view, need).pieces[static_cast<std::size_t>(piece)];
}

std::string coil_text(const OrderView& view, const CutCoil& coil, std::size_t number, const Page& page) {
  const CoilWords words = words_of(view, coil);
  std::string name = fmt::format("Coil {}: {} of {}", number, to_text(coil.length, page.units), words.what);
  if (!words.sku.empty()) name += fmt::format(" ({}, {})", words.sku, words.supplier);
  TextTable table{{{"Cut", kRight}, {"Length", kRight}, {"Need"}, {"Where", Column::Side::left, true}}, {}};
  int cuts = 0;
  for (const CoilCut& cut : coil.cuts) {
    table.rows.push_back({std::to_string(++cuts), to_text(cut.length, page.units), need_at(view, cut.need).id,
                          printable(place_words(view, cut))});
  }
  table.rows.push_back({"", coil.left.tenths_mm == 0 ? "" : to_text(coil.left, page.units), "", left_words(coil)});
  return "\n" + wrapped(printable(name), page.width, 0, 2) + laid_out(table, page.width, 2);
}

std::string joins_text(const OrderView& view, const Page& page) {
  std::string out;
  for (const JoinReason& join : view.purchase.joins) {
    out += wrapped(fmt::format("{}  {} for {}", need_at(view, join.need).id, counted(join.amount, "coupling"),
                               printable(piece_of(view, join.tubing_need, join.piece).where)),
                   page.width, 2, 6);
  }
  return out.empty() ? out : heading("Couplings where pieces are joined") + out;
}

Json length_json(Length length, UnitSystem units) { return amount_json(true, length.tenths_mm, units); }

}  // namespace

CoilWords words_of(const OrderView& view, const CutCoil& coil) {
  if (coil.catalog < 0) {
    const int need = coil.cuts.empty() ? -1 : coil.cuts.front().need;
    return {"", "", need < 0 ? "tubing on site" : need_at(view, need).part.kind + " on site"};
  }
  const Catalog& catalog = *view.book.catalogs[static_cast<std::size_t>(coil.catalog)];
  const Item& item = catalog.items[static_cast<std::size_t>(coil.item)];
  return {catalog.id, item.sku, item.name};
}

std::string place_words(const OrderView& view, const CoilCut& cut) {
  const NeededPiece& piece = piece_of(view, cut.need, cut.piece);
  std::string words = piece.where.empty() ? (piece.any_cut ? "as it suits" : "any") : piece.where;
  if (cut.parts > 1) words += fmt::format(" (part {} of {}{})", cut.part, cut.parts, piece.any_cut ? "" : ", joined");
  return words;
}

std::string left_words(const CutCoil& coil) {
  if (coil.left.tenths_mm == 0) return "nothing left";
  return coil.spare ? "left: keep as a spare" : "left: scrap";
}

std::string cut_list_summary(const OrderView& view) {
  if (view.purchase.coils.empty()) return "No tubing is bought, so there is nothing to cut.";
  std::size_t cuts = 0;
  bool has_places = false;
  for (const CutCoil& coil : view.purchase.coils) {
    cuts += coil.cuts.size();
    for (const CoilCut& cut : coil.cuts) has_places = has_places || !piece_of(view, cut.need, cut.piece).where.empty();
  }
  return "Cut list: " + counted(static_cast<std::int64_t>(view.purchase.coils.size()), "coil") + ", " +
         counted(static_cast<std::int64_t>(cuts), "cut") +
         ". Lengths hold each piece's share of the cutting allowance." +
         (has_places ? " Places along a line, header or row are measured from its start." : "");
}

std::string cut_list_text(const OrderView& view, const Page& page) {
  std::string out = title_line(view.book.takeoff.name, "Parts");
  out += wrapped(cut_list_summary(view), page.width);
  if (view.purchase.coils.empty()) return out;
  std::size_t number = 0;
  for (const CutCoil& coil : view.purchase.coils) out += coil_text(view, coil, ++number, page);
  out += joins_text(view, page);
  return out + "\n" + wrapped("Measure on site before you cut: these lengths are estimates.", page.width);
}

Json cut_list_json(const OrderView& view, UnitSystem units) {
  Json coils = Json::array();
  for (const CutCoil& coil : view.purchase.coils) {
    const CoilWords words = words_of(view, coil);
    Json cuts = Json::array();
    for (const CoilCut& cut : coil.cuts) {
      Json one = Json::object();
      one.set("length", length_json(cut.length, units));
      one.set("need", need_at(view, cut.need).id);
      one.set("piece", cut.piece + 1);
      one.set("where", piece_of(view, cut.need, cut.piece).where);
      one.set("part", cut.part);
      one.set("parts", cut.parts);
      cuts.push(std::move(one));
    }
    Json one = Json::object();
    one.set("supplier", words.supplier.empty() ? Json() : Json(words.supplier));
    one.set("sku", words.sku.empty() ? Json() : Json(words.sku));
    one.set("name", words.what);
    one.set("length", length_json(coil.length, units));
    one.set("cuts", std::move(cuts));
    one.set("left", length_json(coil.left, units));
    one.set("spare", coil.spare);
    coils.push(std::move(one));
  }
  return coils;
}

Json joins_json(const OrderView& view) {
  Json joins = Json::array();
  for (const JoinReason& join : view.purchase.joins) {
    Json one = Json::object();
    one.set("need", need_at(view, join.need).id);
    one.set("couplings", join.amount);
    one.set("joined", need_at(view, join.tubing_need).id);
    one.set("piece", join.piece + 1);
    one.set("where", piece_of(view, join.tubing_need, join.piece).where);
    joins.push(std::move(one));
  }
  return joins;
}

Json cut_list_document(const OrderView& view, UnitSystem units) {
  Json json = document_start("teetally/cut-list", view.book.takeoff.name);
  json.set("coils", cut_list_json(view, units));
  json.set("joins", joins_json(view));
  return json;
}

std::string cut_list_csv(const OrderView& view, UnitSystem units) {
  std::string out = csv_row({"coil", "supplier", "sku", "what", "coil length", "cut", "need", "where", "part", "parts",
                             "tenths mm", "length", "left over"});
  std::size_t number = 0;
  for (const CutCoil& coil : view.purchase.coils) {
    const CoilWords words = words_of(view, coil);
    const std::vector<std::string> start = {std::to_string(++number), words.supplier, words.sku, words.what,
                                            to_text(coil.length, units)};
    const auto row = [&](const std::vector<std::string>& rest) {
      std::vector<std::string> cells = start;
      cells.insert(cells.end(), rest.begin(), rest.end());
      out += csv_row(cells);
    };
    int cuts = 0;
    for (const CoilCut& cut : coil.cuts) {
      row({std::to_string(++cuts), need_at(view, cut.need).id, piece_of(view, cut.need, cut.piece).where,
           std::to_string(cut.part), std::to_string(cut.parts), std::to_string(cut.length.tenths_mm),
           to_text(cut.length, units), ""});
    }
    row({"", "", "", "", "", std::to_string(coil.left.tenths_mm), to_text(coil.left, units),
         coil.left.tenths_mm == 0 ? "nothing"
         : coil.spare             ? "spare"
                                  : "scrap"});
  }
  return out;
}

}  // namespace teetally
