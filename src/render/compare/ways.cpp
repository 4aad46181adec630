#include "render/compare/ways.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/phrases.h"
#include "render/shares.h"

namespace teetally {
namespace {

constexpr std::size_t kMostMissingNamed = 12;

constexpr std::string_view kInOne = "in 1: ";  // of the one bundle there is

const Bundle& bundle_of(const CompareView& view, const BundleVerdict& verdict) {
  return catalog_at(view.book, verdict.catalog).bundles[static_cast<std::size_t>(verdict.bundle)];
}

std::string bundle_name(const CompareView& view, const BundleVerdict& verdict) {
  const Bundle& bundle = bundle_of(view, verdict);
  return printable(bundle.sku + (bundle.name.empty() ? "" : " " + bundle.name));
}

bool can_be_had(const Way& way) { return way.purchase->outcome == Outcome::bought; }

std::vector<std::string> bundles_in(const CompareView& view) {
  std::vector<std::string> names;
  for (const BundleVerdict& verdict : view.comparison.bundles) {
    if (verdict.chosen) names.push_back(bundle_name(view, verdict));
  }
  return names;
}

// The bundle that comes nearest to the cheapest order without being in it.
const BundleVerdict* nearest_bundle(const CompareView& view) {
  const BundleVerdict* nearest = nullptr;
  for (const BundleVerdict& verdict : view.comparison.bundles) {
    if (verdict.chosen || !verdict.useful || verdict.with.outcome != Outcome::bought) continue;
    if (nearest == nullptr || verdict.with.total < nearest->with.total) nearest = &verdict;
  }
  return nearest;
}

std::string turn_phrase(const CompareView& view, const BundleVerdict& verdict) {
  if (!verdict.turn) return {};
  const Money now = bundle_of(view, verdict).price;
  const Turn& turn = *verdict.turn;
  const auto price = [&](Money change) { return to_text(now + change, currency_of(view.book)); };
  if (verdict.chosen) {
    if (turn.exact && !turn.by) return "; nothing on offer can replace it";
    if (turn.exact) return "; pays while its price stays below " + price(*turn.by);
    return "; pays while its price stays below " + price(turn.sure) + ", above that is not settled";
  }
  if (turn.exact && !turn.by) return "; would not pay even for nothing";
  if (turn.exact) return "; pays when its price falls to " + price(*turn.by);
  const bool sure = turn.sure.minor <= 0;
  if (!turn.by && !sure) return "; at which price it would pay is not settled";
  if (!turn.by) return "; does not pay at " + price(turn.sure) + " or more, below that is not settled";
  return "; pays when its price falls to " + price(*turn.by) +
         (sure ? " (from there to " + price(turn.sure) + " not settled)" : " (above that not settled)");
}

std::vector<std::string> missing_needs(const OfferBook& book, const Purchase& purchase) {
  std::vector<std::string> ids;
  for (const Shortfall& shortfall : purchase.shortfalls) {
    for (const int need : shortfall.needs) ids.push_back(book.takeoff.needs[static_cast<std::size_t>(need)].id);
  }
  return ids;
}

}  // namespace

std::string way_remark(const CompareView& view, const Way& way) {
  const Purchase& purchase = *way.purchase;
  if (purchase.outcome == Outcome::out_of_time) return "not settled in the time given";
  if (purchase.outcome == Outcome::infeasible) {
    const std::string missing = missing_briefly(view.book, purchase);
    return missing.empty() ? "cannot be had" : "nothing for " + missing;
  }
  if (&purchase == &view.comparison.best) return {};
  const Difference more = difference(purchase, view.comparison.best);
  const bool is_exact = more.most && more.least == *more.most && !purchase.proof.floating;
  return is_exact ? "" : "best found, not proven";
}

std::string catalog_name(const Catalog& catalog) { return printable(catalog.name.empty() ? catalog.id : catalog.name); }

std::string suppliers_phrase(const OfferBook& book, const Purchase& purchase) {
  std::vector<std::string> names;
  for (const SupplierOrder& order : purchase.orders) {
    const Catalog& catalog = *book.catalogs[static_cast<std::size_t>(order.catalog)];
    if (catalog.id != kOnHandId) names.push_back(printable(catalog.id));
  }
  return listed(names);
}

std::string more_phrase(const Difference& difference, const Currency& currency) {
  const auto text = [&](Money amount) { return to_text(amount, currency); };
  if (!difference.most) return "not known";
  if (difference.least == *difference.most) {
    if (difference.least.minor == 0) return "the same";
    return difference.least.minor > 0 ? text(difference.least) + " more" : text(-difference.least) + " less";
  }
  if (difference.least.minor <= 0) return "at most " + text(*difference.most) + " more (not proven)";
  return text(difference.least) + " to " + text(*difference.most) + " more (not proven)";
}

std::string missing_phrase(const OfferBook& book, const Purchase& purchase) {
  return listed(missing_needs(book, purchase));
}

std::string missing_briefly(const OfferBook& book, const Purchase& purchase) {
  const std::vector<std::string> ids = missing_needs(book, purchase);
  return ids.size() <= kMostMissingNamed ? listed(ids)
                                         : fmt::format("{} of {} needs", ids.size(), book.takeoff.needs.size());
}

std::vector<Way> ways_of(const CompareView& view) {
  const Comparison& all = view.comparison;
  std::vector<Way> ways{{"cheapest", "the cheapest mix", &all.best, nullptr, -1}};
  if (all.loose) ways.push_back({"loose", "loose parts only", &*all.loose, nullptr, -1});
  for (const BundleVerdict& verdict : all.bundles) {
    if (!verdict.useful) continue;
    ways.push_back({"bundle", "bundle " + bundle_name(view, verdict), &verdict.with, &verdict, verdict.catalog});
  }
  for (const SupplierAnswer& alone : all.alone) {
    ways.push_back({"supplier", "all from " + catalog_name(catalog_at(view.book, alone.catalog)), &alone.purchase,
                    nullptr, alone.catalog});
  }
  std::stable_sort(ways.begin() + 1, ways.end(), [](const Way& a, const Way& b) {
    if (can_be_had(a) != can_be_had(b)) return can_be_had(a);
    return can_be_had(a) && a.purchase->total < b.purchase->total;
  });
  return ways;
}

std::vector<std::string> added_words(const CompareView& view, const Way& way, UnitSystem units) {
  std::vector<std::string> words;
  for (const SupplierOrder& order : way.purchase->orders) {
    const Catalog& catalog = catalog_at(view.book, order.catalog);
    for (const OrderLine& line : order.lines) {
      const bool is_it = way.verdict != nullptr && line.catalog == way.catalog && line.bundle == way.verdict->bundle;
      if (!is_it) words.push_back(std::to_string(line.count) + " x " + parts_of(catalog, line, units).what);
    }
  }
  return words;
}

std::vector<std::string> left_words(const CompareView& view, const Way& way, UnitSystem units) {
  std::vector<std::string> words;
  for (const LeftoverLine& left : leftovers_of({view.book, *way.purchase})) {
    words.push_back(amount_phrase(left.by_length, left.amount, units) + (left.by_length ? " of " : " x ") +
                    (left.item->name.empty() ? left.item->sku : left.item->name));
  }
  return words;
}

std::vector<std::string> change_words(const CompareView& view, const Way& way, UnitSystem units) {
  if (way.verdict == nullptr) return {};
  for (const SupplierOrder& order : way.purchase->orders) {
    for (const OrderLine& line : order.lines) {
      if (line.catalog != way.catalog || line.bundle != way.verdict->bundle) continue;
      std::vector<std::string> words = parts_of(catalog_at(view.book, order.catalog), line, units).changes;
      for (std::string& each : words) {
        if (line.count == 1 && each.starts_with(kInOne)) each.erase(0, kInOne.size());
      }
      return words;
    }
  }
  return {};
}

std::string verdict_phrase(const CompareView& view, const BundleVerdict& verdict) {
  if (!verdict.useful) return "holds nothing that is needed";
  const Currency& currency = currency_of(view.book);
  if (verdict.chosen) {
    if (verdict.without.outcome == Outcome::infeasible) return "in the cheapest order; no order does without it";
    const Difference between = difference(verdict.without, view.comparison.best);
    return "in the cheapest order; without it " + more_phrase(between, currency) + turn_phrase(view, verdict);
  }
  if (verdict.with.outcome == Outcome::infeasible) return "no order has it and brings everything";
  if (verdict.with.outcome == Outcome::out_of_time) return "not settled in the time given";
  const Difference between = difference(verdict.with, view.comparison.best);
  if (between.most && between.least == *between.most && between.least.minor > 0) {
    return "dearer by " + to_text(between.least, currency) + turn_phrase(view, verdict);
  }
  return more_phrase(between, currency) + turn_phrase(view, verdict);
}

std::string advice_sentence(const CompareView& view) {
  const Comparison& all = view.comparison;
  const Currency& currency = currency_of(view.book);
  const std::string cost = currency.code + " " + to_text(all.best.total, currency) + " in all";
  const std::vector<std::string> bundles = bundles_in(view);
  if (!bundles.empty()) {
    std::string text = "Take " + listed(bundles) + " and the rest loose: " + cost;
    if (!all.loose) return text + ".";
    if (all.loose->outcome == Outcome::infeasible) return text + "; loose parts alone do not bring everything.";
    return text + "; loose parts only would cost " + more_phrase(difference(*all.loose, all.best), currency) + ".";
  }
  std::string text = "Buy loose parts: " + cost;
  const BundleVerdict* nearest = nearest_bundle(view);
  if (all.bundles.empty()) return text + ".";
  if (nearest == nullptr) return text + "; no bundle on offer helps.";
  return text + "; with the best bundle, " + bundle_name(view, *nearest) + ", it would cost " +
         more_phrase(difference(nearest->with, all.best), currency) + ".";
}

}  // namespace teetally
