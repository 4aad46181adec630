#include "purchase/why_question.h"

#include <fmt/format.h>

#include <algorithm>

namespace teetally {
namespace {

std::string text_of(const Offer& offer) {
  return fmt::format("{}/{}/{}/{}", offer.catalog, offer.item, offer.pack, offer.bundle);
}

void bar(Catalog& catalog, const Offer& offer) {
  if (offer.bundle >= 0) {
    catalog.bundles[offer.bundle].stock = 0;
  } else {
    catalog.items[offer.item].packs[offer.pack].stock = 0;
  }
}

void move_price(Catalog& catalog, const MovedPrice& moved) {
  if (moved.offer.bundle >= 0) {
    catalog.bundles[moved.offer.bundle].price += moved.by;
    return;
  }
  for (PriceBreak& step : catalog.items[moved.offer.item].packs[moved.offer.pack].prices) step.price += moved.by;
}

bool is_only_one(const OfferBook& book, const std::string& sku) {
  std::ptrdiff_t found = 0;
  for (const auto& catalog : book.catalogs) {
    found += std::count_if(catalog->bundles.begin(), catalog->bundles.end(),
                           [&](const Bundle& bundle) { return bundle.sku == sku; });
  }
  return found == 1;
}

// A token is worth nothing and comes with the bundle only; needing it is needing the bundle.
void force(Catalog& catalog, const ForcedBundle& forced, Variant& variant) {
  Bundle& bundle = catalog.bundles[forced.offer.bundle];
  if (forced.most) bundle.stock = std::min(bundle.stock.value_or(*forced.most), *forced.most);
  if (forced.least == 1 && !variant.limits.take_bundle && is_only_one(variant.book, bundle.sku)) {
    variant.limits.take_bundle = bundle.sku;
    return;
  }
  Item token;
  token.sku = token.name = bundle.sku;
  token.part.kind = "other";
  catalog.items.push_back(std::move(token));
  BundleContent content;
  content.item = static_cast<int>(catalog.items.size()) - 1;
  content.count = 1;
  bundle.contents.push_back(std::move(content));
  variant.token = static_cast<int>(variant.book.items.size());
  variant.book.items.push_back({forced.offer.catalog, static_cast<int>(catalog.items.size()) - 1});
  Need need;
  need.id = bundle.sku;
  need.part.kind = "other";
  need.amount = forced.least;
  variant.book.servings.push_back({static_cast<int>(variant.book.takeoff.needs.size()), variant.token, {}, {}});
  variant.book.takeoff.needs.push_back(std::move(need));
  variant.forced = forced;
}

// Tubing: what is added is a piece of its own; what is taken away comes off the longest piece.
void set_amount(Need& need, std::int64_t amount) {
  const std::int64_t more = amount - need.amount;
  need.amount = amount;
  if (need.pieces.empty() || more == 0) return;
  if (more > 0) {
    need.pieces.push_back({Length{more}, "one more", true});
    return;
  }
  const auto longest = std::max_element(need.pieces.begin(), need.pieces.end(),
                                        [](const NeededPiece& a, const NeededPiece& b) { return a.length < b.length; });
  longest->length.tenths_mm = std::max<std::int64_t>(1, longest->length.tenths_mm + more);
}

Money price_of_change(const Bundle& bundle, const BundleChange& change) {
  const BundleContent& content = bundle.contents[change.content];
  if (change.swap < 0) return -(content.leave_out.value_or(Money{}) * change.times);
  const std::int64_t units = content.length.tenths_mm > 0 ? 1 : content.count;
  return content.swaps[change.swap].extra * units * change.times;
}

Money goods_of(const Catalog& catalog, const OrderLine& line) {
  if (line.bundle < 0) return price_of(catalog.items[line.item].packs[line.pack], line.count);
  const Bundle& bundle = catalog.bundles[line.bundle];
  Money goods = bundle.price * line.count;
  for (const BundleChange& change : line.changes) goods += price_of_change(bundle, change);
  return goods;
}

Leftover& leftover_of(Purchase& purchase, const BookItem& item) {
  for (Leftover& left : purchase.leftovers) {
    if (left.catalog == item.catalog && left.item == item.item) return left;
  }
  purchase.leftovers.push_back({item.catalog, item.item, 0});
  return purchase.leftovers.back();
}

// Parts go from what is left over to a need that lacks them, and back from one that has too many.
void share_out(const OfferBook& book, Purchase& purchase) {
  std::erase_if(purchase.supplies,
                [&](const Supply& s) { return s.need >= static_cast<int>(book.takeoff.needs.size()); });
  std::vector<std::int64_t> lacking;
  for (const Need& need : book.takeoff.needs) lacking.push_back(need.amount);
  for (const Supply& supply : purchase.supplies) lacking[supply.need] -= supply.amount;
  for (Supply& supply : purchase.supplies) {
    const std::int64_t given = std::min(supply.amount, std::max<std::int64_t>(0, -lacking[supply.need]));
    if (given == 0) continue;
    supply.amount -= given;
    lacking[supply.need] += given;
    leftover_of(purchase, book.items[supply.item]).amount += given;
  }
  std::erase_if(purchase.supplies, [](const Supply& supply) { return supply.amount == 0; });
  for (const Serving& serving : book.servings) {
    if (lacking[serving.need] <= 0) continue;
    Leftover& left = leftover_of(purchase, book.items[serving.item]);
    const std::int64_t taken = std::min(left.amount, lacking[serving.need]);
    if (taken <= 0) continue;
    left.amount -= taken;
    lacking[serving.need] -= taken;
    const auto same = std::find_if(purchase.supplies.begin(), purchase.supplies.end(),
                                   [&](const Supply& s) { return s.need == serving.need && s.item == serving.item; });
    if (same != purchase.supplies.end()) {
      same->amount += taken;
    } else {
      purchase.supplies.push_back({serving.need, serving.item, taken});
    }
  }
  std::erase_if(purchase.leftovers, [](const Leftover& left) { return left.amount == 0; });
}

std::int64_t copies_of(const Purchase& purchase, const Offer& offer) {
  for (const SupplierOrder& order : purchase.orders) {
    for (const OrderLine& line : order.lines) {
      if (line.catalog == offer.catalog && line.bundle >= 0 && line.bundle == offer.bundle) return line.count;
    }
  }
  return 0;
}

// Tokens of another book are dropped, those of this one come with the bundles bought.
void set_tokens(const Variant& variant, Purchase& purchase) {
  const OfferBook& book = variant.book;
  const auto is_token = [&](const Leftover& left) {
    return left.item >= static_cast<int>(book.catalogs[left.catalog]->items.size());
  };
  std::erase_if(purchase.leftovers, is_token);
  std::erase_if(purchase.supplies, [&](const Supply& s) { return s.item >= static_cast<int>(book.items.size()); });
  if (!variant.forced) return;
  const BookItem& token = book.items[variant.token];
  std::erase_if(purchase.leftovers,
                [&](const Leftover& l) { return l.catalog == token.catalog && l.item == token.item; });
  std::erase_if(purchase.supplies, [&](const Supply& s) { return s.item == variant.token; });
  const std::int64_t copies = copies_of(purchase, variant.forced->offer);
  if (copies > 0) purchase.leftovers.push_back({token.catalog, token.item, copies});
}

bool leaves_out_too_much(const OfferBook& book, const Purchase& purchase) {
  for (const SupplierOrder& order : purchase.orders) {
    for (const OrderLine& line : order.lines) {
      if (line.bundle < 0) continue;
      const Bundle& bundle = book.catalogs[line.catalog]->bundles[line.bundle];
      const bool leaves_out = std::any_of(line.changes.begin(), line.changes.end(),
                                          [](const BundleChange& change) { return change.swap < 0; });
      if (leaves_out && bundle.price < credits_of(bundle)) return true;
    }
  }
  return false;
}

}  // namespace

Money credits_of(const Bundle& bundle) {
  Money credits;
  for (const BundleContent& content : bundle.contents) credits += content.leave_out.value_or(Money{});
  return credits;
}

std::string key_of(const Question& question) {
  const BuyLimits& limits = question.limits;
  std::vector<std::string> avoid = limits.avoid_suppliers, barred;
  std::sort(avoid.begin(), avoid.end());
  for (const Offer& offer : question.barred) barred.push_back(text_of(offer));
  std::sort(barred.begin(), barred.end());
  std::string key =
      fmt::format("only {} avoid {} most {} loose {} bar {}", fmt::join(limits.only_suppliers, ","),
                  fmt::join(avoid, ","), limits.most_suppliers.value_or(0), limits.no_bundles, fmt::join(barred, ","));
  if (question.moved) key += fmt::format(" move {} {}", text_of(question.moved->offer), question.moved->by.minor);
  if (question.forced) {
    key += fmt::format(" force {} {} {}", text_of(question.forced->offer), question.forced->least,
                       question.forced->most.value_or(-1));
  }
  for (const auto& [need, amount] : question.amounts) key += fmt::format(" need {} {}", need, amount);
  return key;
}

Variant variant_of(const OfferBook& book, const Question& question) {
  Variant variant{book, question.limits, std::nullopt, -1};
  std::vector<std::shared_ptr<Catalog>> changed(book.catalogs.size());
  const auto catalog = [&](int c) -> Catalog& {
    if (!changed[c]) changed[c] = std::make_shared<Catalog>(*book.catalogs[c]);
    return *changed[c];
  };
  for (const Offer& offer : question.barred) bar(catalog(offer.catalog), offer);
  if (question.moved) move_price(catalog(question.moved->offer.catalog), *question.moved);
  if (question.forced) force(catalog(question.forced->offer.catalog), *question.forced, variant);
  for (const auto& [need, amount] : question.amounts) set_amount(variant.book.takeoff.needs[need], amount);
  for (std::size_t c = 0; c < changed.size(); ++c) {
    if (changed[c]) variant.book.catalogs[c] = changed[c];
  }
  return variant;
}

void price_anew(const OfferBook& book, Purchase& purchase) {
  purchase.total = {};
  for (SupplierOrder& order : purchase.orders) {
    const Catalog& catalog = *book.catalogs[order.catalog];
    Money goods;
    for (OrderLine& line : order.lines) goods += line.goods = goods_of(catalog, line);
    order.cost = landed_cost(catalog.terms, goods);
    purchase.total += order.cost.total;
  }
  purchase.proof.cost = purchase.total;
}

std::optional<Purchase> fitted(const Variant& variant, Purchase purchase) {
  if (purchase.outcome != Outcome::bought) return std::nullopt;
  if (leaves_out_too_much(variant.book, purchase)) return std::nullopt;
  price_anew(variant.book, purchase);
  purchase.proof.lower_bound = {};  // what bounded another question says nothing of this one
  purchase.proof.proven = purchase.proof.ties_settled = false;
  set_tokens(variant, purchase);
  share_out(variant.book, purchase);
  if (!audit(variant.book, variant.limits, purchase).empty()) return std::nullopt;
  return purchase;
}

}  // namespace teetally
