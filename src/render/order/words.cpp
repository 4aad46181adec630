#include "render/order/words.h"

#include <algorithm>

namespace teetally {
std::string supplier_words(const Catalog& catalog) { return catalog.name.empty() ? catalog.id : catalog.name; }

std::string total_words(const OrderView& view) {
  const auto suppliers =
      std::count_if(view.purchase.orders.begin(), view.purchase.orders.end(), [&view](const SupplierOrder& order) {
        return view.book.catalogs[static_cast<std::size_t>(order.catalog)]->id != kOnHandId;
      });
  const Currency& currency = currency_of(view.book);
  return "Total " + currency.code + " " + to_text(view.purchase.total, currency) + " from " +
         counted(suppliers, "supplier") + ", delivered and with tax.";
}

std::string proof_words(const OrderView& view) {
  const Proof& proof = view.purchase.proof;
  const Currency& currency = currency_of(view.book);
  std::string text;
  if (proof.proven && proof.floating) {
    text = "Not proven cheapest, but no order that costs less was found by a search that rounds its numbers";
  } else if (proof.proven) {
    text = "No order from these catalogs costs less: proven";
  } else {
    text = "Not proven cheapest: an order may exist for as little as " + to_text(proof.lower_bound, currency) + " " +
           currency.code + "; this one costs " + to_text(proof.cost - proof.lower_bound, currency) +
           " more than that. More --seconds may settle it";
  }
  if (!proof.rests_on.empty()) text += " (rests on " + proof.rests_on + ")";
  return text + ".";
}

std::string price_words(const Catalog& catalog, const OrderLine& line, const LineParts& parts) {
  if (parts.price) return to_text(*parts.price, catalog.currency);
  return line.bundle < 0 ? "stepped" : "-";
}

std::vector<CostStep> cost_steps(const OrderCost& cost, const Catalog& catalog) {
  std::vector<CostStep> steps = {{"goods", cost.goods}};
  if (cost.discount.minor != 0) steps.push_back({"discount", -cost.discount});
  if (!catalog.terms.shipping.empty()) steps.push_back({"shipping", cost.shipping});
  if (cost.small_order_fee.minor != 0) steps.push_back({"small-order fee", cost.small_order_fee});
  if (cost.tax.minor != 0) steps.push_back({"tax " + to_string(catalog.terms.tax), cost.tax});
  return steps;
}

const Need& need_of_join(const OrderView& view, const JoinReason& join) {
  return view.book.takeoff.needs[static_cast<std::size_t>(join.need)];
}

std::string join_words(const OrderView& view, const JoinReason& join, UnitSystem units) {
  const Need& tubing = view.book.takeoff.needs[static_cast<std::size_t>(join.tubing_need)];
  const NeededPiece& piece = tubing.pieces[static_cast<std::size_t>(join.piece)];
  return std::to_string(join.amount) + " to join " + to_text(piece.length, units) +
         (piece.where.empty() ? "" : ": " + piece.where);
}

std::vector<std::string> family_words(const OrderView& view, UnitSystem units) {
  std::vector<std::string> words;
  for (std::size_t s = 0; s < view.purchase.family_of_system.size(); ++s) {
    const int family = view.purchase.family_of_system[s];
    if (family < 0) continue;
    const FitFamily& fit = view.book.systems[s].families[static_cast<std::size_t>(family)];
    words.push_back(view.book.takeoff.systems[s].name + " tubing: " + to_text(fit.inside, units) + " inside, " +
                    to_text(fit.outside, units) + " outside");
  }
  return words;
}

}  // namespace teetally
