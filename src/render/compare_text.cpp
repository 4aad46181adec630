#include <algorithm>

#include "render/phrases.h"
#include "render/ways.h"

namespace teetally {
namespace {

constexpr auto kRight = Column::Side::right;

const Currency& currency_of(const CompareView& view) { return view.book.catalogs.front()->currency; }

const Catalog& catalog_at(const CompareView& view, int catalog) {
  return *view.book.catalogs[static_cast<std::size_t>(catalog)];
}

std::string costs_phrase(const CompareView& view, const Purchase& purchase) {
  if (purchase.outcome == Outcome::infeasible) return "cannot be had";
  if (purchase.outcome == Outcome::out_of_time) return "not settled";
  return more_phrase(difference(purchase, view.comparison.best), currency_of(view));
}

std::string ways_text(const CompareView& view, const std::vector<Way>& ways, const Page& page) {
  TextTable table{{{"Way", Column::Side::left, true}, {"From"}, {"Total", kRight}, {"Dearer by", kRight}}, {}};
  for (const Way& way : ways) {
    const Purchase& purchase = *way.purchase;
    if (purchase.outcome == Outcome::infeasible) {
      const std::string missing = missing_phrase(view.book, purchase);
      table.rows.push_back({way.what + (missing.empty() ? "" : ": nothing for " + missing), "", "-", ""});
      continue;
    }
    if (purchase.outcome == Outcome::out_of_time) {
      table.rows.push_back({way.what + ": not settled in the time given", "", "-", ""});
      continue;
    }
    const Difference more = difference(purchase, view.comparison.best);
    const bool proven = more.most && more.least == *more.most;
    table.rows.push_back(
        {way.what + (proven || &way == ways.data() ? "" : " (best found, not proven)"),
         suppliers_phrase(view.book, purchase), to_text(purchase.total, currency_of(view)),
         &way == ways.data() ? "-" : to_text(purchase.total - view.comparison.best.total, currency_of(view))});
  }
  return heading("Side by side, cheapest first") + laid_out(table, page.width, 2);
}

std::string list_text(const std::string& start, const std::vector<std::string>& words, const Page& page) {
  if (words.empty()) return {};
  std::string text = start;
  for (const std::string& word : words) text += (&word == &words.front() ? "" : "; ") + printable(word);
  return wrapped(text, page.width, 4, 6);
}

std::string bundle_text(const CompareView& view, const Way& way, const Page& page) {
  const std::string price = to_text(
      catalog_at(view, way.catalog).bundles[static_cast<std::size_t>(way.verdict->bundle)].price, currency_of(view));
  std::string out = wrapped(way.what + ", " + price + ": " + verdict_phrase(view, *way.verdict), page.width, 2, 4);
  if (way.purchase->outcome != Outcome::bought) return out;
  out += list_text("changes: ", change_words(view, way, page.units), page);
  out += list_text("to add: ", added_words(view, way, page.units), page);
  return out + list_text("left over: ", left_words(view, way, page.units), page);
}

std::string bundles_text(const CompareView& view, const std::vector<Way>& ways, const Page& page) {
  std::string out;
  for (const Way& way : ways) {
    if (way.verdict != nullptr) out += bundle_text(view, way, page);
  }
  std::vector<std::string> idle;
  for (const BundleVerdict& verdict : view.comparison.bundles) {
    if (verdict.useful) continue;
    idle.push_back(catalog_at(view, verdict.catalog).bundles[static_cast<std::size_t>(verdict.bundle)].sku);
  }
  if (!idle.empty()) out += wrapped("Nothing that is needed: " + printable(listed(idle)), page.width, 2, 4);
  return out.empty() ? out : heading("Each bundle, taken at least once") + out;
}

std::string suppliers_text(const CompareView& view, const Page& page) {
  TextTable table{{{"", Column::Side::left, true}, {"", kRight}}, {}};
  const std::vector<Purchase>& front = view.comparison.front;
  for (std::size_t k = 0; k < front.size(); ++k) {
    table.rows.push_back(
        {"at most " + counted(static_cast<std::int64_t>(k) + 1, "supplier"), costs_phrase(view, front[k])});
  }
  for (const SupplierAnswer& without : view.comparison.without) {
    table.rows.push_back(
        {"without " + catalog_name(catalog_at(view, without.catalog)), costs_phrase(view, without.purchase)});
  }
  return table.rows.empty() ? std::string() : heading("Fewer or other suppliers") + laid_out(table, page.width, 2);
}

std::string plans_text(const CompareView& view, const Page& page) {
  if (view.comparison.plans.size() < 2) return {};
  TextTable table{{{"", kRight}, {"", Column::Side::left, true}, {"", kRight}}, {}};
  for (const Purchase& plan : view.comparison.plans) {
    std::vector<std::string> bundles;
    for (const SupplierOrder& order : plan.orders) {
      for (const OrderLine& line : order.lines) {
        if (line.bundle < 0) continue;
        bundles.push_back(catalog_at(view, line.catalog).bundles[static_cast<std::size_t>(line.bundle)].sku);
      }
    }
    table.rows.push_back({std::to_string(table.rows.size() + 1),
                          suppliers_phrase(view.book, plan) +
                              (bundles.empty() ? ", loose parts" : ", with " + printable(listed(bundles))),
                          to_text(plan.total, currency_of(view))});
  }
  return heading("Really different orders (each does without something the others use)") +
         laid_out(table, page.width, 2);
}

std::string rise_phrase(const CompareView& view, const LineVerdict& line) {
  if (!line.turn) return "not settled";
  if (line.turn->exact && !line.turn->by) return "nothing can replace it";
  const Turn& turn = *line.turn;
  if (!turn.exact) return "by " + to_text(turn.sure, currency_of(view)) + " at least";
  return turn.by->minor == 0 ? "not at all" : "by less than " + to_text(*turn.by, currency_of(view));
}

std::string lines_text(const CompareView& view, const Page& page) {
  TextTable table{{{"Sku"}, {"What", Column::Side::left, true}, {"Its price may rise", kRight}}, {}};
  for (const LineVerdict& line : view.comparison.lines) {
    const Item& item = catalog_at(view, line.catalog).items[static_cast<std::size_t>(line.item)];
    const Pack& pack = item.packs[static_cast<std::size_t>(line.pack)];
    const std::string words = pack_words(pack, page.units);
    table.rows.push_back({printable(pack.sku.empty() ? item.sku : pack.sku),
                          printable(item.name) + (words.empty() ? "" : ", " + words), rise_phrase(view, line)});
  }
  return table.rows.empty()
             ? std::string()
             : heading("How long each pack stays in the cheapest order") + laid_out(table, page.width, 2);
}

std::string needs_text(const CompareView& view, const Page& page) {
  const Currency& currency = currency_of(view);
  const auto cell = [&](const std::optional<Difference>& d, const char* none) {
    if (!d || !d->most) return std::string(none);
    return d->least == *d->most ? to_text(d->least, currency) : "at most " + to_text(*d->most, currency);
  };
  TextTable table{{{"Need"},
                   {"Part", Column::Side::left, true},
                   {"One", kRight},
                   {"More costs", kRight},
                   {"Fewer saves", kRight},
                   {"Its spares cost", kRight}},
                  {}};
  for (const NeedVerdict& verdict : view.comparison.needs) {
    const Need& need = view.book.takeoff.needs[static_cast<std::size_t>(verdict.need)];
    table.rows.push_back({need.id, part_phrase(need.part, page.units), amount_text(need, verdict.step, page.units),
                          cell(verdict.one_more, "none left"), cell(verdict.one_fewer, "-"),
                          cell(verdict.spares_cost, "-")});
  }
  if (table.rows.empty()) return {};
  std::string out = heading("One more or one fewer of each need") + laid_out(table, page.width, 2);
  if (view.comparison.all_spares) {
    out += wrapped("All spares together cost " + cell(view.comparison.all_spares, "-") + ".", page.width, 2, 2);
  }
  return out;
}

std::string proof_text(const CompareView& view, const Page& page) {
  std::string text =
      "Each way is the cheapest order of its kind, bought anew and checked from the catalogs; where one is not proven, "
      "it says so. The proofs rest on:";
  std::string grounds;
  for (const std::string& ground : view.comparison.rests_on)
    grounds += wrapped("- " + printable(ground), page.width, 2, 4);
  return "\n" + wrapped(text, page.width) + grounds;
}

}  // namespace

std::string compare_text(const CompareView& view, const Page& page) {
  std::string out = title_line(view.book.takeoff.name, "Parts");
  if (view.comparison.best.outcome == Outcome::infeasible) {
    const std::string missing = missing_phrase(view.book, view.comparison.best);
    return out + wrapped("No order from these catalogs brings everything" +
                             (missing.empty() ? "" : ": nothing serves " + missing) + ".",
                         page.width);
  }
  if (view.comparison.best.outcome == Outcome::out_of_time) {
    return out + wrapped("No order was found in the time given. Give more --seconds.", page.width);
  }
  const std::vector<Way> ways = ways_of(view);
  out += wrapped(advice_sentence(view), page.width) + ways_text(view, ways, page) + bundles_text(view, ways, page);
  out += suppliers_text(view, page) + plans_text(view, page) + lines_text(view, page) + needs_text(view, page);
  return out + proof_text(view, page) + cautions_text(view.book.takeoff.cautions, page);
}

std::string why_text(const CompareView& view, const Page& page) {
  if (view.comparison.best.outcome != Outcome::bought) return {};
  std::string out = heading("Why this order") + wrapped(advice_sentence(view), page.width, 2, 2);
  for (const SupplierAnswer& alone : view.comparison.alone) {
    const std::string missing = missing_phrase(view.book, alone.purchase);
    out += wrapped("All from " + catalog_name(catalog_at(view, alone.catalog)) + ": " +
                       costs_phrase(view, alone.purchase) + (missing.empty() ? "" : " (nothing for " + missing + ")") +
                       ".",
                   page.width, 2, 4);
  }
  for (const BundleVerdict& verdict : view.comparison.bundles) {
    if (!verdict.useful) continue;
    const Bundle& bundle = catalog_at(view, verdict.catalog).bundles[static_cast<std::size_t>(verdict.bundle)];
    out += wrapped("Bundle " + printable(bundle.sku) + ": " + verdict_phrase(view, verdict) + ".", page.width, 2, 4);
  }
  return out + suppliers_text(view, page);
}

}  // namespace teetally
