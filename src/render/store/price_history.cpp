#include "render/json_parts.h"
#include "teetally/render/store.h"

namespace teetally {
namespace {

constexpr auto kRight = Column::Side::right;

std::string way_words(const PriceHistory& history, UnitSystem units) {
  std::string words;
  if (history.bundle) {
    words = "bundle";
  } else if (history.length.tenths_mm > 0) {
    words = to_text(history.length, units);
  } else {
    words = history.pieces == 1 ? "one piece" : "pack of " + std::to_string(history.pieces);
  }
  return history.from == 1 ? words : words + ", from " + std::to_string(history.from) + " packs on";
}

std::string price_words(const std::optional<Money>& price, const Currency& currency) {
  return price ? to_text(*price, currency) : "not listed";
}

// The change against the last price known before, where there is one: "+0.20".
std::string change_words(const PriceHistory& history, std::size_t period) {
  const auto& price = history.periods[period].price;
  if (!price) return {};
  for (std::size_t before = period; before-- > 0;) {
    const auto& earlier = history.periods[before].price;
    if (!earlier) continue;
    const Money change = *price - *earlier;
    if (change.minor == 0) return {};
    return (change.minor > 0 ? "+" : "") + to_text(change, history.currency);
  }
  return {};
}

std::string one_text(const PriceHistory& history, const Page& page) {
  TextTable table{{{"From"}, {"Last seen"}, {history.currency.code, kRight}, {"Change", kRight}}, {}};
  for (std::size_t i = 0; i < history.periods.size(); ++i) {
    const PricePeriod& period = history.periods[i];
    table.rows.push_back(
        {period.first_day, period.last_day, price_words(period.price, history.currency), change_words(history, i)});
  }
  const std::string name = history.name.empty() ? std::string() : " " + history.name;
  return wrapped(
             printable(history.sku + name + ", " + way_words(history, page.units) + ", at " + history.supplier_name),
             page.width) +
         laid_out(table, page.width, 2);
}

}  // namespace

std::string price_history_text(const std::vector<PriceHistory>& histories, const Page& page) {
  std::string out;
  for (const PriceHistory& history : histories) out += (out.empty() ? "" : "\n") + one_text(history, page);
  return out;
}

Json price_history_document(const std::vector<PriceHistory>& histories, UnitSystem units) {
  Json all = Json::array();
  for (const PriceHistory& history : histories) {
    Json periods = Json::array();
    for (const PricePeriod& period : history.periods) {
      periods.push(Json::object()
                       .set("from", period.first_day)
                       .set("last_seen", period.last_day)
                       .set("price", period.price ? Json(to_string(*period.price, history.currency)) : Json()));
    }
    all.push(Json::object()
                 .set("supplier", history.supplier)
                 .set("supplier_name", history.supplier_name)
                 .set("sku", history.sku)
                 .set("name", history.name)
                 .set("sold_as", way_words(history, units))
                 .set("from_packs", history.from)
                 .set("currency", history.currency.code)
                 .set("periods", std::move(periods)));
  }
  return Json::object().set("document", "teetally/price-history").set("version", 1).set("histories", std::move(all));
}

std::string price_history_csv(const std::vector<PriceHistory>& histories, UnitSystem units) {
  std::string out = csv_row({"supplier", "sku", "name", "sold as", "from", "last seen", "price", "currency"});
  for (const PriceHistory& history : histories) {
    for (const PricePeriod& period : history.periods) {
      out += csv_row({history.supplier, history.sku, history.name, way_words(history, units), period.first_day,
                      period.last_day, period.price ? to_string(*period.price, history.currency) : "",
                      history.currency.code});
    }
  }
  return out;
}

}  // namespace teetally
