#include "render/compare/rows.h"

#include "render/compare/ways.h"
#include "render/phrases.h"

namespace teetally {
namespace {

std::string rise_phrase(const CompareView& view, const LineVerdict& line) {
  if (!line.turn) return "not settled";
  if (line.turn->exact && !line.turn->by) return "nothing can replace it";
  const Turn& turn = *line.turn;
  if (!turn.exact) return "by " + to_text(turn.sure, currency_of(view.book)) + " at least";
  return turn.by->minor == 0 ? "not at all" : "by less than " + to_text(*turn.by, currency_of(view.book));
}

std::string about(const CompareView& view, const std::optional<Difference>& difference, const char* none) {
  if (!difference || !difference->most) return none;
  const Currency& currency = currency_of(view.book);
  return difference->least == *difference->most ? to_text(difference->least, currency)
                                                : "at most " + to_text(*difference->most, currency);
}

}  // namespace

std::string costs_phrase(const CompareView& view, const Purchase& purchase) {
  if (purchase.outcome == Outcome::infeasible) return "cannot be had";
  if (purchase.outcome == Outcome::out_of_time) return "not settled";
  return more_phrase(difference(purchase, view.comparison.best), currency_of(view.book));
}

std::string no_comparison_words(const CompareView& view) {
  if (view.comparison.best.outcome == Outcome::out_of_time) {
    return "No order was found in the time given. Give more --seconds.";
  }
  if (view.comparison.best.outcome == Outcome::bought) return {};
  const std::string missing = missing_phrase(view.book, view.comparison.best);
  return "No order from these catalogs brings everything" +
         (missing.empty() ? std::string() : ": nothing serves " + missing) + ".";
}

std::string idle_bundles(const CompareView& view) {
  std::vector<std::string> idle;
  for (const BundleVerdict& verdict : view.comparison.bundles) {
    if (verdict.useful) continue;
    idle.push_back(catalog_at(view.book, verdict.catalog).bundles[static_cast<std::size_t>(verdict.bundle)].sku);
  }
  return printable(listed(idle));
}

std::vector<Row> fewer_rows(const CompareView& view) {
  std::vector<Row> rows;
  for (const Purchase& purchase : view.comparison.front) {
    rows.push_back(
        {"at most " + counted(static_cast<std::int64_t>(rows.size()) + 1, "supplier"), costs_phrase(view, purchase)});
  }
  for (const SupplierAnswer& without : view.comparison.without) {
    rows.push_back(
        {"without " + catalog_name(catalog_at(view.book, without.catalog)), costs_phrase(view, without.purchase)});
  }
  return rows;
}

std::vector<Row> plan_rows(const CompareView& view) {
  std::vector<Row> rows;
  if (view.comparison.plans.size() < 2) return rows;
  for (const Purchase& plan : view.comparison.plans) {
    std::vector<std::string> bundles;
    for (const SupplierOrder& order : plan.orders) {
      for (const OrderLine& line : order.lines) {
        if (line.bundle < 0) continue;
        bundles.push_back(catalog_at(view.book, line.catalog).bundles[static_cast<std::size_t>(line.bundle)].sku);
      }
    }
    rows.push_back({suppliers_phrase(view.book, plan) +
                        (bundles.empty() ? ", loose parts" : ", with " + printable(listed(bundles))),
                    to_text(plan.total, currency_of(view.book))});
  }
  return rows;
}

std::string plans_end_words(const CompareView& view) {
  switch (view.comparison.plans_end) {
    case PlansEnd::not_asked:
      return {};
    case PlansEnd::enough:
      return "More were not asked for.";
    case PlansEnd::no_other:
      return view.comparison.plans.size() == 1
                 ? "There is no other: every order uses all suppliers and bundles of the cheapest."
                 : "There is no other: every further order uses all suppliers and bundles of one of these.";
    case PlansEnd::out_of_time:
      return "There may be others: the time ran out. Give more --seconds.";
    case PlansEnd::many_alike:
      return "There may be others: many more orders were looked at, and none was really different.";
  }
  return {};
}

std::vector<Row> pack_rows(const CompareView& view, UnitSystem units) {
  std::vector<Row> rows;
  for (const LineVerdict& line : view.comparison.lines) {
    const Item& item = catalog_at(view.book, line.catalog).items[static_cast<std::size_t>(line.item)];
    const Pack& pack = item.packs[static_cast<std::size_t>(line.pack)];
    const std::string words = pack_words(pack, units);
    rows.push_back({printable(pack.sku.empty() ? item.sku : pack.sku),
                    printable(item.name) + (words.empty() ? "" : ", " + words), rise_phrase(view, line)});
  }
  return rows;
}

std::vector<Row> need_rows(const CompareView& view, UnitSystem units) {
  std::vector<Row> rows;
  for (const NeedVerdict& verdict : view.comparison.needs) {
    const Need& need = view.book.takeoff.needs[static_cast<std::size_t>(verdict.need)];
    rows.push_back({need.id, part_phrase(need.part, units), amount_text(need, verdict.step, units),
                    about(view, verdict.one_more, "none left"), about(view, verdict.one_fewer, "-"),
                    about(view, verdict.spares_cost, "-")});
  }
  return rows;
}

std::string all_spares_words(const CompareView& view) {
  if (!view.comparison.all_spares) return {};
  return "All spares together cost " + about(view, view.comparison.all_spares, "-") + ".";
}

}  // namespace teetally
