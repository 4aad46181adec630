#include "render/json_parts.h"
#include "render/phrases.h"
#include "render/quote/words.h"
#include "teetally/render/store.h"

namespace teetally {
namespace {

constexpr auto kRight = Column::Side::right;

// The sections that count, then the sums.
std::vector<ChangedAmount> amounts_of(const QuoteChange& change) {
  std::vector<ChangedAmount> amounts;
  for (const ChangedAmount& section : change.sections) {
    if (section.before.minor != 0 || section.after.minor != 0) amounts.push_back(section);
  }
  const CustomerCopy& after = change.after;
  if (!after.tax_words.empty() || change.tax_before.minor != 0) {
    amounts.push_back({"Price before tax", change.price_before, after.price});
    amounts.push_back({after.tax_words.empty() ? "Tax" : after.tax_words, change.tax_before, after.tax});
  }
  amounts.push_back({"Total", change.total_before, after.total});
  return amounts;
}

std::string signed_text(Money change, const Currency& currency) {
  if (change.minor == 0) return "-";
  return (change.minor > 0 ? "+" : "") + to_text(change, currency);
}

std::string amounts_text(const QuoteChange& change, const Page& page) {
  const Currency& currency = change.after.currency;
  TextTable table{{{"", Column::Side::left, true}, {"Before", kRight}, {"Now", kRight}, {"Change", kRight}}, {}};
  for (const ChangedAmount& amount : amounts_of(change)) {
    table.rows.push_back({amount.what, to_text(amount.before, currency), to_text(amount.after, currency),
                          signed_text(amount.after - amount.before, currency)});
  }
  return heading("Price in " + currency.code) + laid_out(table, page.width, 2);
}

std::string parts_text(const QuoteChange& change, const Page& page) {
  if (change.parts.empty()) return heading("What is supplied") + "  stays as it was\n";
  TextTable table{{{"Part", Column::Side::left, true}, {"Before", kRight}, {"Now", kRight}}, {}};
  const auto amount = [](const std::string& text) { return text.empty() ? "none" : printable(text); };
  for (const ChangedPart& part : change.parts) {
    table.rows.push_back({printable(part.what), amount(part.before), amount(part.after)});
  }
  return heading("What is supplied otherwise") + laid_out(table, page.width, 2);
}

std::string options_text(const QuoteChange& change, const Page& page) {
  if (change.options.empty()) return {};
  const Currency& currency = change.after.currency;
  TextTable table{{{"", Column::Side::left, true}, {"Before", kRight}, {"Now", kRight}, {"Change", kRight}}, {}};
  const auto total = [&](const std::optional<Money>& money) { return money ? to_text(*money, currency) : "none"; };
  for (const ChangedOption& option : change.options) {
    const bool both = option.before && option.after;
    table.rows.push_back({printable(option.name), total(option.before), total(option.after),
                          both ? signed_text(*option.after - *option.before, currency) : ""});
  }
  return heading("Options, total in " + currency.code) + laid_out(table, page.width, 2);
}

std::string list_text(const std::string& title, const std::vector<std::string>& texts, const Page& page) {
  std::string out;
  for (const std::string& text : texts) out += wrapped("- " + printable(text), page.width, 2, 4);
  return out.empty() ? out : heading(title) + out;
}

}  // namespace

std::string quote_change_text(const QuoteChange& change, const Page& page) {
  const CustomerCopy& after = change.after;
  std::string out = title_line(after.name, "Quote");
  out += "Quote " + std::to_string(after.number) + ": change from revision " + std::to_string(change.revision_before) +
         " to revision " + std::to_string(after.revision) + "\n";
  out += fact_text("From", after.business, page);
  out += fact_text("For", after.customer, page);
  out += fact_text("Site", after.site, page);
  out += fact_text("Scope", after.scope, page);
  out += fact_text("Date", after.made_on, page);
  if (after.valid_until) out += fact_text("Prices hold until", *after.valid_until, page);
  return out + amounts_text(change, page) + options_text(change, page) + parts_text(change, page) +
         list_text("Not included any more", change.exclusions_new, page) +
         list_text("Included now", change.exclusions_gone, page) + cautions_text(after.cautions, page);
}

Json quote_change_document(const QuoteChange& change) {
  const CustomerCopy& after = change.after;
  Json amounts = Json::array(), parts = Json::array();
  for (const ChangedAmount& amount : amounts_of(change)) {
    amounts.push(Json::object()
                     .set("what", amount.what)
                     .set("before", to_string(amount.before, after.currency))
                     .set("now", to_string(amount.after, after.currency)));
  }
  for (const ChangedPart& part : change.parts) {
    parts.push(Json::object().set("what", part.what).set("before", part.before).set("now", part.after));
  }
  Json options = Json::array();
  const auto total = [&](const std::optional<Money>& money) {
    return money ? Json(to_string(*money, after.currency)) : Json();
  };
  for (const ChangedOption& option : change.options) {
    options.push(
        Json::object().set("name", option.name).set("before", total(option.before)).set("now", total(option.after)));
  }
  Json json = document_start("teetally/quote-change", after.name);
  json.set("number", after.number).set("revision_before", change.revision_before).set("revision", after.revision);
  json.set("from", after.business).set("customer", after.customer).set("site", after.site).set("scope", after.scope);
  json.set("made_on", after.made_on).set("currency", after.currency.code).set("amounts", std::move(amounts));
  json.set("options", std::move(options));
  json.set("parts", std::move(parts)).set("included_now", words_json(change.exclusions_gone));
  return json.set("excluded_now", words_json(change.exclusions_new)).set("cautions", words_json(after.cautions));
}

std::string quote_change_csv(const QuoteChange& change) {
  const Currency& currency = change.after.currency;
  std::string out = csv_row({"what", "before", "now", "currency"});
  for (const ChangedAmount& amount : amounts_of(change)) {
    out += csv_row({amount.what, to_string(amount.before, currency), to_string(amount.after, currency), currency.code});
  }
  const auto total = [&](const std::optional<Money>& money) { return money ? to_string(*money, currency) : ""; };
  for (const ChangedOption& option : change.options) {
    out += csv_row({"option " + option.name, total(option.before), total(option.after), currency.code});
  }
  return out;
}

}  // namespace teetally
