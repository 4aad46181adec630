#pragma once
// Papers for a pooled order: the order for each supplier, a pick list for each plot, the sequence in which plots are
// packed, and a statement for each member.
#include "teetally/quote/hand_out.h"
#include "teetally/render.h"

namespace teetally {

struct PaperView {
  const PoolResult& result;
  const HandOut& out;
  std::optional<std::string> plot;  // this plot's pick list, or its member's statement, only
  std::size_t from = 0,
              to = SIZE_MAX;  // on pages: these pick lists or statements only, counted from 0; without the last
};
std::size_t statements_in(const PaperView& view);

std::string pool_orders_text(const PoolResult& result, const Page& page);
std::string picks_text(const PaperView& view, const Page& page);
std::string picks_csv(const PaperView& view, UnitSystem units);   // a row per pick, then the pool's stock
Json hand_out_document(const PaperView& view, UnitSystem units);  // "teetally/hand-out"
std::string packing_text(const PaperView& view, const Page& page);
std::string packing_csv(const PaperView& view);  // a row per plot
std::string statements_text(const PaperView& view, const Page& page);
std::string statements_csv(const PaperView& view);  // a row per member
Json statements_document(const PaperView& view);    // "teetally/statements"

}  // namespace teetally
