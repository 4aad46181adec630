#include "purchase/why/question.h"

#include <fmt/format.h>

#include <algorithm>

#include "purchase/cut/cutting.h"
#include "purchase/eased_terms.h"

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
void force(Catalog& catalog, const Offer& forced, Variant& variant) {
  Bundle& bundle = catalog.bundles[forced.bundle];
  if (!variant.limits.take_bundle && is_only_one(variant.book, bundle.sku)) {
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
  variant.book.items.push_back({forced.catalog, static_cast<int>(catalog.items.size()) - 1});
  Need need;
  need.id = bundle.sku;
  need.part.kind = "other";
  need.amount = 1;
  variant.book.servings.push_back({static_cast<int>(variant.book.takeoff.needs.size()), variant.token, {}, {}});
  variant.book.takeoff.needs.push_back(std::move(need));
}

// Tubing: what is added is a piece of its own; what is taken away comes off the longest pieces. The others stay as
// long as they are, allowance included.
void set_amount(Need& need, std::int64_t amount) {
  std::int64_t more = amount - need.amount;
  if (need.pieces.empty() || more == 0) {
    need.amount = amount;
    return;
  }
  const std::vector<std::int64_t> lengths = cut_lengths(need);
  need.amount = amount;
  for (std::size_t p = 0; p < lengths.size(); ++p) need.pieces[p].length.tenths_mm = lengths[p];
  if (more > 0) {
    const auto total =
        std::find_if(need.pieces.begin(), need.pieces.end(), [](const auto& piece) { return piece.any_cut; });
    if (total == need.pieces.end()) {
      need.pieces.push_back({Length{more}, "one more", true, false});
    } else {
      total->length.tenths_mm += more;
    }
  }
  while (more < 0) {
    const auto longest =
        std::max_element(need.pieces.begin(), need.pieces.end(),
                         [](const NeededPiece& a, const NeededPiece& b) { return a.length < b.length; });
    const std::int64_t off = std::min(-more, longest->length.tenths_mm);
    if (off <= 0) return;
    longest->length.tenths_mm -= off;
    more += off;
  }
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
  if (question.eased) key += fmt::format(" ease {} {}", question.eased->catalog, question.eased->by.minor);
  if (question.forced) key += " force " + text_of(*question.forced);
  if (question.cheaper) {
    key += fmt::format(" cheaper than {} with {}", question.cheaper->than.minor, text_of(question.cheaper->offer));
  }
  for (const auto& [need, amount] : question.amounts) key += fmt::format(" need {} {}", need, amount);
  return key;
}

Variant variant_of(const OfferBook& book, const Question& question) {
  Variant variant{book, question.limits, -1};
  std::vector<std::shared_ptr<Catalog>> changed(book.catalogs.size());
  const auto catalog = [&](int c) -> Catalog& {
    if (!changed[c]) changed[c] = std::make_shared<Catalog>(*book.catalogs[c]);
    return *changed[c];
  };
  for (const Offer& offer : question.barred) bar(catalog(offer.catalog), offer);
  if (question.moved) move_price(catalog(question.moved->offer.catalog), *question.moved);
  if (question.eased) {
    OrderingTerms& terms = catalog(question.eased->catalog).terms;
    terms = eased(terms, question.eased->by, question.eased->dearest);
  }
  if (question.forced) force(catalog(question.forced->catalog), *question.forced, variant);
  for (const auto& [need, amount] : question.amounts) set_amount(variant.book.takeoff.needs[need], amount);
  for (std::size_t c = 0; c < changed.size(); ++c) {
    if (changed[c]) variant.book.catalogs[c] = changed[c];
  }
  return variant;
}

}  // namespace teetally
