#include "render/pool/words.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/phrases.h"
#include "render/pool/parts.h"

namespace teetally {
namespace {

constexpr std::size_t kMostPayers = 4;  // named

std::string list_words(const PoolResult& result) {
  const Currency& currency = result.pool.currency;
  const Shares& shares = result.shares;
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
      "however chosen, pays more than its top-ups above what it would pay alone{}.",
      to_text(shares.listed, currency), to_text(shares.top_ups, currency), to_text(shares.largest_top_up, currency),
      rounding);
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

// What all would pay alone at least, where not every order alone is proven the cheapest.
Money least_alone_in_all(const PoolResult& result) {
  Money sum;
  for (const auto* list : {&result.plots, &result.shared}) {
    for (const PlotShare& line : *list) sum += result.alone[static_cast<std::size_t>(line.basket)].least;
  }
  return sum;
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
  if (!all_known_alone(result)) return text;
  if (const Money least = least_alone_in_all(result); least < alone) {
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
  for (const PlotShare& line : result.plots) {
    const Plot& plot = result.pool.plots[static_cast<std::size_t>(line.plot)];
    if (!plot.cash_limit || line.pays() <= *plot.cash_limit) continue;
    words.push_back(fmt::format("Plot {} pays {}, above its limit of {}.", quoted(printable(plot.name)),
                                to_text(line.pays(), result.pool.currency),
                                to_text(*plot.cash_limit, result.pool.currency)));
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

std::vector<std::string> share_lines(const PoolResult& result, const PlotShare& line) {
  const Currency& currency = result.pool.currency;
  const Alone& alone = result.alone[static_cast<std::size_t>(line.basket)];
  const std::string third =
      line.share.top_up < Money{}
          ? fmt::format("The pool pays {} less than the list for these parts, and passes it on.",
                        to_text(-line.share.top_up, currency))
          : fmt::format("What the list does not bring in is split evenly; this plot's part is {}.",
                        to_text(line.share.top_up, currency));
  const std::string shared = line.for_shared == Money{}
                                 ? std::string()
                                 : fmt::format(" and {} for shared parts, {} in all",
                                               to_text(line.for_shared, currency), to_text(line.pays(), currency));
  const std::string first = alone.outcome == Outcome::infeasible ? "Alone, these parts cannot be bought."
                            : alone.outcome == Outcome::out_of_time
                                ? "What these parts cost alone was not found in the time given."
                                : fmt::format("Alone, these parts cost {}{}.", to_text(alone.least, currency),
                                              alone.cost == alone.least ? "" : " or more");
  return {first,
          fmt::format("By the pool's price list they are worth {}: no group could buy them for less.",
                      to_text(line.share.listed, currency)),
          third, fmt::format("So it pays {}{}.", to_text(line.share.paid, currency), shared)};
}

}  // namespace teetally
