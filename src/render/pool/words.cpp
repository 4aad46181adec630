#include "render/pool/words.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/phrases.h"
#include "render/pool/parts.h"

namespace teetally {
namespace {

constexpr std::size_t kMostPayers = 4;       // named
constexpr std::size_t kMostOverLimits = 20;  // plots above their cash limits, named
constexpr std::int64_t kClose = 3;           // a supplier's minimum is close when a third fewer plots would miss it

bool uses_on_hand(const PoolResult& result) {
  return std::any_of(result.book.catalogs.begin(), result.book.catalogs.end(),
                     [](const auto& catalog) { return catalog->id == kOnHandId; });
}

// The price list does not tell whether some other split is fair to every group; where few share, it can be found out.
std::string fairer_split_words(const PoolResult& result) {
  const std::size_t sharers = result.plots.size() + result.shared.size();
  const bool can_be_found = sharers >= 2 && sharers <= kMostGrouped && result.purchase.proof.proven;
  if (!can_be_found || result.groups_unknown) return {};
  return " Whether some split is fair to every group, '--shares nucleolus' finds out.";
}

std::string list_words(const PoolResult& result) {
  const Currency& currency = result.pool.currency;
  const Shares& shares = result.shares;
  if (shares.top_ups < Money{} && !uses_on_hand(result)) {  // by the list's rounding
    return " The price list brings in more than the total by its rounding, and is lowered in proportion. No group of "
           "plots, however chosen, pays more than it would pay alone, but for rounding of " +
           to_text(shares.rounding, currency) + ".";
  }
  if (shares.top_ups < Money{}) {  // parts on hand, which the list leaves out, pay for some of it
    return fmt::format(
        " By the price list the parts are worth {}; parts on hand save {} of that, shared in proportion. No group of "
        "plots, however chosen, pays more than it would pay alone without them.",
        to_text(shares.listed, currency), to_text(-shares.top_ups, currency));
  }
  const std::string rounding =
      shares.rounding.minor > 0 ? ", but for rounding of " + to_text(shares.rounding, currency) : "";
  if (shares.top_ups == Money{}) {
    return " The price list accounts for all of the total. No group of plots, however chosen, pays more than it would "
           "pay alone" +
           rounding + ".";
  }
  return fmt::format(
      " The price list accounts for {} of the total; the other {} is top-ups of at most {} a plot. No group of plots, "
      "however chosen, pays more than its top-ups above what it would pay alone{}.{}",
      to_text(shares.listed, currency), to_text(shares.top_ups, currency), to_text(shares.largest_top_up, currency),
      rounding, fairer_split_words(result));
}

std::string groups_words(const PoolResult& result) {
  const Currency& currency = result.pool.currency;
  std::string text;
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
  return text;
}

// Alone, everybody may choose tubing that fits nobody else's, and each may count on the same few cheap packs.
std::string dearer_words(const PoolResult& result, Money alone) {
  return fmt::format(" Each alone: {}. Buying together costs {} more: {}.", to_text(alone, result.pool.currency),
                     to_text(result.purchase.total - alone, result.pool.currency),
                     result.pool.families_per_plot
                         ? "cheap packs are too few for all, or a limit holds for all together"
                         : "all tubing of one size is of one fit family here ('fit families: per plot' in the pool "
                           "file lets plots choose for themselves), or cheap packs are too few for all");
}

}  // namespace

std::string pool_summary(const PoolResult& result) {
  const Money total = result.purchase.total;
  const Money alone = alone_in_all(result);
  const auto suppliers =
      std::count_if(result.purchase.orders.begin(), result.purchase.orders.end(), [&](const SupplierOrder& order) {
        return result.book.catalogs[static_cast<std::size_t>(order.catalog)]->id != kOnHandId;
      });
  std::string text =
      fmt::format("{} {} for {} from {}.", result.pool.currency.code, to_text(total, result.pool.currency),
                  counted(size_of(result.plots), "plot"), counted(suppliers, "supplier"));
  if (result.purchase.orders.empty() && total == Money{}) return text + " Nothing has to be bought.";
  if (!all_known_alone(result)) return text;
  if (alone < total) return text + dearer_words(result, alone);
  if (const Money least = result.shares.least_alone; least < alone) {
    return text +
           fmt::format(" Each alone: {} by the best orders found, {} at least. The pool saves between {} and {}.",
                       to_text(alone, result.pool.currency), to_text(least, result.pool.currency),
                       to_text(std::max(Money{}, least - total), result.pool.currency),
                       to_text(alone - total, result.pool.currency));
  }
  return text + fmt::format(" Each alone: {}. The pool saves {}{}.", to_text(alone, result.pool.currency),
                            to_text(alone - total, result.pool.currency),
                            alone.minor > 0 ? fmt::format(", {:.1f} %", percent_of(alone - total, alone)) : "");
}

std::vector<std::string> absence_words(const PoolResult& result) {
  std::vector<std::string> words;
  if (result.left_out > 0) {
    words.push_back(fmt::format("{} no part in this round.", counted(result.left_out, "plot takes", "plots take")));
  }
  if (result.refused > 0) {
    words.push_back(fmt::format("{} with mistakes left out.", counted(result.refused, "plot")));
  }
  for (const int shared : result.unpaid) {
    words.push_back(fmt::format("Not bought: {}. Nobody who pays for it takes part.",
                                quoted(printable(result.pool.plots[static_cast<std::size_t>(shared)].name))));
  }
  return words;
}

std::string sureness(const Proof& proof) {
  if (proof.proven && proof.floating) {
    return fmt::format("Not proven, but a search that rounds its numbers found no order that costs less ({}).",
                       proof.rests_on);
  }
  if (proof.proven) return fmt::format("No order of all this costs less: proven ({}).", proof.rests_on);
  return fmt::format("At most {:.3f} % above the cheapest possible ({}).",
                     percent_of(proof.cost - proof.lower_bound, proof.cost), proof.rests_on);
}

std::string payers_words(const Plot& shared) {
  std::vector<std::string> payers;
  for (const std::string& payer : shared.paid_by) payers.push_back(printable(payer));
  if (payers.empty()) return "all";
  return payers.size() <= kMostPayers ? listed(payers) : counted(size_of(payers), "plot");
}

std::string fairness_words(const PoolResult& result) {
  const Shares& shares = result.shares;
  std::string text;
  if (result.groups_unknown) {
    text = "What every group would pay alone was not found in the time given, so the order is shared by price list. ";
  }
  const auto unknown = std::count_if(result.plots.begin(), result.plots.end(), [&](const PlotShare& line) {
    return result.alone[static_cast<std::size_t>(line.basket)].outcome == Outcome::out_of_time;
  });
  if (unknown > 0) text += fmt::format("What {} would pay alone is not known. ", counted(unknown, "plot"));
  text += shares.pay_more == 0 ? fmt::format("Nobody {}pays more for their own parts than alone.",
                                             unknown > 0 ? "for whom it is known " : "")
                               : fmt::format("{} more than alone, the worst {} more.",
                                             counted(shares.pay_more, "plot pays", "plots pay"),
                                             to_text(shares.worst_excess, result.pool.currency));
  if (shares.rule == ShareRule::price_list) text += list_words(result);
  return text + groups_words(result);
}

std::vector<std::string> limit_words(const PoolResult& result) {
  std::vector<std::string> words;
  std::int64_t more = 0;
  for (const PlotShare& line : result.plots) {
    const Plot& plot = result.pool.plots[static_cast<std::size_t>(line.plot)];
    if (!plot.cash_limit || line.pays() <= *plot.cash_limit) continue;
    if (words.size() == kMostOverLimits) {
      ++more;
      continue;
    }
    words.push_back(fmt::format("Plot {} pays {}, above its limit of {}.", quoted(printable(plot.name)),
                                to_text(line.pays(), result.pool.currency),
                                to_text(*plot.cash_limit, result.pool.currency)));
  }
  if (more > 0) {
    words.push_back(fmt::format("So do {}; --format json has pays and cash_limit of all.",
                                counted(more, "plot more", "plots more")));
  }
  return words;
}

std::vector<std::string> minimum_words(const PoolResult& result) {
  const std::int64_t plots = size_of(result.plots);
  std::vector<std::string> words;
  for (const SupplierOrder& order : result.purchase.orders) {
    const Catalog& catalog = *result.book.catalogs[static_cast<std::size_t>(order.catalog)];
    const std::int64_t value = order.cost.goods.minor - order.cost.discount.minor;
    if (!catalog.terms.minimum_order || value <= 0) continue;
    const std::int64_t needed = (catalog.terms.minimum_order->minor * plots + value - 1) / value;
    if (needed * kClose < plots * (kClose - 1)) continue;
    words.push_back(fmt::format("{} delivers from {} of goods on: it takes about {} of these {} to reach that.",
                                printable(catalog.name), to_text(*catalog.terms.minimum_order, result.pool.currency),
                                needed, counted(plots, "plot")));
  }
  return words;
}

std::string savings_words(const PoolResult& result) {
  std::vector<std::pair<double, std::string>> saved;
  for (const PlotShare& line : result.plots) {
    const Alone& alone = result.alone[static_cast<std::size_t>(line.basket)];
    if (alone.outcome != Outcome::bought || alone.cost <= Money{}) continue;
    saved.emplace_back(percent_of(alone.cost - line.share.paid, alone.cost),
                       result.pool.plots[static_cast<std::size_t>(line.plot)].name);
  }
  if (saved.size() < 2) return {};
  std::stable_sort(saved.begin(), saved.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  const std::string least = fmt::format("{:.1f} %", saved.front().first);
  if (least == fmt::format("{:.1f} %", saved.back().first) && saved.front().first < 0) {
    return fmt::format("Every plot pays {:.1f} % more than its own parts cost alone.", -saved.front().first);
  }
  if (least == fmt::format("{:.1f} %", saved.back().first)) {
    return fmt::format("Of what its own parts cost alone, every plot saves {}.", least);
  }
  return fmt::format(
      "Of what their own parts cost alone, plots save from {:.1f} % ({}) to {:.1f} % ({}); half of them save {:.1f} % "
      "or more.",
      saved.front().first, printable(saved.front().second), saved.back().first, printable(saved.back().second),
      saved[saved.size() / 2].first);
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

std::vector<LeftWords> left_over_words(const PoolResult& result, UnitSystem units) {
  std::vector<LeftWords> words;
  for (const Leftover& left : result.purchase.leftovers) {
    const Catalog& catalog = *result.book.catalogs[static_cast<std::size_t>(left.catalog)];
    const Item& item = catalog.items[static_cast<std::size_t>(left.item)];
    const bool by_length = !item.packs.empty() && item.packs[0].length.tenths_mm > 0;
    words.push_back({item.name, amount_phrase(by_length, left.amount, units)});
  }
  return words;
}

namespace {

std::string alone_line(const PoolResult& result, const Alone& alone) {
  if (alone.outcome == Outcome::infeasible) return "Alone, these parts cannot be bought.";
  if (alone.outcome == Outcome::out_of_time) return "What these parts cost alone was not found in the time given.";
  return fmt::format("Alone, these parts cost {}{}.", to_text(alone.least, result.pool.currency),
                     alone.cost == alone.least ? "" : " or more");
}

std::string listed_line(const PoolResult& result, const PlotShare& line) {
  return fmt::format("By the pool's price list they are worth {}: no group could buy them for less.",
                     to_text(line.share.listed, result.pool.currency));
}

std::string top_up_line(const PoolResult& result, const PlotShare& line) {
  const Currency& currency = result.pool.currency;
  if (line.share.top_up < Money{}) {
    return fmt::format("The pool pays {} less than the list for these parts, and passes it on.",
                       to_text(-line.share.top_up, currency));
  }
  const Alone& alone = result.alone[static_cast<std::size_t>(line.basket)];
  const bool capped = alone.outcome == Outcome::bought && line.share.paid == alone.least &&
                      line.share.top_up < result.shares.largest_top_up;
  return fmt::format("What the list does not bring in is split evenly{}; this plot's part is {}.",
                     capped ? ", but nobody is to pay more than alone" : "", to_text(line.share.top_up, currency));
}

// Why a plot pays what it pays by the rule, in two sentences.
std::pair<std::string, std::string> rule_lines(const PoolResult& result, const PlotShare& line) {
  const Currency& currency = result.pool.currency;
  const Money total = result.purchase.total;
  const std::string in_all = to_text(total, currency);
  const std::string cents = "Single cents go by largest remainder.";
  switch (result.shares.rule) {
    case ShareRule::alone:
      return {fmt::format("All that is bought would cost {} if each plot and each shared part were bought alone, and "
                          "together it costs {}.",
                          to_text(result.shares.least_alone, currency), in_all),
              fmt::format("Everybody pays {:.1f} % of what they would pay alone. {}",
                          percent_of(total, result.shares.least_alone), cents)};
    case ShareRule::use:
      return {
          listed_line(result, line),
          fmt::format("By that list all that is bought is worth {}, and it costs {}: everybody pays {:.1f} % of "
                      "the list. {}",
                      to_text(result.shares.listed, currency), in_all, percent_of(total, result.shares.listed), cents)};
    case ShareRule::equal:
      return {fmt::format("The order costs {}; every plot and every shared part that wants something has a part in it.",
                          in_all),
              "By this rule the parts are equal, whatever is wanted. " + cents};
    case ShareRule::nucleolus:
      return {"What every group of plots would pay alone was found by buying for each of them.",
              "Of all ways to split the order this one leaves the group that gains least the most, then the next."};
    case ShareRule::equal_saving:
      if (result.unavoidable_excess) {
        return {"What every group of plots would pay alone was found by buying for each: no split is fair to all.",
                "So this one is taken: the group that gains least gains as much as any split allows, then the next."};
      }
      return {"What every group of plots would pay alone was found by buying for each of them.",
              "Of all splits by which none of them pays more, this one makes savings in percent most alike."};
    case ShareRule::price_list:
      break;
  }
  return {listed_line(result, line), top_up_line(result, line)};
}

}  // namespace

std::vector<std::string> share_lines(const PoolResult& result, const PlotShare& line) {
  const Currency& currency = result.pool.currency;
  const std::string shared = line.for_shared == Money{}
                                 ? std::string()
                                 : fmt::format(" and {} for shared parts, {} in all",
                                               to_text(line.for_shared, currency), to_text(line.pays(), currency));
  const auto [second, third] = rule_lines(result, line);
  return {alone_line(result, result.alone[static_cast<std::size_t>(line.basket)]), second, third,
          fmt::format("So it pays {}{}.", to_text(line.share.paid, currency), shared)};
}

}  // namespace teetally
