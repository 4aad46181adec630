// The ways to buy side by side, as a page: what each costs and how that comes about, then what each takes.
#include <algorithm>

#include "render/compare/rows.h"
#include "render/compare/ways.h"
#include "render/page/pictures.h"
#include "render/page/template.h"
#include "render/page/values.h"

namespace teetally {
namespace {

Json rows_values(const std::vector<Row>& rows, const std::vector<std::string>& names) {
  Json list = Json::array();
  for (const Row& row : rows) {
    Json one = Json::object();
    for (std::size_t i = 0; i < names.size(); ++i) one.set(names[i], row[i]);
    list.push(std::move(one));
  }
  return list;
}

bool is_same_line(const OrderLine& a, const OrderLine& b) {
  const auto same_change = [](const BundleChange& x, const BundleChange& y) {
    return x.content == y.content && x.swap == y.swap && x.times == y.times;
  };
  return a.catalog == b.catalog && a.item == b.item && a.pack == b.pack && a.bundle == b.bundle && a.count == b.count &&
         std::equal(a.changes.begin(), a.changes.end(), b.changes.begin(), b.changes.end(), same_change);
}

bool is_same_order(const Purchase& a, const Purchase& b) {
  return std::equal(a.orders.begin(), a.orders.end(), b.orders.begin(), b.orders.end(),
                    [](const SupplierOrder& x, const SupplierOrder& y) {
                      return x.catalog == y.catalog &&
                             std::equal(x.lines.begin(), x.lines.end(), y.lines.begin(), y.lines.end(), is_same_line);
                    });
}

// The first way before this one that is the very same order; nothing when there is none.
std::string same_as(const std::vector<Way>& ways, std::size_t at) {
  const auto end = ways.begin() + static_cast<std::ptrdiff_t>(at);
  const auto found = std::find_if(ways.begin(), end, [&](const Way& way) {
    return way.purchase->outcome == Outcome::bought && is_same_order(*way.purchase, *ways[at].purchase);
  });
  return found == end ? std::string() : found->what;
}

Json way_values(const CompareView& view, const Way& way, Money most, UnitSystem units) {
  const Currency& currency = view.book.catalogs.front()->currency;
  const bool bought = way.purchase->outcome == Outcome::bought;
  const OrderCost cost = cost_of(*way.purchase);
  const auto money = [&](Money amount) { return bought ? to_text(amount, currency) : std::string(); };
  const bool cheapest = way.purchase == &view.comparison.best;
  Json values = Json::object();
  values.set("way", way.what).set("remark", way_remark(view, way));
  values.set("suppliers", bought ? suppliers_phrase(view.book, *way.purchase) : "");
  values.set("goods", money(cost.goods - cost.discount));
  values.set("delivery", money(cost.shipping + cost.small_order_fee)).set("tax", money(cost.tax));
  values.set("total", money(way.purchase->total));
  values.set("dearer", cheapest ? "" : money(way.purchase->total - view.comparison.best.total));
  values.set("bar", bought ? cost_bar(cost, most, currency) : "");
  values.set("verdict", way.verdict != nullptr ? verdict_phrase(view, *way.verdict) : "");
  values.set("changes", plain_texts(bought ? change_words(view, way, units) : std::vector<std::string>{}));
  values.set("order", plain_texts(bought ? added_words(view, way, units) : std::vector<std::string>{}));
  return values.set("left_over", plain_texts(bought ? left_words(view, way, units) : std::vector<std::string>{}));
}

Json ways_values(const CompareView& view, UnitSystem units) {
  Json list = Json::array();
  if (view.comparison.best.outcome != Outcome::bought) return list;
  const std::vector<Way> ways = ways_of(view);
  Money most;
  for (const Way& way : ways) {
    if (way.purchase->outcome == Outcome::bought) most = std::max(most, way.purchase->total);
  }
  for (std::size_t i = 0; i < ways.size(); ++i) {
    list.push(way_values(view, ways[i], most, units).set("same_as", same_as(ways, i)));
  }
  return list;
}

Json key_values() {
  Json list = Json::array();
  for (const BarPart& part : cost_bar_parts()) {
    list.push(Json::object().set("sample", part.sample).set("stands_for", std::string(part.words)));
  }
  return list;
}

// What --deep asks for besides: one entry, or none.
Json deep_values(const CompareView& view, UnitSystem units) {
  Json list = Json::array();
  if (view.comparison.lines.empty() && view.comparison.needs.empty()) return list;
  Json values = Json::object();
  values.set("orders", rows_values(plan_rows(view), {"order", "total"}));
  values.set("orders_end", plans_end_words(view));
  values.set("packs", rows_values(pack_rows(view, units), {"sku", "what", "rise"}));
  values.set("needs", rows_values(need_rows(view, units), {"need", "part", "one", "more", "fewer", "spares"}));
  return list.push(values.set("all_spares", all_spares_words(view)));
}

}  // namespace

Json comparison_page_values(const CompareView& view, UnitSystem units) {
  const bool bought = view.comparison.best.outcome == Outcome::bought;
  Json values = Json::object();
  values.set("name", page_title(view.book.takeoff.name, "Parts"));
  values.set("advice", bought ? advice_sentence(view) : "").set("no_order", no_comparison_words(view));
  values.set("currency", view.book.catalogs.front()->currency.code);
  values.set("key", key_values()).set("ways", ways_values(view, units)).set("idle_bundles", idle_bundles(view));
  values.set("fewer", rows_values(fewer_rows(view), {"suppliers", "costs"}));
  values.set("deep", deep_values(view, units));
  values.set("how", bought ? kHowCompared : "").set("grounds", plain_texts(view.comparison.rests_on));
  return values.set("cautions", plain_texts(view.book.takeoff.cautions));
}

std::string comparison_page(const CompareView& view, UnitSystem units, const OwnTemplates& own,
                            Diagnostics& diagnostics) {
  return fill_paper(Paper::comparison, comparison_page_values(view, units), own, diagnostics);
}

}  // namespace teetally
