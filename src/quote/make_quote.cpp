#include <algorithm>

#include "quote/cost_lines.h"

namespace teetally {
namespace {

void append(std::vector<CostLine>& to, std::vector<CostLine> lines) {
  for (CostLine& line : lines) to.push_back(std::move(line));
}

CostSheet direct_costs(const QuoteInput& input) {
  CostSheet sheet;
  const auto add = [&sheet](Money& sum, std::vector<CostLine> lines) {
    sum = sum_of(lines);
    append(sheet.lines, std::move(lines));
  };
  add(sheet.materials, material_lines(input, sheet.notes));
  add(sheet.labour, labour_lines(input, sheet.notes));
  add(sheet.equipment, charge_lines(CostPart::equipment, input.job.equipment));
  add(sheet.delivery, charge_lines(CostPart::delivery, input.job.delivery));
  return sheet;
}

Money overhead_of(const Job& job, const CostSheet& sheet, Money direct) {
  Money per_hours;
  for (const CostLine& line : sheet.lines) {
    if (line.part == CostPart::labour) per_hours += job.overhead.per_hour * line.count;
  }
  // Hours are hundredths: dividing by a hundred, halves up, is taking 1 %.
  return share_of(job.overhead.percent, direct) + share_of(Percent{10'000}, per_hours) + job.overhead.amount;
}

Money profit_on(Money cost, const Job& job) {
  switch (job.profit_rule) {
    case ProfitRule::none:
      return {};
    case ProfitRule::markup:
      return share_of(job.profit, cost);
    case ProfitRule::margin:
      return price_with_margin(cost, job.profit) - cost;
  }
  return {};
}

std::string profit_words(const Job& job) {
  if (job.profit_rule == ProfitRule::none) return {};
  const bool markup = job.profit_rule == ProfitRule::markup;
  return (markup ? "markup " : "margin ") + to_string(job.profit) + (markup ? " of the cost" : " of the price");
}

// Overhead is spread over the direct costs by their size, and profit over everything, so that the customer's
// sections add up to the price.
std::vector<PricedSection> sections_of(const CostSheet& sheet, Money price) {
  const Money direct = sheet.materials + sheet.labour + sheet.equipment + sheet.delivery;
  std::vector<Money> costs =
      spread(direct + sheet.overhead, {sheet.materials, sheet.labour, sheet.equipment + sheet.delivery});
  costs.push_back(sheet.contingency);
  const std::vector<Money> prices = spread(price, costs);
  return {{"Materials", prices[0]},
          {"Labour", prices[1]},
          {"Equipment and delivery", prices[2]},
          {"Allowance for the unforeseen", prices[3]}};
}

Money taxable_of(const CustomerCopy& copy, TaxBasis basis) {
  switch (basis) {
    case TaxBasis::none:
    case TaxBasis::absorbed:
      return {};
    case TaxBasis::materials:
      return copy.sections[0].price;
    case TaxBasis::materials_and_labour:
      return copy.sections[0].price + copy.sections[1].price;
    case TaxBasis::everything:
      return copy.price;
  }
  return {};
}

std::string tax_words(const Job& job) {
  const std::string tax = "Tax " + to_string(job.tax) + " on ";
  switch (job.tax_basis) {
    case TaxBasis::none:
    case TaxBasis::absorbed:
      return {};
    case TaxBasis::materials:
      return tax + "materials";
    case TaxBasis::materials_and_labour:
      return tax + "materials and labour";
    case TaxBasis::everything:
      return tax + "everything";
  }
  return {};
}

std::vector<Payment> payments_of(const Job& job, Money total) {
  std::vector<Payment> payments;
  Money left = total;
  for (const PaymentTerm& term : job.payments) {
    Money amount = std::min(share_of(term.percent, total), left);
    if (term.at_most) amount = std::min(amount, *term.at_most);
    payments.push_back({term.what, amount});
    left -= amount;
  }
  if (left.minor > 0 || payments.empty()) payments.push_back({"On completion", left});
  return payments;
}

// A customer reads no sixteenths: lengths go up to the whole inch or centimetre.
std::int64_t supplied(const Need& need, UnitSystem units) {
  if (!need.by_length) return need.amount;
  const std::int64_t step = units == UnitSystem::us ? 254 : 100;
  return (need.amount + step - 1) / step * step;
}

std::vector<SuppliedPart> parts_of(const QuoteInput& input) {
  std::vector<SuppliedPart> parts;
  for (const Need& need : input.book.takeoff.needs) {
    parts.push_back({to_text(need.part, input.units), amount_text(need, supplied(need, input.units), input.units)});
  }
  return parts;
}

std::optional<std::string> valid_until(const QuoteInput& input) {
  std::optional<std::string> earliest;
  for (const SupplierOrder& order : input.purchase.orders) {
    const auto& until = input.book.catalogs[static_cast<std::size_t>(order.catalog)]->valid_until;
    if (until && (!earliest || *until < *earliest)) earliest = until;
  }
  return earliest;
}

// Whose prices may change any day: then the quote's last day does not speak for them.
void note_endless_prices(const QuoteInput& input, std::vector<std::string>& notes) {
  std::vector<std::string> endless;
  for (const SupplierOrder& order : input.purchase.orders) {
    const Catalog& catalog = *input.book.catalogs[static_cast<std::size_t>(order.catalog)];
    if (catalog.id == kOnHandId || catalog.valid_until) continue;
    endless.push_back(catalog.name.empty() ? catalog.id : catalog.name);
  }
  if (endless.empty()) return;
  notes.push_back("how long the prices hold: " + listed(endless) + (endless.size() == 1 ? " does" : " do") +
                  " not say until when ('valid' of the catalog)");
}

}  // namespace

Quote make_quote(const QuoteInput& input) {
  const Job& job = input.job;
  Quote quote;
  CostSheet& costs = quote.costs = direct_costs(input);
  const Money direct = costs.materials + costs.labour + costs.equipment + costs.delivery;
  costs.overhead = overhead_of(job, costs, direct);
  costs.contingency = share_of(job.contingency, direct + costs.overhead);
  const Money cost = direct + costs.overhead + costs.contingency;
  costs.profit = profit_on(cost, job);
  costs.profit_words = profit_words(job);

  CustomerCopy& copy = quote.copy;
  copy.name = input.book.takeoff.name;
  copy.business = job.business;
  copy.customer = job.customer;
  copy.site = job.site;
  copy.scope = job.scope;
  if (!input.book.catalogs.empty()) copy.currency = input.book.catalogs.front()->currency;
  copy.made_on = input.today;
  copy.valid_until = valid_until(input);
  note_endless_prices(input, costs.notes);
  copy.parts = parts_of(input);
  copy.price = cost + costs.profit;
  copy.sections = sections_of(costs, copy.price);
  costs.taxable = taxable_of(copy, job.tax_basis);
  copy.tax_words = tax_words(job);
  copy.tax = share_of(job.tax, costs.taxable);
  copy.total = copy.price + copy.tax;
  copy.payments = payments_of(job, copy.total);
  copy.exclusions = job.exclusions;
  copy.cautions = input.book.takeoff.cautions;
  copy.cautions.insert(copy.cautions.end(), job.cautions.begin(), job.cautions.end());
  return quote;
}

}  // namespace teetally
