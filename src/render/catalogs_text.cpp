#include <algorithm>
#include <set>

#include "render/order_parts.h"
#include "render/phrases.h"

namespace teetally {
namespace {

std::string validity(const Catalog& catalog) {
  if (catalog.valid_from && catalog.valid_until) return *catalog.valid_from + " to " + *catalog.valid_until;
  if (catalog.valid_from) return "from " + *catalog.valid_from;
  if (catalog.valid_until) return "until " + *catalog.valid_until;
  return "not stated";
}

std::string shipping_words(const Catalog& catalog) {
  if (catalog.terms.shipping.empty()) return "no charge";
  std::vector<std::string> steps;
  for (const ShippingStep& step : catalog.terms.shipping) {
    steps.push_back((step.fee.minor == 0 ? "free" : to_text(step.fee, catalog.currency)) + " from " +
                    to_text(step.from, catalog.currency));
  }
  return listed(steps);
}

std::string ordering_words(const Catalog& catalog) {
  const OrderingTerms& terms = catalog.terms;
  const auto money = [&](Money amount) { return to_text(amount, catalog.currency); };
  std::vector<std::string> words;
  if (terms.minimum_order) words.push_back("at least " + money(*terms.minimum_order));
  if (terms.small_order_below) {
    words.push_back(money(terms.small_order_fee) + " fee below " + money(*terms.small_order_below));
  }
  for (const DiscountStep& step : terms.discounts) {
    words.push_back(to_string(step.percent) + " off from " + money(step.from));
  }
  if (terms.tax.ppm != 0) {
    words.push_back("tax " + to_string(terms.tax) +
                    (terms.tax_on_shipping ? ", on shipping too" : ", not on shipping"));
  }
  return words.empty() ? "no conditions" : listed(words);
}

// The diameters of its tubing, inside and outside, each pair once, in order of size.
std::set<std::pair<std::int64_t, std::int64_t>> families_of(const Catalog& catalog) {
  std::set<std::pair<std::int64_t, std::int64_t>> families;
  for (const Item& item : catalog.items) {
    if (item.inside && item.outside) families.emplace(item.inside->tenths_um, item.outside->tenths_um);
  }
  return families;
}

std::string families_words(const Catalog& catalog, UnitSystem units) {
  std::string words;
  for (const auto& [inside, outside] : families_of(catalog)) {
    words += (words.empty() ? "" : "; ") + to_text(Diameter{inside}, units) + " inside, " +
             to_text(Diameter{outside}, units) + " outside";
  }
  return words.empty() ? "none" : words;
}

std::size_t kinds_in(const Catalog& catalog) {
  std::set<std::string> kinds;
  for (const Item& item : catalog.items) kinds.insert(item.part.kind);
  return kinds.size();
}

std::string catalog_text(const Catalog& catalog, const Page& page) {
  const auto n = [](std::size_t size) { return static_cast<std::int64_t>(size); };
  std::size_t packs = 0;
  for (const Item& item : catalog.items) packs += item.packs.size();
  TextTable table{{{""}, {"", Column::Side::left, true}}, {}};
  table.rows = {
      {"file", printable(catalog.source ? catalog.source->name : "")},
      {"holds", counted(n(catalog.items.size()), "item") + " of " + counted(n(kinds_in(catalog)), "kind") + ", " +
                    counted(n(packs), "pack") + ", " + counted(n(catalog.bundles.size()), "bundle")},
      {"valid", validity(catalog)},
      {"shipping", shipping_words(catalog)},
      {"ordering", ordering_words(catalog)},
      {"tubing", families_words(catalog, page.units)},
      {"notice", printable(catalog.notice)},
  };
  return printable(catalog.name) + " (" + printable(catalog.id) + "), " + catalog.currency.code + ": sound\n" +
         laid_out(table, page.width, 2);
}

}  // namespace

std::string catalogs_text(const std::vector<Catalog>& catalogs, const Page& page) {
  std::string out;
  for (const Catalog& catalog : catalogs) out += (out.empty() ? "" : "\n") + catalog_text(catalog, page);
  return out;
}

}  // namespace teetally
