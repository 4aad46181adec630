#include "quote/cost_lines.h"
#include "teetally/purchase/worth.h"

namespace teetally {
namespace {

const Item& item_of(const Catalog& catalog, int item) { return catalog.items[static_cast<std::size_t>(item)]; }
const Pack& pack_of(const Catalog& catalog, const OrderLine& line) {
  return item_of(catalog, line.item).packs[static_cast<std::size_t>(line.pack)];
}

std::string pack_words(const Pack& pack, UnitSystem units) {
  if (pack.length.tenths_mm > 0) return ", " + to_text(pack.length, units);
  return pack.count == 1 ? std::string() : ", pack of " + std::to_string(pack.count);
}

}  // namespace

CostLine ordered_cost_line(const Catalog& catalog, const OrderLine& line, UnitSystem units) {
  CostLine out;
  out.supplier = catalog.id;
  out.count = line.count;
  out.cost = line.goods;
  if (line.bundle >= 0) {
    const Bundle& bundle = catalog.bundles[static_cast<std::size_t>(line.bundle)];
    out.sku = bundle.sku;
    out.what = (bundle.name.empty() ? bundle.sku : bundle.name) + " (bundle)";
    if (line.changes.empty()) out.price = bundle.price;
    return out;
  }
  const Item& item = item_of(catalog, line.item);
  const Pack& pack = pack_of(catalog, line);
  out.sku = pack.sku.empty() ? item.sku : pack.sku;
  out.what = (item.name.empty() ? item.sku : item.name) + pack_words(pack, units);
  // With stepped prices there may be no one price that gives the cost.
  for (const PriceBreak& step : pack.prices) {
    if (!out.price && step.price * line.count == line.goods) out.price = step.price;
  }
  return out;
}

namespace {

void add_terms(const Catalog& catalog, const OrderCost& cost, const Job& job, std::vector<CostLine>& lines) {
  const std::string name = catalog.name.empty() ? catalog.id : catalog.name;
  const auto add = [&](const std::string& what, Money amount) {
    if (amount.minor == 0) return;
    CostLine line;
    line.part = CostPart::supplier_terms;
    line.supplier = catalog.id;
    line.what = what + ", " + name;
    line.cost = amount;
    lines.push_back(std::move(line));
  };
  add("discount", -cost.discount);
  add("shipping", cost.shipping);
  add("small-order fee", cost.small_order_fee);
  if (!job.for_resale) add("tax", cost.tax);
}

void take_off_surplus(const QuoteInput& input, std::vector<CostLine>& lines, std::vector<std::string>& notes) {
  const std::vector<std::optional<Money>> worth = worth_of_leftovers(input.book, input.purchase);
  for (std::size_t i = 0; i < worth.size(); ++i) {
    const Leftover& left = input.purchase.leftovers[i];
    const Catalog& catalog = *input.book.catalogs[static_cast<std::size_t>(left.catalog)];
    if (catalog.id == kOnHandId) continue;
    const Item& item = item_of(catalog, left.item);
    const std::string name = item.name.empty() ? item.sku : item.name;
    if (!worth[i]) {
      notes.push_back("surplus of " + name + " came in a bundle and has no price of its own; it is charged");
      continue;
    }
    if (worth[i]->minor == 0) continue;
    CostLine line;
    line.part = CostPart::surplus;
    line.supplier = catalog.id;
    line.sku = item.sku;
    line.what = "surplus kept: " + name;
    line.cost = -*worth[i];
    lines.push_back(std::move(line));
  }
}

}  // namespace

Money sum_of(const std::vector<CostLine>& lines) {
  Money sum;
  for (const CostLine& line : lines) sum += line.cost;
  return sum;
}

std::vector<CostLine> material_lines(const QuoteInput& input, std::vector<std::string>& notes) {
  std::vector<CostLine> lines;
  Money suppliers_tax;
  for (const SupplierOrder& order : input.purchase.orders) {
    const Catalog& catalog = *input.book.catalogs[static_cast<std::size_t>(order.catalog)];
    for (const OrderLine& line : order.lines) lines.push_back(ordered_cost_line(catalog, line, input.units));
    add_terms(catalog, order.cost, input.job, lines);
    suppliers_tax += order.cost.tax;
  }
  const TaxBasis basis = input.job.tax_basis;
  const bool resold = basis != TaxBasis::none && basis != TaxBasis::absorbed;
  if (resold && !input.job.for_resale && suppliers_tax.minor != 0) {
    notes.emplace_back(
        "materials carry their suppliers' tax and are taxed again when sold on; 'resale: yes' leaves "
        "the suppliers' tax out");
  }
  if (input.job.surplus == SurplusPolicy::kept) take_off_surplus(input, lines, notes);
  if (basis == TaxBasis::absorbed && input.job.tax.ppm != 0) {
    Money before_tax = sum_of(lines);
    if (!input.job.for_resale) before_tax -= suppliers_tax;
    CostLine line;
    line.part = CostPart::supplier_terms;
    line.what = "tax " + to_string(input.job.tax) + " on materials, absorbed";
    line.cost = share_of(input.job.tax, before_tax);
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace teetally
