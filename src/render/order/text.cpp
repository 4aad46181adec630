#include <algorithm>

#include "render/order/words.h"
#include "render/order_parts.h"
#include "render/phrases.h"
#include "render/shares.h"
#include "render/walk.h"

namespace teetally {
namespace {

constexpr auto kRight = Column::Side::right;

std::string supplier_name(const Catalog& catalog) { return printable(supplier_words(catalog)); }

void add_costs(TextTable& table, const OrderCost& cost, const Catalog& catalog) {
  const auto row = [&](const std::string& what, Money amount) {
    table.rows.push_back({"", what, "", "", to_text(amount, catalog.currency)});
  };
  for (const CostStep& step : cost_steps(cost, catalog)) row(step.what, step.amount);
  row("total " + catalog.currency.code, cost.total);
}

std::string supplier_text(const OrderView& view, const SupplierOrder& order, const Page& page) {
  const Catalog& catalog = catalog_at(view.book, order.catalog);
  TextTable table{
      {{"Sku"}, {"What", Column::Side::left, true}, {"Packs", kRight}, {"Price", kRight}, {"Total", kRight}}, {}};
  for (const OrderLine& line : order.lines) {
    const LineParts parts = parts_of(catalog, line, page.units);
    table.rows.push_back({printable(parts.sku), printable(parts.what), std::to_string(line.count),
                          price_words(catalog, line, parts), to_text(line.goods, catalog.currency)});
    for (const std::string& change : parts.changes) table.rows.push_back({"", "  " + printable(change)});
  }
  if (catalog.id != kOnHandId) add_costs(table, order.cost, catalog);
  const bool owned = catalog.id == kOnHandId;
  return heading(owned ? "Used from what you have" : "Order from " + supplier_name(catalog)) +
         laid_out(table, page.width, 2);
}

std::string needs_table(const OrderView& view, const Page& page) {
  TextTable table{
      {{"Need"}, {"Part", Column::Side::left, true}, {"Needed", kRight}, {"Bought", kRight}, {"Spare", kRight}}, {}};
  for (const NeedShare& share : shares_of(view)) {
    const Need& need = view.book.takeoff.needs[static_cast<std::size_t>(share.need)];
    const std::int64_t needed = needed_with_joins(view.book, view.purchase, share.need);
    if (needed == 0) continue;
    const std::int64_t spare = share.bought - needed;
    table.rows.push_back({need.id, part_phrase(need.part, page.units), amount_text(need, needed, page.units),
                          amount_text(need, share.bought, page.units),
                          spare == 0 ? "-" : amount_text(need, spare, page.units)});
  }
  return heading("What each need gets") + laid_out(table, page.width, 2);
}

// What joining adds to the needs above.
std::string joins_text(const OrderView& view, const Page& page) {
  std::string out;
  for (const JoinReason& join : view.purchase.joins) {
    out +=
        wrapped(need_of_join(view, join).id + "  " + printable(join_words(view, join, page.units)), page.width, 2, 7);
  }
  return out.empty() ? out : heading("Couplings needed for joins, counted above") + out;
}

std::string families_text(const OrderView& view, const Page& page) {
  std::string out;
  for (const std::string& family : family_words(view, page.units)) out += wrapped(printable(family), page.width, 2, 4);
  return out.empty() ? out : heading("Tubing chosen (its fittings fit these diameters only)") + out;
}

std::string leftovers_text(const OrderView& view, const Page& page) {
  TextTable table{{{"", kRight}, {"", Column::Side::left, true}}, {}};
  for (const LeftoverLine& left : leftovers_of(view)) {
    table.rows.push_back({amount_phrase(left.by_length, left.amount, page.units),
                          printable(left.item->name) + " (" + printable(left.item->sku) + ")"});
  }
  return table.rows.empty() ? std::string() : heading("Left over") + laid_out(table, page.width, 2);
}

std::string proof_text(const OrderView& view, const Page& page) {
  return "\n" + wrapped(printable(proof_words(view)), page.width);
}

std::string notices_text(const OrderView& view, const Page& page) {
  std::string out;
  for (const SupplierOrder& order : view.purchase.orders) {
    const Catalog& catalog = catalog_at(view.book, order.catalog);
    if (catalog.notice.empty()) continue;
    out += wrapped("Note: " + supplier_name(catalog) + ": " + printable(catalog.notice) + ".", page.width, 0, 2);
  }
  return out;
}

// When nothing can be bought, only what stands in the way matters.
bool is_wanted(const OrderView& view, int need) {
  if (view.purchase.outcome != Outcome::infeasible) return true;
  return std::any_of(view.purchase.shortfalls.begin(), view.purchase.shortfalls.end(), [need](const Shortfall& s) {
    return std::find(s.needs.begin(), s.needs.end(), need) != s.needs.end();
  });
}

std::string near_misses_text(const OrderView& view, const Page& page) {
  std::string out;
  int shown = -1;
  for (const NearMiss& miss : view.book.near_misses) {
    if (!is_wanted(view, miss.need)) continue;
    const Need& need = view.book.takeoff.needs[static_cast<std::size_t>(miss.need)];
    if (miss.need != shown) out += wrapped(need.id + " " + part_phrase(need.part, page.units), page.width, 2, 6);
    shown = miss.need;
    const MissedItem missed = missed_item(view.book, miss);
    out += wrapped("- " + printable(missed.item->sku) + " " + printable(missed.item->name) + " (" +
                       supplier_name(*missed.catalog) + "): " + printable(miss.why),
                   page.width, 6, 8);
  }
  return out.empty() ? out : heading("Nearly, but not") + out;
}

std::string shortfall_text(const OrderView& view, const Shortfall& shortfall, const Page& page) {
  std::string out;
  for (const int n : shortfall.needs) {
    const Need& need = view.book.takeoff.needs[static_cast<std::size_t>(n)];
    out += wrapped(need.id + "  " + amount_text(need, need.amount, page.units) + (need.by_length ? " of " : " x ") +
                       part_phrase(need.part, page.units),
                   page.width, 2, 6);
  }
  return out + wrapped(printable(shortfall.why), page.width, 6, 6);
}

std::string infeasible_text(const OrderView& view, const Page& page) {
  std::string out = "\n" + wrapped(kNothingFeasible, page.width);
  out += heading("What cannot be had");
  for (const Shortfall& shortfall : view.purchase.shortfalls) out += shortfall_text(view, shortfall, page);
  return out + near_misses_text(view, page);
}

std::string out_of_time_text(const Page& page) { return "\n" + wrapped(kOutOfTime, page.width); }

}  // namespace

std::string order_text(const OrderView& view, const Page& page) {
  std::string out = title_line(view.book.takeoff.name, "Parts");
  if (view.sized != nullptr) out += wrapped(verdict_sentence(*view.sized), page.width);
  if (view.purchase.outcome == Outcome::infeasible) return out + infeasible_text(view, page);
  if (view.purchase.outcome == Outcome::out_of_time) return out + out_of_time_text(page);
  out += wrapped(total_words(view), page.width);
  for (const SupplierOrder& order : view.purchase.orders) out += supplier_text(view, order, page);
  out += needs_table(view, page) + joins_text(view, page) + leftovers_text(view, page) + families_text(view, page);
  out += near_misses_text(view, page) + proof_text(view, page) + notices_text(view, page);
  return out + cautions_text(view.book.takeoff.cautions, page);
}

}  // namespace teetally
