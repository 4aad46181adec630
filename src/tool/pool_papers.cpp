// Papers of a pooled order in the form asked for.
#include "teetally/render/pool_papers.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "teetally/render/pool_pages.h"
#include "teetally/render/workbooks.h"
#include "tool/commands.h"
#include "tool/new_folder.h"
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

// Pages of so many sheets that a browser opens them at once, where one page of all would be too large to print.
constexpr std::size_t kSheetsInFile = 100;

std::string in_folder(Session& session, PaperView view, std::size_t sheets,
                      const std::function<std::string(const PaperView&)>& page) {
  const std::string& folder = *session.request.folder;
  std::string out = "Made " + printable(folder) + " with\n";
  for (view.from = 0; view.from < sheets; view.from = view.to) {
    view.to = std::min(view.from + kSheetsInFile, sheets);
    const std::string name = fmt::format("{}-{:05}.html", session.request.paper, view.from + 1);
    write_into(folder, name, page(view));
    out += fmt::format("  {}: {} {} to {}\n", name, session.request.paper, view.from + 1, view.to);
  }
  return out;
}

std::string statements(Session& session, const PoolResult& result, const Page& page, const OwnTemplates& own) {
  const HandOut nothing;
  const PaperView view{result, nothing, session.request.plot};
  const auto page_of = [&](const PaperView& some) { return statements_page(some, own, session.diagnostics); };
  if (session.request.folder) return in_folder(session, view, statements_in(view), page_of);
  return in_form(
      session, [&] { return statements_text(view, page); }, [&] { return statements_document(view); },
      [&] { return statements_csv(view); }, [&] { return page_of(view); });
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
  if (session.request.folder) {
    return in_folder(session, view, out.sequence.size(),
                     [&](const PaperView& some) { return picks_page(some, page.units, own, session.diagnostics); });
  }
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
