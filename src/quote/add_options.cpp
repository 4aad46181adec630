#include <algorithm>

#include "quote/wide.h"
#include "teetally/quote.h"

namespace teetally {
namespace {

constexpr std::int64_t kWhole = 1'000'000;  // 100 %
constexpr std::int64_t kHundredth = 100;    // of a percent

Quote quote_of(const JobOption& option, const QuoteInput& input, const Alternative* alternative) {
  Job job = input.job;
  if (option.allowance) job.equipment.push_back({"allowance: " + option.name, *option.allowance});
  if (alternative == nullptr)
    return make_quote({input.book, input.purchase, job, input.today, input.units, input.beds});
  return make_quote({alternative->book, alternative->purchase, job, input.today, input.units, alternative->beds});
}

Percent share_of_price(Money profit, Money price) {
  if (price.minor <= 0) return {};
  const Wide whole = static_cast<Wide>(price.minor) * kHundredth;
  return {static_cast<std::int64_t>((static_cast<Wide>(profit.minor) * kWhole * 2 + whole) / (whole * 2)) * kHundredth};
}

void add_option(Quote& quote, const JobOption& option, const Quote& of_option) {
  const CustomerCopy& copy = of_option.copy;
  quote.copy.options.push_back({option.name, option.differs, copy.price, copy.tax, copy.total});
  const Money profit = of_option.costs.profit;
  quote.costs.options.push_back({option.name, copy.price - profit, profit, share_of_price(profit, copy.price)});
  if (copy.valid_until && (!quote.copy.valid_until || *copy.valid_until < *quote.copy.valid_until)) {
    quote.copy.valid_until = copy.valid_until;
  }
  std::vector<std::string>& cautions = quote.copy.cautions;
  for (const std::string& caution : copy.cautions) {
    if (std::find(cautions.begin(), cautions.end(), caution) == cautions.end()) cautions.push_back(caution);
  }
}

}  // namespace

void add_options(Quote& quote, const QuoteInput& input, const std::vector<Alternative>& alternatives) {
  std::size_t next = 0;
  for (const JobOption& option : input.job.options) {
    const Alternative* alternative = option.is_quoted_design() ? nullptr : &alternatives.at(next++);
    add_option(quote, option, quote_of(option, input, alternative));
  }
}

}  // namespace teetally
