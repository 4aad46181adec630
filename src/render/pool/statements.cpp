// The order for each supplier, and a statement for each member.
#include <fmt/format.h>

#include <algorithm>

#include "render/json_parts.h"
#include "render/order_parts.h"
#include "render/phrases.h"
#include "render/pool/parts.h"
#include "render/pool/pick_words.h"
#include "teetally/base/csv.h"

namespace teetally {
namespace {

constexpr auto kRight = Column::Side::right;

std::string statement(const PoolResult& result, const MemberAccount& account, const Page& page) {
  const Currency& currency = result.pool.currency;
  std::string text = "Statement: " + printable(account.member) + "\n";
  TextTable table{{{"Plot", Column::Side::left, true},
                   {"Alone", kRight},
                   {"Listed", kRight},
                   {"Top-up", kRight},
                   {"Shared parts", kRight},
                   {"Pays " + currency.code, kRight}},
                  {}};
  for (const PlotShare* share : account.plots) {
    const Alone& alone = result.alone[static_cast<std::size_t>(share->basket)];
    table.rows.push_back({printable(result.pool.plots[static_cast<std::size_t>(share->plot)].name),
                          alone.outcome == Outcome::bought ? to_text(alone.cost, currency) : "?",
                          to_text(share->share.listed, currency), to_text(share->share.top_up, currency),
                          share->for_shared == Money{} ? "" : to_text(share->for_shared, currency),
                          to_text(share->pays(), currency)});
  }
  text += laid_out(table, page.width, 2);
  std::string sum = fmt::format("To pay: {} {}.", currency.code, to_text(account.own + account.shared, currency));
  const std::string alone = member_saving_words(account, currency);
  if (!alone.empty()) sum += " " + alone;
  return text + wrapped(sum, page.width, 2, 2);
}

std::string cost_lines(const OrderCost& cost, const Currency& currency, const Page& page) {
  TextTable table{{{"", Column::Side::left, true}, {currency.code, kRight}}, {}};
  const auto add = [&](const char* what, Money amount, bool always) {
    if (always || amount != Money{}) table.rows.push_back({what, to_text(amount, currency)});
  };
  add("Goods", cost.goods, true);
  add("Discount", Money{} - cost.discount, false);
  add("Shipping", cost.shipping, false);
  add("Small-order fee", cost.small_order_fee, false);
  add("Tax", cost.tax, false);
  add("Total", cost.total, true);
  return laid_out(table, page.width, 2);
}

}  // namespace

std::string member_saving_words(const MemberAccount& account, const Currency& currency) {
  if (!account.known) return "";
  return fmt::format("Own parts alone would cost {}{}; the pool saves {} on them.", to_text(account.alone, currency),
                     account.proven ? "" : " by the best order found", to_text(account.alone - account.own, currency));
}

std::vector<MemberAccount> member_accounts(const PaperView& view) {
  const PoolResult& result = view.result;
  std::vector<MemberAccount> accounts;
  std::map<std::string, std::size_t> known;
  for (const PlotShare& share : result.plots) {
    const Plot& plot = result.pool.plots[static_cast<std::size_t>(share.plot)];
    const std::string key = plot.member.empty() ? "plot\n" + plot.name : plot.member;
    const auto [found, is_new] = known.emplace(key, accounts.size());
    if (is_new) accounts.push_back({payer_of(plot), {}, {}, {}, {}});
    MemberAccount& account = accounts[found->second];
    const Alone& alone = result.alone[static_cast<std::size_t>(share.basket)];
    account.plots.push_back(&share);
    account.alone += alone.cost;
    account.own += share.share.paid;
    account.shared += share.for_shared;
    account.known = account.known && alone.outcome == Outcome::bought;
    account.proven = account.proven && alone.least == alone.cost;
  }
  if (!view.plot) return accounts;
  std::erase_if(accounts, [&](const MemberAccount& account) {
    return std::none_of(account.plots.begin(), account.plots.end(), [&](const PlotShare* share) {
      return result.pool.plots[static_cast<std::size_t>(share->plot)].name == *view.plot;
    });
  });
  return accounts;
}

std::size_t statements_in(const PaperView& view) { return member_accounts(view).size(); }

std::string pool_orders_text(const PoolResult& result, const Page& page) {
  std::string text = title_line(result.pool.name, "Pooled order");
  for (const SupplierOrder& order : result.purchase.orders) {
    const Catalog& catalog = *result.book.catalogs[static_cast<std::size_t>(order.catalog)];
    const bool owned = catalog.id == kOnHandId;
    text += heading(owned ? "Take from the stock" : "Order to " + printable(catalog.name));
    TextTable table{{{"[ ]"}, {"Sku"}, {"What", Column::Side::left, true}, {"Packs", kRight}, {"Goods", kRight}}, {}};
    for (const OrderLine& line : order.lines) {
      const LineParts parts = parts_of(catalog, line, page.units);
      const std::string what = parts.changes.empty() ? parts.what : parts.what + "; " + listed(parts.changes);
      table.rows.push_back({"[ ]", printable(parts.sku), printable(what), std::to_string(line.count),
                            owned ? "" : to_text(line.goods, catalog.currency)});
    }
    text += laid_out(table, page.width, 2);
    if (owned) continue;
    text += "\n" + cost_lines(order.cost, catalog.currency, page);
    if (!catalog.notice.empty()) text += wrapped("Note: " + printable(catalog.notice) + ".", page.width, 2, 2);
  }
  return text;
}

std::string statements_text(const PaperView& view, const Page& page) {
  std::string text;
  for (const MemberAccount& account : member_accounts(view)) {
    text += (text.empty() ? "" : "\n") + statement(view.result, account, page);
  }
  return text;
}

std::string statements_csv(const PaperView& view) {
  const Currency& currency = view.result.pool.currency;
  std::string out = csv_row({"member", "plots", "alone", "own parts", "shared parts", "pays", "currency"});
  for (const MemberAccount& account : member_accounts(view)) {
    out += csv_row({account.member, std::to_string(account.plots.size()),
                    account.known ? to_string(account.alone, currency) : "", to_string(account.own, currency),
                    to_string(account.shared, currency), to_string(account.own + account.shared, currency),
                    currency.code});
  }
  return out;
}

Json statements_document(const PaperView& view) {
  const Currency& currency = view.result.pool.currency;
  Json members = Json::array();
  for (const MemberAccount& account : member_accounts(view)) {
    Json plots = Json::array();
    for (const PlotShare* share : account.plots) {
      plots.push(view.result.pool.plots[static_cast<std::size_t>(share->plot)].name);
    }
    Json json = Json::object();
    json.set("member", account.member).set("plots", std::move(plots));
    json.set("alone", account.known ? Json(to_string(account.alone, currency)) : Json());
    json.set("own_parts", to_string(account.own, currency)).set("shared_parts", to_string(account.shared, currency));
    members.push(json.set("pays", to_string(account.own + account.shared, currency)));
  }
  Json json = document_start("teetally/statements", view.result.pool.name);
  return json.set("currency", currency.code).set("members", std::move(members));
}

}  // namespace teetally
