#include "render/json_parts.h"
#include "render/phrases.h"
#include "teetally/render/store.h"

namespace teetally {
namespace {

constexpr auto kRight = Column::Side::right;

std::string price_text(const std::optional<Money>& price, const Currency& currency) {
  return price ? to_text(*price, currency) : std::string();
}

std::string section(const std::string& title, const std::vector<ListedPrice>& prices, const Currency& currency,
                    const Page& page) {
  if (prices.empty()) return {};
  TextTable table{{{"Sku"}, {"Name", Column::Side::left, true}, {"Before", kRight}, {"Now", kRight}}, {}};
  for (const ListedPrice& one : prices) {
    table.rows.push_back(
        {printable(one.sku), printable(one.name), price_text(one.before, currency), price_text(one.after, currency)});
  }
  return heading(title) + laid_out(table, page.width, 2);
}

std::string n(std::size_t size) { return std::to_string(size); }

Json prices_json(const std::vector<ListedPrice>& prices, const Currency& currency) {
  Json all = Json::array();
  for (const ListedPrice& one : prices) {
    all.push(Json::object()
                 .set("sku", one.sku)
                 .set("name", one.name)
                 .set("before", one.before ? Json(to_string(*one.before, currency)) : Json())
                 .set("now", one.after ? Json(to_string(*one.after, currency)) : Json()));
  }
  return all;
}

}  // namespace

std::string price_list_text(const PriceListReport& report, const Page& page) {
  std::string out = wrapped(printable(report.name) + " (" + printable(report.supplier) + "), " + report.currency.code +
                                ": " + n(report.dearer.size()) + " dearer, " + n(report.cheaper.size()) + " cheaper, " +
                                std::to_string(report.same) + " the same; " + n(report.fresh.size()) +
                                " new in the list, " + n(report.gone.size()) + " no longer in it",
                            page.width);
  out += section("Dearer", report.dearer, report.currency, page);
  out += section("Cheaper", report.cheaper, report.currency, page);
  out += section("New in the list, and not in the catalog: add what you want", report.fresh, report.currency, page);
  out += section("No longer in the list, and still in the catalog", report.gone, report.currency, page);
  return out;
}

Json price_list_document(const PriceListReport& report) {
  return Json::object()
      .set("document", "teetally/price-list")
      .set("version", 1)
      .set("supplier", report.supplier)
      .set("name", report.name)
      .set("currency", report.currency.code)
      .set("dearer", prices_json(report.dearer, report.currency))
      .set("cheaper", prices_json(report.cheaper, report.currency))
      .set("new", prices_json(report.fresh, report.currency))
      .set("gone", prices_json(report.gone, report.currency))
      .set("same", report.same);
}

std::string price_list_csv(const PriceListReport& report) {
  std::string out = csv_row({"change", "sku", "name", "before", "now", "currency"});
  const auto add = [&](const std::string& change, const std::vector<ListedPrice>& prices) {
    for (const ListedPrice& one : prices) {
      out += csv_row({change, one.sku, one.name, one.before ? to_string(*one.before, report.currency) : "",
                      one.after ? to_string(*one.after, report.currency) : "", report.currency.code});
    }
  };
  add("dearer", report.dearer);
  add("cheaper", report.cheaper);
  add("new", report.fresh);
  add("gone", report.gone);
  return out;
}

}  // namespace teetally
