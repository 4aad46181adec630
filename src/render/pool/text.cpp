#include <fmt/format.h>

#include <algorithm>

#include "render/phrases.h"
#include "render/pool/parts.h"
#include "render/pool/words.h"

namespace teetally {
namespace {

constexpr std::size_t kMostLines = 60;  // plots listed; the CSV has them all

std::string paragraphs(const std::vector<std::string>& words, const Page& page) {
  std::string text;
  for (const std::string& one : words) text += wrapped(one, page.width);
  return text;
}

std::string apart(const std::string& text) { return text.empty() ? text : "\n" + text; }

std::string orders(const PoolResult& result, const Page& page) {
  if (result.purchase.orders.empty()) return {};
  TextTable table{
      {{"Supplier", Column::Side::left, true}, {"Lines", Column::Side::right}, {"Total", Column::Side::right}}, {}};
  for (const SupplierOrder& order : result.purchase.orders) {
    table.rows.push_back({printable(result.book.catalogs[order.catalog]->name), std::to_string(order.lines.size()),
                          to_text(order.cost.total, result.pool.currency)});
  }
  return heading("Orders") + laid_out(table, page.width, 2) + "\n" +
         wrapped(sureness(result.purchase.proof), page.width) + apart(paragraphs(minimum_words(result), page));
}

std::string shares_table(const PoolResult& result, const Page& page) {
  TextTable table{{{"Plot"},
                   {"Member", Column::Side::left, true},
                   {"Alone", Column::Side::right},
                   {"Own parts", Column::Side::right},
                   {"Shared parts", Column::Side::right},
                   {"Pays", Column::Side::right},
                   {"Saves", Column::Side::right}},
                  {}};
  for (const PlotShare& line : result.plots) {
    if (table.rows.size() == kMostLines) break;
    const Plot& plot = result.pool.plots[line.plot];
    const Alone& alone = result.alone[line.basket];
    const bool known = alone.outcome == Outcome::bought;
    table.rows.push_back({printable(plot.name), printable(plot.member),
                          known ? to_text(alone.cost, result.pool.currency) : "?",
                          result.shared.empty() ? "" : to_text(line.share.paid, result.pool.currency),
                          line.for_shared == Money{} ? "" : to_text(line.for_shared, result.pool.currency),
                          to_text(line.pays(), result.pool.currency),
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
    table.rows.push_back({printable(plot.name),
                          alone.outcome == Outcome::bought ? to_text(alone.cost, result.pool.currency) : "?",
                          to_text(line.share.paid, result.pool.currency), payers_words(plot)});
  }
  return heading("Shared parts") + laid_out(table, page.width, 2);
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
  for (const LeftWords& left : left_over_words(result, page.units)) {
    table.rows.push_back({printable(left.what), left.amount});
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
  std::string text = title_line(result.pool.name, "Pooled order") + "\n" + wrapped(pool_summary(result), page.width);
  text += paragraphs(absence_words(result), page) + orders(result, page) + shares_table(result, page) +
          shared_parts(result, page) + apart(wrapped(fairness_words(result), page.width));
  const std::string savings = savings_words(result);
  text += apart(paragraphs(limit_words(result), page));
  if (!savings.empty()) text += apart(wrapped(savings, page.width));
  return text + steps_text(result, steps, page) + leftovers(result, page) +
         cautions_text(result.book.takeoff.cautions, page);
}

std::optional<std::string> share_text(const PoolResult& result, const std::string& plot, const Page& page) {
  for (const PlotShare& line : result.plots) {
    if (result.pool.plots[line.plot].name != plot) continue;
    std::string text;
    int number = 0;
    for (const std::string& one : share_lines(result, line)) {
      text += wrapped(fmt::format("{}. {}", ++number, one), page.width, 0, 3);
    }
    return text;
  }
  return std::nullopt;
}

}  // namespace teetally
