// Papers of a pooled order in the form asked for.
#include "teetally/render/pool_papers.h"

#include "teetally/render/pool_pages.h"
#include "teetally/render/workbooks.h"
#include "tool/commands.h"
#include "tool/pool_steps.h"

namespace teetally {
namespace {

std::string cuts(Session& session, PoolResult& result, const Page& page, const OwnTemplates& own) {
  name_pieces(result);
  const OrderView order{result.book, result.purchase, nullptr};
  if (session.request.format == Format::xlsx) return cut_list_workbook(order, page.units, session.request.today);
  return in_form(
      session, [&] { return cut_list_text(order, page); }, [&] { return cut_list_document(order, page.units); },
      [&] { return cut_list_csv(order, page.units); },
      [&] { return cut_list_page(order, page.units, own, session.diagnostics); });
}

std::string orders(Session& session, const PoolResult& result, const Page& page, const OwnTemplates& own) {
  const OrderView order{result.book, result.purchase, nullptr};
  if (session.request.format == Format::xlsx) return order_workbook(order, page.units, session.request.today);
  return in_form(
      session, [&] { return pool_orders_text(result, page); }, [&] { return order_document(order, page.units); },
      [&] { return order_csv(order, page.units); },
      [&] { return order_page(order, page.units, own, session.diagnostics); });
}

std::string statements(Session& session, const PoolResult& result, const Page& page, const OwnTemplates& own) {
  const HandOut nothing;
  const PaperView view{result, nothing, session.request.plot};
  return in_form(
      session, [&] { return statements_text(view, page); }, [&] { return statements_document(view); },
      [&] { return statements_csv(view); }, [&] { return statements_page(view, own, session.diagnostics); });
}

}  // namespace

std::string pool_paper(Session& session, PoolResult& result, const Page& page, const OwnTemplates& own) {
  const std::string& paper = session.request.paper;
  if (paper == "cuts") return cuts(session, result, page, own);
  if (paper == "orders") return orders(session, result, page, own);
  if (paper == "statements") return statements(session, result, page, own);
  const HandOut out = hand_out(result);
  const PaperView view{result, out, session.request.plot};
  const bool picks = paper == "picks";
  return in_form(
      session, [&] { return picks ? picks_text(view, page) : packing_text(view, page); },
      [&] { return hand_out_document(view, page.units); },
      [&] { return picks ? picks_csv(view, page.units) : packing_csv(view); },
      [&] {
        return picks ? picks_page(view, page.units, own, session.diagnostics)
                     : packing_page(view, page.units, own, session.diagnostics);
      });
}

}  // namespace teetally
