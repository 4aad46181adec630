#include <algorithm>

#include "teetally/quote/again.h"

namespace teetally {
namespace {

std::string amount_of(const CustomerCopy& copy, const std::string& what) {
  for (const SuppliedPart& part : copy.parts) {
    if (part.what == what) return part.amount;
  }
  return {};
}

Money price_of(const CustomerCopy& copy, const std::string& what) {
  for (const PricedSection& section : copy.sections) {
    if (section.what == what) return section.price;
  }
  return {};
}

std::optional<Money> total_of(const CustomerCopy& copy, const std::string& option) {
  for (const QuotedOption& each : copy.options) {
    if (each.name == option) return each.total;
  }
  return std::nullopt;
}

// As they are now, then those that are no more.
std::vector<ChangedOption> changed_options(const CustomerCopy& before, const CustomerCopy& after) {
  std::vector<ChangedOption> options;
  for (const QuotedOption& now : after.options) {
    options.push_back({now.name, total_of(before, now.name), now.total});
  }
  for (const QuotedOption& then : before.options) {
    if (!total_of(after, then.name)) options.push_back({then.name, then.total, std::nullopt});
  }
  return options;
}

std::vector<std::string> missing_in(const std::vector<std::string>& all, const std::vector<std::string>& other) {
  std::vector<std::string> missing;
  for (const std::string& one : all) {
    if (std::find(other.begin(), other.end(), one) == other.end()) missing.push_back(one);
  }
  return missing;
}

}  // namespace

QuoteChange change_between(const CustomerCopy& before, const CustomerCopy& after) {
  QuoteChange change;
  change.after = after;
  // As contractors' boards ask: the California board's list has extra work only by a written order that all have
  // signed.
  change.after.cautions.insert(
      change.after.cautions.begin(),
      "Agree to a change and its price in writing before the work is done; in some places both "
      "have to sign it.");
  change.revision_before = before.revision;
  for (const SuppliedPart& part : before.parts) {
    const std::string now = amount_of(after, part.what);
    if (now != part.amount) change.parts.push_back({part.what, part.amount, now});
  }
  for (const SuppliedPart& part : after.parts) {
    if (amount_of(before, part.what).empty()) change.parts.push_back({part.what, "", part.amount});
  }
  for (const PricedSection& section : after.sections) {
    change.sections.push_back({section.what, price_of(before, section.what), section.price});
  }
  change.price_before = before.price;
  change.tax_before = before.tax;
  change.total_before = before.total;
  change.options = changed_options(before, after);
  change.exclusions_gone = missing_in(before.exclusions, after.exclusions);
  change.exclusions_new = missing_in(after.exclusions, before.exclusions);
  return change;
}

}  // namespace teetally
