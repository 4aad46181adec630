#include "teetally/render/verified.h"

#include <fmt/format.h>

#include "render/json_parts.h"

namespace teetally {
namespace {

std::string money(Money amount, const Currency& currency) { return to_text(amount, currency) + " " + currency.code; }

std::string cases_words(std::size_t cases) { return counted(static_cast<std::int64_t>(cases), "case"); }

// What is shown of the bound.
std::string bound_words(const Verified& verified, const Currency& currency) {
  if (verified.proven && verified.cases == 1) return "No order costs less: every order there is costs at least that.";
  if (verified.proven) {
    return fmt::format("No order costs less: {}, which together leave nothing out, each cost at least that.",
                       cases_words(verified.cases));
  }
  return fmt::format(
      "No order costs less than {}. Of {}, {} below the order's cost: whether some order costs less than this one, by "
      "up "
      "to {}, is not certified.",
      money(verified.at_least, currency), cases_words(verified.cases),
      verified.open == 1 ? "1 stays" : fmt::format("{} stay", verified.open),
      money(verified.cost - verified.at_least, currency));
}

std::string trust_words(const VerifiedView& view) {
  if (view.needs_checked) {
    return "Which needs there are, and which items serve them, was worked out anew from " + printable(view.needs_from) +
           ".";
  }
  return "On trust: which needs there are, and which items serve them. Name the design or parts list as well to have "
         "these worked out anew.";
}

constexpr const char* kCutWords =
    "Not looked at: whether the coils can be cut into the pieces that the needs ask for, as the certificate has no cut "
    "list; 'buy' checks that.";
constexpr const char* kJoinWords =
    "The coils can be cut into the pieces asked for. Where tubing is joined, its length was looked at, and not the "
    "couplings; 'buy' counts those.";

// What holds, and for what: without the design, the needs are only what the certificate says they are.
std::string headline(const VerifiedView& view) {
  if (!view.verified.proven) return "The certificate holds, and leaves open whether the order is the cheapest.";
  if (view.needs_checked) return "The certificate holds: no order for " + printable(view.needs_from) + " costs less.";
  return "The certificate holds: no order that brings what it says is needed costs less.";
}

std::string catalog_words(const VerifiedView& view) {
  if (view.changed_catalogs.empty()) return "by these catalogs";
  return "by these catalogs, of which " + printable(listed(view.changed_catalogs)) +
         (view.changed_catalogs.size() == 1 ? " is" : " are") + " not as when the certificate was made";
}

}  // namespace

std::string verified_text(const VerifiedView& view, const Page& page) {
  const Verified& verified = view.verified;
  std::string out = wrapped(headline(view), page.width) + "\n";
  out += wrapped(fmt::format("The order brings all that is needed and costs {} {}.",
                             money(verified.cost, view.currency), catalog_words(view)),
                 page.width);
  out += wrapped(bound_words(verified, view.currency), page.width);
  out += "\n" + wrapped(trust_words(view), page.width);
  if (verified.cut_unchecked) out += wrapped(kCutWords, page.width);
  if (verified.joins_unchecked) out += wrapped(kJoinWords, page.width);
  return out;
}

Json verified_document(const VerifiedView& view) {
  const Verified& verified = view.verified;
  Json json = Json::object();
  json.set("document", "teetally/verified").set("version", 1).set("currency", view.currency.code);
  json.set("cost", to_string(verified.cost, view.currency));
  json.set("at_least", to_string(verified.at_least, view.currency)).set("proven", verified.proven);
  json.set("cases", verified.cases).set("open_cases", verified.open);
  json.set("needs_worked_out_anew", view.needs_checked).set("cutting_checked", !verified.cut_unchecked);
  json.set("joins_checked", !verified.cut_unchecked && !verified.joins_unchecked);
  json.set("changed_catalogs", words_json(view.changed_catalogs));
  return json;
}

std::string written_text(const WrittenCertificate& written, const Page& page) {
  return "\n" +
         wrapped("Certificate in " + printable(written.file) + ": " + bound_words(written.verified, written.currency),
                 page.width);
}

Json written_document(const WrittenCertificate& written) {
  Json json = Json::object();
  json.set("file", written.file).set("at_least", to_string(written.verified.at_least, written.currency));
  return json.set("proven", written.verified.proven).set("cases", written.verified.cases);
}

}  // namespace teetally
