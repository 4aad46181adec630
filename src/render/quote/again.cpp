#include "render/json_parts.h"
#include "render/phrases.h"
#include "teetally/render/store.h"

namespace teetally {
namespace {

constexpr auto kRight = Column::Side::right;

std::string change_words(Money then, const std::optional<Money>& now, const Currency& currency) {
  if (!now) return {};
  const Money change = *now - then;
  if (change.minor == 0) return "-";
  return (change.minor > 0 ? "+" : "") + to_text(change, currency);
}

Row money_row(const std::string& what, Money then, const std::optional<Money>& now, const Currency& currency) {
  return {
      "", what, "", to_text(then, currency), now ? to_text(*now, currency) : "?", change_words(then, now, currency)};
}

void add_terms(const RepricedOrder& order, const Currency& currency, TextTable& table) {
  const auto add = [&](const std::string& what, Money then, Money now) {
    const std::optional<Money> known = order.now ? std::optional<Money>(now) : std::nullopt;
    if (then.minor != 0 || (known && known->minor != 0)) table.rows.push_back(money_row(what, then, known, currency));
  };
  const OrderCost now = order.now.value_or(OrderCost{});
  add("discount", -order.then.discount, -now.discount);
  add("shipping", order.then.shipping, now.shipping);
  add("small-order fee", order.then.small_order_fee, now.small_order_fee);
  add("tax", order.then.tax, now.tax);
}

std::string order_text(const RepricedOrder& order, const Currency& currency, const Page& page) {
  TextTable table{{{"Sku"},
                   {"What", Column::Side::left, true},
                   {"Count", kRight},
                   {"Then", kRight},
                   {"Now", kRight},
                   {"Change", kRight}},
                  {}};
  std::string notes;
  for (const RepricedLine& line : order.lines) {
    table.rows.push_back({printable(line.line.sku), printable(line.line.what), std::to_string(line.line.count),
                          to_text(line.line.goods, currency), line.now ? to_text(*line.now, currency) : "?",
                          change_words(line.line.goods, line.now, currency)});
    if (!line.why.empty()) notes += wrapped("- " + printable(line.line.sku) + ": " + line.why, page.width, 2, 4);
  }
  add_terms(order, currency, table);
  table.rows.push_back(money_row("total " + currency.code, order.then.total,
                                 order.now ? std::optional<Money>(order.now->total) : std::nullopt, currency));
  if (!order.why.empty()) notes += wrapped("- " + order.why, page.width, 2, 4);
  return heading("From " + printable(order.name)) + laid_out(table, page.width, 2) + notes;
}

// Only the order of the quoted design is kept.
std::string options_words(const CustomerCopy& copy) {
  if (copy.options.empty()) return {};
  std::vector<std::string> names;
  for (const QuotedOption& option : copy.options) names.push_back(printable(option.name));
  return "Not priced again: what the options would take (" + listed(names) +
         "), as only the order of the quoted design is kept. 'teetally quote' with the same job file buys them anew.";
}

std::string outcome(const Repriced& repriced, const Currency& currency) {
  const std::string then = currency.code + " " + to_text(repriced.then, currency);
  if (!repriced.now) {
    return "Materials and suppliers' terms were " + then + "; not every line has a price now, see below.";
  }
  const Money change = *repriced.now - repriced.then;
  const std::string now = currency.code + " " + to_text(*repriced.now, currency);
  if (change.minor == 0) return "Materials and suppliers' terms cost what they did: " + then + ".";
  return "Materials and suppliers' terms were " + then + " and are now " + now + ", " +
         to_text(change.minor > 0 ? change : -change, currency) + (change.minor > 0 ? " more." : " less.");
}

Json cost_json(const OrderCost& cost, const Currency& currency) {
  return Json::object()
      .set("goods", to_string(cost.goods, currency))
      .set("discount", to_string(cost.discount, currency))
      .set("shipping", to_string(cost.shipping, currency))
      .set("small_order_fee", to_string(cost.small_order_fee, currency))
      .set("tax", to_string(cost.tax, currency))
      .set("total", to_string(cost.total, currency));
}

Json order_json(const RepricedOrder& order, const Currency& currency) {
  Json lines = Json::array();
  for (const RepricedLine& line : order.lines) {
    lines.push(Json::object()
                   .set("sku", line.line.sku)
                   .set("what", line.line.what)
                   .set("count", line.line.count)
                   .set("then", to_string(line.line.goods, currency))
                   .set("now", line.now ? Json(to_string(*line.now, currency)) : Json())
                   .set("why", line.why));
  }
  return Json::object()
      .set("supplier", order.supplier)
      .set("name", order.name)
      .set("lines", std::move(lines))
      .set("then", cost_json(order.then, currency))
      .set("now", order.now ? cost_json(*order.now, currency) : Json())
      .set("why", order.why);
}

}  // namespace

std::string quote_again_text(const CustomerCopy& copy, const Repriced& repriced, const Page& page) {
  const std::string which = "Quote " + std::to_string(copy.number) + ", revision " + std::to_string(copy.revision) +
                            " of " + copy.made_on + ", at the prices of these catalogs (not for the customer)";
  std::string out = title_line(copy.name, "Quote") + wrapped(which, page.width) +
                    wrapped(outcome(repriced, copy.currency), page.width);
  for (const RepricedOrder& order : repriced.orders) out += order_text(order, copy.currency, page);
  const std::string options = options_words(copy);
  return options.empty() ? out : out + "\n" + wrapped(options, page.width);
}

Json quote_again_document(const CustomerCopy& copy, const Repriced& repriced) {
  Json orders = Json::array();
  for (const RepricedOrder& order : repriced.orders) orders.push(order_json(order, copy.currency));
  Json json = document_start("teetally/quote-again", copy.name);
  json.set("number", copy.number).set("revision", copy.revision).set("made_on", copy.made_on);
  json.set("currency", copy.currency.code).set("then", to_string(repriced.then, copy.currency));
  json.set("now", repriced.now ? Json(to_string(*repriced.now, copy.currency)) : Json());
  std::vector<std::string> options;
  for (const QuotedOption& option : copy.options) options.push_back(option.name);
  return json.set("orders", std::move(orders)).set("options_not_priced", words_json(options));
}

std::string quote_again_csv(const CustomerCopy& copy, const Repriced& repriced) {
  std::string out = csv_row({"supplier", "sku", "what", "count", "then", "now", "currency", "remark"});
  for (const RepricedOrder& order : repriced.orders) {
    for (const RepricedLine& line : order.lines) {
      out += csv_row({order.supplier, line.line.sku, line.line.what, std::to_string(line.line.count),
                      to_string(line.line.goods, copy.currency), line.now ? to_string(*line.now, copy.currency) : "",
                      copy.currency.code, line.why.empty() ? order.why : line.why});
    }
  }
  return out;
}

}  // namespace teetally
