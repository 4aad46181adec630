#include "render/json_parts.h"
#include "teetally/render/store.h"

namespace teetally {
namespace {

std::string standing_words(const QuoteStanding& quote) {
  std::string words = to_text(quote.state);
  if (quote.state != QuoteState::open) words += " " + quote.since;
  if (quote.accepted && *quote.accepted != quote.revision) {
    words += "; revision " + std::to_string(*quote.accepted) + " accepted";
  }
  return words;
}

}  // namespace

std::string quotes_text(const std::vector<QuoteStanding>& quotes, const Page& page) {
  if (quotes.empty()) return "No quotes are kept yet.\n";
  TextTable table{{{"Quote", Column::Side::right},
                   {"Revision", Column::Side::right},
                   {"Date"},
                   {"For"},
                   {"What", Column::Side::left, true},
                   {"Total", Column::Side::right},
                   {""},
                   {"State"}},
                  {}};
  for (const QuoteStanding& quote : quotes) {
    table.rows.push_back({std::to_string(quote.number), std::to_string(quote.revision), quote.made_on,
                          printable(quote.customer), printable(quote.name), to_text(quote.total, quote.currency),
                          quote.currency.code, standing_words(quote)});
  }
  return laid_out(table, page.width, 0);
}

Json quotes_document(const std::vector<QuoteStanding>& quotes) {
  Json all = Json::array();
  for (const QuoteStanding& quote : quotes) {
    all.push(Json::object()
                 .set("number", quote.number)
                 .set("revision", quote.revision)
                 .set("made_on", quote.made_on)
                 .set("valid_until", quote.valid_until ? Json(*quote.valid_until) : Json())
                 .set("customer", quote.customer)
                 .set("name", quote.name)
                 .set("currency", quote.currency.code)
                 .set("total", to_string(quote.total, quote.currency))
                 .set("state", to_text(quote.state))
                 .set("since", quote.since.empty() ? Json() : Json(quote.since))
                 .set("accepted_revision", quote.accepted ? Json(*quote.accepted) : Json()));
  }
  return Json::object().set("document", "teetally/quotes").set("version", 1).set("quotes", std::move(all));
}

std::string quotes_csv(const std::vector<QuoteStanding>& quotes) {
  std::string out = csv_row({"quote", "revision", "date", "customer", "name", "total", "currency", "state", "since"});
  for (const QuoteStanding& quote : quotes) {
    out += csv_row({std::to_string(quote.number), std::to_string(quote.revision), quote.made_on, quote.customer,
                    quote.name, to_string(quote.total, quote.currency), quote.currency.code, to_text(quote.state),
                    quote.since});
  }
  return out;
}

}  // namespace teetally
