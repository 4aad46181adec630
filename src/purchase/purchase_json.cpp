#include "teetally/purchase.h"

namespace teetally {

std::string to_text(Outcome outcome) {
  switch (outcome) {
    case Outcome::bought:
      return "bought";
    case Outcome::infeasible:
      return "infeasible";
    case Outcome::out_of_time:
      return "out of time";
  }
  return {};
}

namespace {

// Money as exact text; the currency stands once, at the top.
struct Writer {
  const Purchase& purchase;
  const OfferBook& book;
  Currency currency;

  Json money(Money amount) const { return to_string(amount, currency); }

  Json changes(const Catalog& catalog, const Bundle& bundle, const OrderLine& line) const {
    Json list = Json::array();
    for (const BundleChange& change : line.changes) {
      const BundleContent& content = bundle.contents[change.content];
      Json entry = Json::object();
      entry.set("item", catalog.items[content.item].sku);
      if (change.swap < 0) {
        entry.set("left out", true);
      } else {
        entry.set("swapped for", catalog.items[content.swaps[change.swap].item].sku);
      }
      list.push(entry.set("times", change.times));
    }
    return list;
  }

  Json line(const Catalog& catalog, const OrderLine& line) const {
    Json entry = Json::object();
    if (line.bundle >= 0) {
      const Bundle& bundle = catalog.bundles[line.bundle];
      entry.set("bundle", bundle.sku).set("name", bundle.name).set("count", line.count);
      entry.set("changes", changes(catalog, bundle, line));
    } else {
      const Item& item = catalog.items[line.item];
      const Pack& pack = item.packs[line.pack];
      entry.set("sku", pack.sku).set("item", item.sku).set("name", item.name).set("packs", line.count);
      if (pack.length.tenths_mm > 0) {
        entry.set("coil tenths mm", pack.length.tenths_mm);
      } else {
        entry.set("pieces in pack", pack.count);
      }
    }
    return entry.set("goods", money(line.goods));
  }

  Json order(const SupplierOrder& order) const {
    const Catalog& catalog = *book.catalogs[order.catalog];
    Json lines = Json::array();
    for (const OrderLine& each : order.lines) lines.push(line(catalog, each));
    return Json::object()
        .set("supplier", catalog.id)
        .set("name", catalog.name)
        .set("lines", std::move(lines))
        .set("goods", money(order.cost.goods))
        .set("discount", money(order.cost.discount))
        .set("shipping", money(order.cost.shipping))
        .set("small order fee", money(order.cost.small_order_fee))
        .set("tax", money(order.cost.tax))
        .set("total", money(order.cost.total));
  }

  Json item(int catalog, int index) const {
    return Json::object()
        .set("supplier", book.catalogs[catalog]->id)
        .set("item", book.catalogs[catalog]->items[index].sku);
  }

  Json supplies() const {
    Json list = Json::array();
    for (const Supply& supply : purchase.supplies) {
      const BookItem& from = book.items[supply.item];
      list.push(
          item(from.catalog, from.item).set("need", book.takeoff.needs[supply.need].id).set("amount", supply.amount));
    }
    return list;
  }

  Json leftovers() const {
    Json list = Json::array();
    for (const Leftover& left : purchase.leftovers) {
      list.push(item(left.catalog, left.item).set("amount", left.amount));
    }
    return list;
  }

  Json families() const {
    Json list = Json::array();
    for (std::size_t s = 0; s < purchase.family_of_system.size(); ++s) {
      const int chosen = purchase.family_of_system[s];
      if (chosen < 0) continue;
      const FitFamily& family = book.systems[s].families[chosen];
      list.push(Json::object()
                    .set("system", book.takeoff.systems[book.systems[s].system].name)
                    .set("inside tenths um", family.inside.tenths_um)
                    .set("outside tenths um", family.outside.tenths_um));
    }
    return list;
  }

  Json shortfalls() const {
    Json list = Json::array();
    for (const Shortfall& shortfall : purchase.shortfalls) {
      Json needs = Json::array();
      for (int need : shortfall.needs) needs.push(book.takeoff.needs[need].id);
      list.push(Json::object().set("needs", std::move(needs)).set("why", shortfall.why));
    }
    return list;
  }

  Json proof() const {
    return Json::object()
        .set("cost", money(purchase.proof.cost))
        .set("lower bound", money(purchase.proof.lower_bound))
        .set("proven", purchase.proof.proven && !purchase.proof.floating)
        .set("believed", purchase.proof.proven && purchase.proof.floating)
        .set("ties settled", purchase.proof.ties_settled)
        .set("rests on", purchase.proof.rests_on)
        .set("nodes", purchase.proof.nodes);
  }
};

}  // namespace

Json to_json(const Purchase& purchase, const OfferBook& book) {
  const Writer writer{purchase, book, book.catalogs.empty() ? Currency{} : book.catalogs.front()->currency};
  Json orders = Json::array();
  for (const SupplierOrder& order : purchase.orders) orders.push(writer.order(order));
  return Json::object()
      .set("outcome", to_text(purchase.outcome))
      .set("currency", writer.currency.code)
      .set("total", writer.money(purchase.total))
      .set("orders", std::move(orders))
      .set("families", writer.families())
      .set("supplies", writer.supplies())
      .set("leftovers", writer.leftovers())
      .set("shortfalls", writer.shortfalls())
      .set("proof", writer.proof());
}

}  // namespace teetally
