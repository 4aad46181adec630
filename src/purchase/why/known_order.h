#pragma once
// What one order costs as the price of one thing on offer moves, everything else in it as it is.
#include <cstdint>
#include <optional>

#include "purchase/why/question.h"

namespace teetally {

class KnownOrder {
 public:
  // `purchase` is priced as at the change `at`, in minor units.
  KnownOrder(const OfferBook& book, const Purchase& purchase, const Offer& offer, std::int64_t at);

  std::int64_t count() const { return count_; }  // of the offer
  bool leaves_parts_out() const { return leaves_out_; }
  // Nothing where the supplier would not deliver it, or where nothing in it is the offer's supplier's.
  std::optional<std::int64_t> cost_at(std::int64_t change) const;

 private:
  const OrderingTerms* terms_ = nullptr;
  std::int64_t others_ = 0, goods_ = 0, count_ = 0;
  bool leaves_out_ = false;
};

}  // namespace teetally
