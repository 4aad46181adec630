#include "catalog/catalog_checks.h"

namespace teetally {

namespace {

constexpr Percent kWhole{1'000'000};

// Steps that do not rise are ambiguous: two would hold at once, or one never.
template <typename Step>
void check_rising(const std::vector<Step>& steps, const std::string& what, Diagnostics& diagnostics) {
  for (std::size_t i = 1; i < steps.size(); ++i) {
    if (steps[i].from > steps[i - 1].from) continue;
    diagnostics.error("catalog/steps-not-rising", steps[i].place,
                      what + ": 'from' must be higher than in the step before");
  }
}

void check_percent(Percent percent, const Place& place, const std::string& what, Diagnostics& diagnostics) {
  if (percent <= kWhole) return;
  diagnostics.error("catalog/percent-too-high", place, what + " is at most 100 %, found " + to_string(percent));
}

}  // namespace

void check_terms(const OrderingTerms& terms, Diagnostics& diagnostics) {
  check_rising(terms.shipping, "shipping steps", diagnostics);
  check_rising(terms.discounts, "discount steps", diagnostics);
  if (!terms.shipping.empty() && terms.shipping.front().from != Money{}) {
    diagnostics
        .error("catalog/shipping-from-zero", terms.shipping.front().place,
               "the first shipping step must be from 0, so that every order has a fee")
        .help = "add {from: 0, fee: ...}; to refuse small orders use 'minimum order'";
  }
  for (std::size_t i = 0; i < terms.discounts.size(); ++i) {
    check_percent(terms.discounts[i].percent, terms.discounts[i].place, "a discount", diagnostics);
    if (i > 0 && terms.discounts[i].from > terms.discounts[i - 1].from &&
        terms.discounts[i].percent < terms.discounts[i - 1].percent) {
      diagnostics.warning("catalog/discount-falls", terms.discounts[i].place,
                          "a larger order gets a smaller discount than in the step before");
    }
  }
  check_percent(terms.tax, terms.place, "tax", diagnostics);
}

}  // namespace teetally
