// Every result as comma-separated rows. Amounts come twice: as whole numbers to calculate on (pieces, or tenths
// of a millimetre) and in words.
#include "teetally/base/csv.h"

#include "render/order_parts.h"
#include "render/phrases.h"

namespace teetally {
namespace {

std::string unit_word(bool by_length) { return by_length ? "0.1 mm" : "piece"; }

std::string place_text(const Place& place) { return to_string(place); }

}  // namespace

std::string check_csv(const SizedGarden& sized, UnitSystem units) {
  std::string out = csv_row({"run", "role", "size", "size by rule", "size by computation", "flow", "why", "place"});
  for (const RunHydraulics& run : sized.runs) {
    const Run& laid = sized.garden.runs[static_cast<std::size_t>(run.run)];
    out += csv_row({laid.name, to_text(laid.role), run.size, run.size_by_rule, run.size_by_computation,
                    flow_phrase(run.flow_m3_per_s, units), run.why, place_text(laid.place)});
  }
  return out;
}

std::string takeoff_csv(const Takeoff& takeoff, UnitSystem units) {
  std::string out =
      csv_row({"need", "kind", "part", "amount", "unit", "amount in words", "design", "waste", "spare", "on site"});
  for (const Need& need : takeoff.needs) {
    std::vector<std::string> cells = {need.id,
                                      need.part.kind,
                                      to_text(need.part, units),
                                      std::to_string(need.amount),
                                      unit_word(need.by_length),
                                      amount_text(need, need.amount, units)};
    for (const ReasonClass c : {ReasonClass::design, ReasonClass::waste, ReasonClass::spare, ReasonClass::on_site}) {
      cells.push_back(std::to_string(sum_of(need, c)));
    }
    out += csv_row(cells);
  }
  return out;
}

std::string order_csv(const OrderView& view, UnitSystem units) {
  std::string out = csv_row({"supplier", "sku", "what", "count", "price", "goods", "currency", "changes"});
  for (const SupplierOrder& order : view.purchase.orders) {
    const Catalog& catalog = *view.book.catalogs[static_cast<std::size_t>(order.catalog)];
    for (const OrderLine& line : order.lines) {
      const LineParts parts = parts_of(catalog, line, units);
      out += csv_row({catalog.id, parts.sku, parts.what, std::to_string(line.count),
                      parts.price ? to_string(*parts.price, catalog.currency) : "",
                      to_string(line.goods, catalog.currency), catalog.currency.code, listed(parts.changes)});
    }
  }
  return out;
}

std::string walk_csv(const WalkView& view, UnitSystem units) {
  std::string out =
      csv_row({"need", "part", "class", "element", "rule", "where", "amount", "unit", "amount in words", "place"});
  for (const int n : view.needs) {
    const Need& need = view.takeoff.needs[static_cast<std::size_t>(n)];
    for (const Reason& reason : need.reasons) {
      out += csv_row({need.id, to_text(need.part, units), to_text(reason.reason_class), reason.element, reason.rule,
                      reason.where, std::to_string(reason.amount), unit_word(need.by_length),
                      amount_text(need, reason.amount, units), place_text(reason.place)});
    }
  }
  return out;
}

std::string catalogs_csv(const std::vector<Catalog>& catalogs, UnitSystem units) {
  std::string out = csv_row({"supplier", "sku", "name", "kind", "part", "holds", "from", "price", "currency"});
  for (const Catalog& catalog : catalogs) {
    for (const Item& item : catalog.items) {
      for (const Pack& pack : item.packs) {
        const std::string holds = pack.length.tenths_mm > 0 ? to_text(pack.length, units) : std::to_string(pack.count);
        for (const PriceBreak& step : pack.prices) {
          out += csv_row({catalog.id, pack.sku.empty() ? item.sku : pack.sku, item.name, item.part.kind,
                          to_text(item.part, units), holds, std::to_string(step.from),
                          to_string(step.price, catalog.currency), catalog.currency.code});
        }
      }
    }
  }
  return out;
}

}  // namespace teetally
