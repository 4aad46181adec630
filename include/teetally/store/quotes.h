#pragma once
// Quotes as they were sent. Each has a number and revisions 1, 2, ...; a revision is kept whole, with its costs and
// its order, and is never changed. What the customer said to one is kept beside it.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "teetally/quote/again.h"
#include "teetally/store.h"

namespace teetally {

// Both give the copy its number and revision.
void keep_quote(Store& store, Quote& quote, const std::vector<OrderedFrom>& orders);
// A further revision of a quote; store/no-quote where there is none of that number, store/another-currency; where
// it is for somebody else, the warning store/another-customer.
void revise_quote(Store& store, std::int64_t number, Quote& quote, const std::vector<OrderedFrom>& orders,
                  Diagnostics& diagnostics);

enum class QuoteState { open, accepted, withdrawn };
std::string to_text(QuoteState state);

// The latest revision of a quote, and how its revisions stand.
struct QuoteStanding {
  std::int64_t number = 0, revision = 0;
  std::string made_on, customer, name;
  std::optional<std::string> valid_until;
  Currency currency;
  Money total;
  QuoteState state = QuoteState::open;
  std::string since;                     // the day, where it is not open
  std::optional<std::int64_t> accepted;  // the latest revision accepted
};
std::vector<QuoteStanding> list_quotes(const Store& store);  // by number

struct KeptQuote {
  Quote quote;
  std::vector<OrderedFrom> orders;
  QuoteState state = QuoteState::open;  // of this revision
  std::string since;
  std::optional<std::int64_t> accepted;  // the latest revision accepted, this one or another
};
// Without `revision` the latest. store/no-quote, store/no-revision.
std::optional<KeptQuote> read_quote(const Store& store, std::int64_t number, std::optional<std::int64_t> revision,
                                    Diagnostics& diagnostics);

// The customer's answer to a revision (the latest where none is given), once: store/quote-settled, and not before the
// revision was made: store/answered-too-early. Accepting after the prices' last day is the warning store/prices-lapsed.
void settle_quote(Store& store, std::int64_t number, std::optional<std::int64_t> revision, QuoteState state,
                  const std::string& day, Diagnostics& diagnostics);

}  // namespace teetally
