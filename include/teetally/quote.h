#pragma once
// A Purchase and a Job become a Quote: what the work costs whoever does it, and what the customer is asked to
// pay. All amounts are whole minor units; each total is rounded once, and printed lines add up to their totals.
// A CustomerCopy has no cost, supplier or profit in it at all, so that nothing made from one can show them.
// Figures are the user's: no rate, markup or productivity is shipped. File format: docs/quote.md.
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "teetally/base.h"
#include "teetally/offers.h"
#include "teetally/purchase.h"

namespace teetally {

// One row of the productivity table: so many hours for each piece or length of a kind, for each bed, or once.
struct LabourRow {
  std::string what;
  std::string kind;           // of part; empty: not per part
  Length per;                 // kinds cut by length: hours are for this much of it
  bool per_bed = false;       // neither kind nor bed: once for the job
  std::int64_t hours = 0;     // ten-thousandths of an hour
  std::optional<Money> rate;  // of an hour, where it is not the table's
  Place place;
};
struct Labour {
  Money rate;                         // of one person's hour
  std::int64_t time_factor = 10'000;  // ten-thousandths; table hours times this are hours worked
  std::vector<LabourRow> rows;
};

struct Charge {
  std::string what;
  Money cost;
};
struct Overhead {
  Percent percent;  // of materials, labour, equipment and delivery
  Money per_hour;   // for each hour of labour
  Money amount;     // once
};

// Markup is a share of the cost, margin a share of the price: price = cost / (1 - margin).
enum class ProfitRule { none, markup, margin };
enum class SurplusPolicy { charged, kept };  // who pays for what packs hold too much, and has it
enum class TaxBasis { none, materials, materials_and_labour, everything, absorbed };

struct PaymentTerm {
  std::string what;  // "Deposit"
  Percent percent;   // of the total
  std::optional<Money> at_most;
};

// Something else the customer may choose instead: another design or other values of its parameters, bought and priced
// by the same job; or a fixed allowance on top, for what is not decided yet. None of these: what is quoted itself.
struct JobOption {
  std::string name, differs;
  std::string design;                      // file, as it is named in the job; empty: the design quoted
  std::map<std::string, std::string> set;  // parameters
  std::optional<Money> allowance;          // a cost
  Place place;
  bool is_quoted_design() const { return design.empty() && set.empty(); }
};

struct Job {
  std::string business, customer, site, scope;
  Labour labour;
  std::optional<std::int64_t> beds;  // for rows of hours that are per bed
  std::vector<Charge> equipment, delivery;
  Overhead overhead;
  Percent contingency;  // of everything above
  ProfitRule profit_rule = ProfitRule::none;
  Percent profit;
  SurplusPolicy surplus = SurplusPolicy::charged;
  TaxBasis tax_basis = TaxBasis::none;
  Percent tax;
  bool for_resale = false;            // suppliers charge no tax
  std::vector<PaymentTerm> payments;  // in order; what is left falls due on completion
  std::vector<std::string> exclusions, cautions;
  std::vector<JobOption> options;
};

// Reads and checks a job file; money in it is in `currency`. Errors are diagnostics (quote/...) and no job. A job that
// has hours for each bed must say how many beds there are, unless they are counted elsewhere.
enum class Beds { not_counted, counted };
std::optional<Job> read_job(const Source& source, const Vocabulary& vocabulary, const Currency& currency, Beds beds,
                            Diagnostics& diagnostics);

enum class CostPart { material, supplier_terms, surplus, labour, equipment, delivery };
// Printed count times price is the cost, where a price is given.
struct CostLine {
  CostPart part = CostPart::material;
  std::string supplier, sku;  // materials
  std::string what;
  std::int64_t count = 1;      // packs; hundredths of an hour for labour
  std::optional<Money> price;  // of one pack, of one hour
  Money cost;
};
struct SuppliedPart {
  std::string what, amount;
};
// What the customer pays for one part of the work, its share of overhead and profit included.
struct PricedSection {
  std::string what;  // "Materials"
  Money price;
};
struct Payment {
  std::string what;
  Money amount;
};
struct QuotedOption {
  std::string name, differs;
  Money price, tax, total;
};

// What a customer may see.
struct CustomerCopy {
  std::int64_t number = 0, revision = 0;  // as kept in the store; 0: not kept
  std::string name, business, customer, site, scope;
  Currency currency;
  std::string made_on;                     // ISO date
  std::optional<std::string> valid_until;  // the earliest end among the catalogs bought from
  std::vector<SuppliedPart> parts;
  std::vector<PricedSection> sections;  // their sum is `price`
  Money price;                          // before tax
  std::string tax_words;                // "tax 8.25 % on materials"; empty: none is added
  Money tax;
  Money total;
  std::vector<Payment> payments;  // their sum is `total`
  std::vector<std::string> exclusions, cautions;
  std::vector<QuotedOption> options;  // in the order of the job
};

// What only the one who does the work sees: its lines add up to the direct costs, and
// price = direct + overhead + contingency + profit.
struct OptionCosts {
  std::string name;
  Money cost, profit;  // their sum is the option's price
  Percent margin;      // profit as a share of the price, to a hundredth of a percent
};
struct CostSheet {
  std::vector<CostLine> lines;
  Money materials, labour, equipment, delivery;
  Money overhead, contingency, profit;
  std::string profit_words;          // "markup 25 %"
  Money taxable;                     // what tax is taken on
  std::vector<std::string> notes;    // what was left out of the reckoning
  std::vector<OptionCosts> options;  // as those of the copy
};

struct Quote {
  CustomerCopy copy;
  CostSheet costs;
};

// `purchase` must be bought; `today` is an ISO date.
struct QuoteInput {
  const OfferBook& book;
  const Purchase& purchase;
  const Job& job;
  std::string today;
  UnitSystem units = UnitSystem::us;
  std::optional<std::int64_t> beds{};  // as counted; where the job says how many, that holds
};
Quote make_quote(const QuoteInput& input);

// What the options of the job come to, each priced like the quote. `alternatives` are the purchases of those that are
// not the quoted design, in the order of the job. The quote then holds no longer than any of them, and warns of all.
struct Alternative {
  const OfferBook& book;
  const Purchase& purchase;
  std::optional<std::int64_t> beds;
};
void add_options(Quote& quote, const QuoteInput& input, const std::vector<Alternative>& alternatives);

// Sums that the quote rests on, each rounded once, half a minor unit up.
Money price_with_margin(Money cost, Percent margin);  // margin below 100 %
// `total` in shares proportional to `weights`, which are not negative; the shares add up to `total`.
std::vector<Money> spread(Money total, const std::vector<Money>& weights);

}  // namespace teetally
