#include <fmt/format.h>

#include <algorithm>

#include "render/phrases.h"
#include "render/pool_parts.h"

namespace teetally {
namespace {

constexpr std::size_t kMostPayers = 4;  // named
constexpr std::size_t kMostSteps = 5;
constexpr std::size_t kMostLines = 60;  // plots listed; the CSV has them all

std::string summary(const PoolResult& result, const Page& page) {
  const Money total = result.purchase.total;
  const Money alone = alone_in_all(result);
  std::string text =
      fmt::format("{} {} for {} from {}.", result.pool.currency.code, to_text(total, result.pool.currency),
                  counted(size_of(result.plots), "plot"), counted(size_of(result.purchase.orders), "supplier"));
  if (all_known_alone(result)) {
    text += fmt::format(" Each alone: {}. The pool saves {}{}.", to_text(alone, result.pool.currency),
                        to_text(alone - total, result.pool.currency),
                        alone.minor > 0 ? fmt::format(", {:.1f} %", percent_of(alone - total, alone)) : "");
  }
  return wrapped(text, page.width);
}

std::string orders(const PoolResult& result, const Page& page) {
  TextTable table{
      {{"Supplier", Column::Side::left, true}, {"Lines", Column::Side::right}, {"Total", Column::Side::right}}, {}};
  for (const SupplierOrder& order : result.purchase.orders) {
    table.rows.push_back({printable(result.book.catalogs[order.catalog]->name), std::to_string(order.lines.size()),
                          to_text(order.cost.total, result.pool.currency)});
  }
  const Proof& proof = result.purchase.proof;
  const std::string sure = proof.proven
                               ? fmt::format("No order of all this costs less: proven ({}).", proof.rests_on)
                               : fmt::format("At most {:.3f} % above the cheapest possible ({}).",
                                             percent_of(proof.cost - proof.lower_bound, proof.cost), proof.rests_on);
  return heading("Orders") + laid_out(table, page.width, 2) + "\n" + wrapped(sure, page.width);
}

std::string shares_table(const PoolResult& result, const Page& page) {
  TextTable table{{{"Plot"},
                   {"Member", Column::Side::left, true},
                   {"Alone", Column::Side::right},
                   {"Pays", Column::Side::right},
                   {"Shared parts", Column::Side::right},
                   {"Saves", Column::Side::right}},
                  {}};
  for (const PlotShare& line : result.plots) {
    if (table.rows.size() == kMostLines) break;
    const Plot& plot = result.pool.plots[line.plot];
    const Alone& alone = result.alone[line.basket];
    const bool known = alone.outcome == Outcome::bought;
    table.rows.push_back({printable(plot.name), printable(plot.member),
                          known ? to_text(alone.cost, result.pool.currency) : "?",
                          to_text(line.share.paid, result.pool.currency),
                          line.for_shared == Money{} ? "" : to_text(line.for_shared, result.pool.currency),
                          known ? to_text(alone.cost - line.share.paid, result.pool.currency) : "?"});
  }
  std::string text =
      heading("Who pays what (rule: " + to_text(result.shares.rule) + ")") + laid_out(table, page.width, 2);
  if (result.plots.size() > kMostLines) {
    text += fmt::format("  and {} more; --format csv has them all\n", result.plots.size() - kMostLines);
  }
  return text;
}

std::string shared_parts(const PoolResult& result, const Page& page) {
  if (result.shared.empty()) return {};
  TextTable table{{{"Shared part", Column::Side::left, true},
                   {"Alone", Column::Side::right},
                   {"Costs", Column::Side::right},
                   {"Paid by"}},
                  {}};
  for (const PlotShare& line : result.shared) {
    const Plot& plot = result.pool.plots[line.plot];
    const Alone& alone = result.alone[line.basket];
    std::vector<std::string> payers;
    for (const std::string& payer : plot.paid_by) payers.push_back(printable(payer));
    const bool few = payers.size() <= kMostPayers;
    table.rows.push_back({printable(plot.name),
                          alone.outcome == Outcome::bought ? to_text(alone.cost, result.pool.currency) : "?",
                          to_text(line.share.paid, result.pool.currency),
                          payers.empty() ? "all"
                          : few          ? listed(payers)
                                         : counted(size_of(payers), "plot")});
  }
  return heading("Shared parts") + laid_out(table, page.width, 2);
}

std::string fairness(const PoolResult& result, const Page& page) {
  const Currency& currency = result.pool.currency;
  const Shares& shares = result.shares;
  std::string text;
  if (result.groups_unknown) {
    text = "What every group would pay alone was not found in the time given, so the order is shared by price list. ";
  }
  text += shares.pay_more == 0
              ? "Nobody pays more for their own parts than alone."
              : fmt::format("{} more than alone, the worst {} more.",
                            counted(shares.pay_more, "plot pays", "plots pay"), to_text(shares.worst_excess, currency));
  if (shares.rule == ShareRule::price_list) {
    text += fmt::format(
        " The price list accounts for {} of the total; the other {} is top-ups of at most {} a plot. No group of "
        "plots, "
        "however chosen, pays more than its top-ups above what it would pay alone{}.",
        to_text(shares.listed, currency), to_text(shares.top_ups, currency), to_text(shares.largest_top_up, currency),
        shares.rounding.minor > 0 ? ", but for rounding of " + to_text(shares.rounding, currency) : "");
  }
  if (result.worst_excess) {
    const auto excess = static_cast<std::int64_t>(std::llround(*result.worst_excess));
    std::vector<std::string> names;
    for (const std::string& name : result.worst_group) names.push_back(printable(name));
    text += excess <= 0 ? " Every group was looked at: none pays more than alone."
                        : fmt::format(" Every group was looked at: {} together pay {} more than alone, no group more.",
                                      listed(names), to_text(Money{excess}, currency));
  }
  if (result.unavoidable_excess) {
    const auto least = static_cast<std::int64_t>(std::ceil(*result.unavoidable_excess - 1e-6));
    text += fmt::format(" No split is fair to every group here: with any split some group pays at least {} more.",
                        to_text(Money{least}, currency));
  }
  return "\n" + wrapped(text, page.width);
}

std::string limits_text(const PoolResult& result, const Page& page) {
  std::string text;
  for (const PlotShare& line : result.plots) {
    const Plot& plot = result.pool.plots[line.plot];
    if (!plot.cash_limit || line.pays() <= *plot.cash_limit) continue;
    text += wrapped(
        fmt::format("Plot {} pays {}, above its limit of {}.", quoted(printable(plot.name)),
                    to_text(line.pays(), result.pool.currency), to_text(*plot.cash_limit, result.pool.currency)),
        page.width);
  }
  return text.empty() ? text : "\n" + text;
}

// Who saves how much, from the least to the most.
std::string savings_text(const PoolResult& result, const Page& page) {
  std::vector<std::pair<double, std::string>> saved;
  for (const PlotShare& line : result.plots) {
    const Alone& alone = result.alone[line.basket];
    if (alone.outcome != Outcome::bought || alone.cost <= Money{}) continue;
    saved.emplace_back(percent_of(alone.cost - line.share.paid, alone.cost), result.pool.plots[line.plot].name);
  }
  if (saved.size() < 2) return {};
  std::stable_sort(saved.begin(), saved.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  return "\n" +
         wrapped(fmt::format("Of what their own parts cost alone, plots save from {:.1f} % ({}) to {:.1f} % ({}); "
                             "half of them save {:.1f} % or more.",
                             saved.front().first, printable(saved.front().second), saved.back().first,
                             printable(saved.back().second), saved[saved.size() / 2].first),
                 page.width);
}

std::string step_words(const PoolResult& result, const NextStep& step) {
  const Catalog& catalog = *result.book.catalogs[static_cast<std::size_t>(step.catalog)];
  const Currency& currency = catalog.currency;
  const std::string who = fmt::format("{} more like these at {}", counted(step.plots, "plot"), printable(catalog.name));
  if (step.kind == NextStep::Kind::discount) {
    return fmt::format("{}: {} off ({} of goods missing).", who, to_string(step.discount),
                       to_text(step.missing, currency));
  }
  if (step.kind == NextStep::Kind::shipping) {
    return fmt::format("{}: shipping {} ({} of goods missing).", who,
                       step.fee == Money{} ? "free" : to_text(step.fee, currency), to_text(step.missing, currency));
  }
  const Item& item = catalog.items[static_cast<std::size_t>(step.item)];
  return fmt::format("{}: {} for {} each ({} missing).", who,
                     printable(item.packs[static_cast<std::size_t>(step.pack)].sku), to_text(step.price, currency),
                     counted(step.packs, "pack"));
}

std::string steps_text(const PoolResult& result, const std::vector<NextStep>& steps, const Page& page) {
  std::string text;
  for (std::size_t s = 0; s < std::min(steps.size(), kMostSteps); ++s) {
    text += wrapped(step_words(result, steps[s]), page.width, 2, 4);
  }
  return text.empty() ? text : heading("Within reach") + text;
}

std::string leftovers(const PoolResult& result, const Page& page) {
  TextTable table{
      {{result.pool.leftovers == LeftoverRule::by_use ? "Left over, shared by use but for tubing" : "Left over",
        Column::Side::left, true},
       {"Amount", Column::Side::right}},
      {}};
  for (const Leftover& left : result.purchase.leftovers) {
    const Item& item = result.book.catalogs[left.catalog]->items[left.item];
    const bool by_length = !item.packs.empty() && item.packs[0].length.tenths_mm > 0;
    table.rows.push_back({printable(item.name), amount_phrase(by_length, left.amount, page.units)});
  }
  return table.rows.empty() ? "" : heading("Bought and not needed") + laid_out(table, page.width, 2);
}

}  // namespace

std::string pool_text(const PoolResult& result, const std::vector<NextStep>& steps, const Page& page) {
  if (result.purchase.outcome != Outcome::bought) {
    std::string text = result.purchase.outcome == Outcome::infeasible ? "These needs cannot be bought together:\n"
                                                                      : "No order was found in the time given.\n";
    for (const Shortfall& shortfall : result.purchase.shortfalls) {
      for (const int need : shortfall.needs) {
        text += wrapped(part_phrase(result.book.takeoff.needs[need].part, page.units) + ": " + shortfall.why,
                        page.width, 2, 4);
      }
    }
    return text;
  }
  std::string text = title_line(result.pool.name, "Pooled order") + "\n" + summary(result, page);
  if (result.left_out > 0) {
    text += wrapped(fmt::format("{} no part in this round.", counted(result.left_out, "plot takes", "plots take")),
                    page.width);
  }
  if (result.refused > 0) {
    text += wrapped(fmt::format("{} with mistakes left out.", counted(result.refused, "plot")), page.width);
  }
  return text + orders(result, page) + shares_table(result, page) + shared_parts(result, page) +
         fairness(result, page) + limits_text(result, page) + savings_text(result, page) +
         steps_text(result, steps, page) + leftovers(result, page) + cautions_text(result.book.takeoff.cautions, page);
}

std::optional<std::string> share_text(const PoolResult& result, const std::string& plot, const Page& page) {
  const Currency& currency = result.pool.currency;
  for (const PlotShare& line : result.plots) {
    if (result.pool.plots[line.plot].name != plot) continue;
    const Alone& alone = result.alone[line.basket];
    std::string text = wrapped(fmt::format("1. Alone, these parts cost {}{}.", to_text(alone.least, currency),
                                           alone.cost == alone.least ? "" : " or more"),
                               page.width, 0, 3);
    text += wrapped(fmt::format("2. By the pool's price list they are worth {}: no group could buy them for less.",
                                to_text(line.share.listed, currency)),
                    page.width, 0, 3);
    text += wrapped(fmt::format("3. What the list does not bring in is split evenly; this plot's part is {}.",
                                to_text(line.share.top_up, currency)),
                    page.width, 0, 3);
    text += wrapped(
        fmt::format("4. So it pays {}{}, {} in all.", to_text(line.share.paid, currency),
                    line.for_shared == Money{} ? std::string()
                                               : " and " + to_text(line.for_shared, currency) + " for shared parts",
                    to_text(line.pays(), currency)),
        page.width, 0, 3);
    return text;
  }
  return std::nullopt;
}

}  // namespace teetally
