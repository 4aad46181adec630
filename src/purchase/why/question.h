#pragma once
// One "what if" about a purchase as a book of its own: offers taken off sale, one price moved, a bundle that must be
// bought so many times, other amounts needed. Engines know nothing of it: the changed book is bought as any other.
#include <string>
#include <utility>
#include <vector>

#include "teetally/purchase.h"

namespace teetally {

// A pack (item and pack) or a bundle of a catalog.
struct Offer {
  int catalog = -1, item = -1, pack = -1, bundle = -1;
  bool operator==(const Offer&) const = default;
};
struct MovedPrice {
  Offer offer;
  Money by;  // for packs: every step of the price
};
// The terms of a catalog as kind as they are to an order of these goods or of up to `by` more.
struct EasedTerms {
  int catalog = -1;
  Money by, dearest;  // `dearest`: no order of more goods matters
};

struct CheaperWith {
  Offer offer;
  Money than;
};

struct Question {
  BuyLimits limits;
  std::vector<Offer> barred;
  std::optional<MovedPrice> moved;
  std::optional<Offer> forced;  // a bundle: at least one of it
  std::optional<EasedTerms> eased;
  std::vector<std::pair<int, std::int64_t>> amounts;  // need, the amount it has instead
  // Any order that costs less will do, and as many as do not have this offer are known to be no cheaper.
  std::optional<CheaperWith> cheaper;
};
// The same text for the same question.
std::string key_of(const Question& question);

// The changed book. Where the limits cannot say that a bundle is forced, it gains a token as its last content, and a
// need for one token stands last.
struct Variant {
  OfferBook book;
  BuyLimits limits;
  int token = -1;  // index into OfferBook::items
};
Variant variant_of(const OfferBook& book, const Question& question);

// What leaving out everything that may be left out of a bundle takes off its price. No engine lets a bundle cost
// less than nothing so: while its price is below this, nothing may be left out.
Money credits_of(const Bundle& bundle);

}  // namespace teetally
