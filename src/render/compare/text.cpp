#include <algorithm>

#include "render/compare/rows.h"
#include "render/compare/ways.h"
#include "render/phrases.h"

namespace teetally {
namespace {

constexpr auto kRight = Column::Side::right;

std::string ways_text(const CompareView& view, const std::vector<Way>& ways, const Page& page) {
  TextTable table{{{"Way", Column::Side::left, true}, {"From"}, {"Total", kRight}, {"Dearer by", kRight}}, {}};
  for (const Way& way : ways) {
    const std::string remark = way_remark(view, way);
    if (way.purchase->outcome != Outcome::bought) {
      table.rows.push_back({way.what + ": " + remark, "", "-", ""});
      continue;
    }
    const Money total = way.purchase->total;
    table.rows.push_back(
        {way.what + (remark.empty() ? "" : " (" + remark + ")"), suppliers_phrase(view.book, *way.purchase),
         to_text(total, currency_of(view.book)),
         &way == ways.data() ? "-" : to_text(total - view.comparison.best.total, currency_of(view.book))});
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
  const std::string price =
      to_text(catalog_at(view.book, way.catalog).bundles[static_cast<std::size_t>(way.verdict->bundle)].price,
              currency_of(view.book));
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
  const std::string idle = idle_bundles(view);
  if (!idle.empty()) out += wrapped("Nothing that is needed: " + idle, page.width, 2, 4);
  return out.empty() ? out : heading("Each bundle, taken at least once") + out;
}

std::string suppliers_text(const CompareView& view, const Page& page) {
  const TextTable table{{{"", Column::Side::left, true}, {"", kRight}}, fewer_rows(view)};
  return table.rows.empty() ? std::string() : heading("Fewer or other suppliers") + laid_out(table, page.width, 2);
}

std::string plans_text(const CompareView& view, const Page& page) {
  TextTable table{{{"", kRight}, {"", Column::Side::left, true}, {"", kRight}}, {}};
  for (const Row& plan : plan_rows(view)) {
    table.rows.push_back({std::to_string(table.rows.size() + 1), plan[0], plan[1]});
  }
  const std::string end = plans_end_words(view);
  if (table.rows.empty() && end.empty()) return {};
  return heading("Really different orders (each does without something the others use)") +
         laid_out(table, page.width, 2) + wrapped(end, page.width, 2, 2);
}

std::string lines_text(const CompareView& view, const Page& page) {
  const TextTable table{{{"Sku"}, {"What", Column::Side::left, true}, {"Its price may rise", kRight}},
                        pack_rows(view, page.units)};
  return table.rows.empty()
             ? std::string()
             : heading("How long each pack stays in the cheapest order") + laid_out(table, page.width, 2);
}

std::string needs_text(const CompareView& view, const Page& page) {
  const TextTable table{{{"Need"},
                         {"Part", Column::Side::left, true},
                         {"One", kRight},
                         {"More costs", kRight},
                         {"Fewer saves", kRight},
                         {"Its spares cost", kRight}},
                        need_rows(view, page.units)};
  if (table.rows.empty()) return {};
  const std::string all = all_spares_words(view);
  return heading("One more or one fewer of each need") + laid_out(table, page.width, 2) +
         (all.empty() ? all : wrapped(all, page.width, 2, 2));
}

std::string proof_text(const CompareView& view, const Page& page) {
  std::string grounds;
  for (const std::string& ground : view.comparison.rests_on)
    grounds += wrapped("- " + printable(ground), page.width, 2, 4);
  return "\n" + wrapped(kHowCompared, page.width) + grounds;
}

}  // namespace

std::string compare_text(const CompareView& view, const Page& page) {
  std::string out = title_line(view.book.takeoff.name, "Parts");
  const std::string nothing = no_comparison_words(view);
  if (!nothing.empty()) return out + wrapped(nothing, page.width);
  const std::vector<Way> ways = ways_of(view);
  out += wrapped(advice_sentence(view), page.width) + ways_text(view, ways, page) + bundles_text(view, ways, page);
  out += suppliers_text(view, page) + plans_text(view, page) + lines_text(view, page) + needs_text(view, page);
  return out + proof_text(view, page) + cautions_text(view.book.takeoff.cautions, page);
}

std::string why_text(const CompareView& view, const Page& page) {
  if (view.comparison.best.outcome != Outcome::bought) return {};
  std::string out = heading("Why this order") + wrapped(advice_sentence(view), page.width, 2, 2);
  for (const SupplierAnswer& alone : view.comparison.alone) {
    const std::string missing = missing_briefly(view.book, alone.purchase);
    out += wrapped("All from " + catalog_name(catalog_at(view.book, alone.catalog)) + ": " +
                       costs_phrase(view, alone.purchase) + (missing.empty() ? "" : " (nothing for " + missing + ")") +
                       ".",
                   page.width, 2, 4);
  }
  for (const BundleVerdict& verdict : view.comparison.bundles) {
    if (!verdict.useful) continue;
    const Bundle& bundle = catalog_at(view.book, verdict.catalog).bundles[static_cast<std::size_t>(verdict.bundle)];
    out += wrapped("Bundle " + printable(bundle.sku) + ": " + verdict_phrase(view, verdict) + ".", page.width, 2, 4);
  }
  return out + suppliers_text(view, page);
}

}  // namespace teetally
