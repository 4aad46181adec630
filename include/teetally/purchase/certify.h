#pragma once
// A Purchase becomes a Certificate that verify() can follow without trusting the engine: the question as the offers put
// it, the order, and cases with prices that show how low any order's cost can be. They are found anew here, from
// the order's cost alone; what is found is only ever as good as verify()'s own bound of it. When the cases would be
// too many, the certificate carries those it has, and their bound stays below the cost.
#include "teetally/purchase.h"
#include "teetally/verify.h"
#include "teetally/verify/bound.h"

namespace teetally {

OrderQuestion question_of(const OfferBook& book, const BuyLimits& limits);

struct CertifyWishes {
  double seconds = 30;
  std::size_t most_cases = 2'000;
  StopFlag stop = nullptr;  // once set, the search ends as if its time were up
};
struct CertifySearch {
  StatedBound bound;
  std::size_t cases = 0;
};
// `cost` in minor units, of an order known.
CertifySearch find_cases(const Market& market, std::int64_t cost, const CertifyWishes& wishes);
// Of a purchase with the outcome `bought`.
Certificate certify(const OfferBook& book, const BuyLimits& limits, const Purchase& purchase,
                    const CertifyWishes& wishes);

}  // namespace teetally
