#include "store/sqlite.h"
#include "teetally/store/quotes.h"

namespace teetally {
namespace {

void write_revision(Database& database, const Quote& quote) {
  const CustomerCopy& c = quote.copy;
  const CostSheet& s = quote.costs;
  database
      .statement(
          "INSERT INTO revision VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, "
          "?17, ?18, ?19, ?20, ?21, ?22)")
      .with({c.number,
             c.revision,
             c.name,
             c.business,
             c.customer,
             c.site,
             c.scope,
             c.made_on,
             cell(c.valid_until),
             c.price.minor,
             c.tax_words,
             c.tax.minor,
             c.total.minor,
             s.materials.minor,
             s.labour.minor,
             s.equipment.minor,
             s.delivery.minor,
             s.overhead.minor,
             s.contingency.minor,
             s.profit.minor,
             s.profit_words,
             s.taxable.minor})
      .run();
}

// Lines of one list of the copy, in order.
class ListWriter {
 public:
  ListWriter(Database& database, const CustomerCopy& copy, std::string_view list)
      : insert_(database.statement("INSERT INTO revision_line VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)")),
        copy_(copy),
        list_(list) {}
  void write(const std::string& what, std::string_view words, Money amount) {
    insert_.with({copy_.number, copy_.revision, list_, position_++, what, words, amount.minor}).run();
  }
  void write_all(const std::vector<std::string>& texts) {
    for (const std::string& text : texts) write(text, "", {});
  }

 private:
  Statement insert_;
  const CustomerCopy& copy_;
  std::string_view list_;
  std::int64_t position_ = 0;
};

void write_lists(Database& database, const Quote& quote) {
  const CustomerCopy& copy = quote.copy;
  ListWriter parts(database, copy, "part"), sections(database, copy, "section"), payments(database, copy, "payment");
  for (const SuppliedPart& part : copy.parts) parts.write(part.what, part.amount, {});
  for (const PricedSection& section : copy.sections) sections.write(section.what, "", section.price);
  for (const Payment& payment : copy.payments) payments.write(payment.what, "", payment.amount);
  ListWriter(database, copy, "exclusion").write_all(copy.exclusions);
  ListWriter(database, copy, "caution").write_all(copy.cautions);
  ListWriter(database, copy, "note").write_all(quote.costs.notes);
}

void write_costs(Database& database, const Quote& quote) {
  Statement insert = database.statement("INSERT INTO cost_line VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)");
  std::int64_t position = 0;
  for (const CostLine& line : quote.costs.lines) {
    const Cell price = line.price ? Cell(line.price->minor) : Cell(nullptr);
    insert
        .with({quote.copy.number, quote.copy.revision, position++, static_cast<std::int64_t>(line.part), line.supplier,
               line.sku, line.what, line.count, price, line.cost.minor})
        .run();
  }
}

void write_options(Database& database, const Quote& quote) {
  Statement insert =
      database.statement("INSERT INTO quoted_option VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)");
  for (std::size_t i = 0; i < quote.copy.options.size(); ++i) {
    const QuotedOption& option = quote.copy.options[i];
    const OptionCosts& costs = quote.costs.options.at(i);
    insert
        .with({quote.copy.number, quote.copy.revision, static_cast<std::int64_t>(i), option.name, option.differs,
               option.price.minor, option.tax.minor, option.total.minor, costs.cost.minor, costs.profit.minor,
               costs.margin.ppm})
        .run();
  }
}

void write_line(Database& database, std::int64_t order, const OrderedLine& line) {
  database
      .statement(
          "INSERT INTO order_line (supplier_order, sku, what, bundle, pieces, length, count, goods) "
          "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)")
      .with({order, line.sku, line.what, std::int64_t{line.bundle}, line.pieces, line.length.tenths_mm, line.count,
             line.goods.minor})
      .run();
  const std::int64_t id = database.last_row();
  for (const OrderedChange& change : line.changes) {
    database.statement("INSERT INTO order_change (order_line, content, swap, times) VALUES (?1, ?2, ?3, ?4)")
        .with({id, change.content, change.swap, change.times})
        .run();
  }
}

void write_orders(Database& database, const CustomerCopy& copy, const std::vector<OrderedFrom>& orders) {
  for (const OrderedFrom& order : orders) {
    const OrderCost& cost = order.cost;
    database
        .statement(
            "INSERT INTO supplier_order (quote, revision, supplier, name, goods, discount, shipping, "
            "small_order_fee, tax, total) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)")
        .with({copy.number, copy.revision, order.supplier, order.name, cost.goods.minor, cost.discount.minor,
               cost.shipping.minor, cost.small_order_fee.minor, cost.tax.minor, cost.total.minor})
        .run();
    const std::int64_t id = database.last_row();
    for (const OrderedLine& line : order.lines) write_line(database, id, line);
  }
}

void write_all(Database& database, const Quote& quote, const std::vector<OrderedFrom>& orders) {
  write_revision(database, quote);
  write_lists(database, quote);
  write_costs(database, quote);
  write_options(database, quote);
  write_orders(database, quote.copy, orders);
}

}  // namespace

void keep_quote(Store& store, Quote& quote, const std::vector<OrderedFrom>& orders) {
  Database& database = store.database();
  Transaction transaction(database);
  database.statement("INSERT INTO quote (currency) VALUES (?1)").with({quote.copy.currency.code}).run();
  quote.copy.number = database.last_row();
  quote.copy.revision = 1;
  write_all(database, quote, orders);
  transaction.commit();
}

void revise_quote(Store& store, std::int64_t number, Quote& quote, const std::vector<OrderedFrom>& orders,
                  Diagnostics& diagnostics) {
  Database& database = store.database();
  Transaction transaction(database);  // so that no other process takes the same revision
  const auto latest = read_quote(store, number, std::nullopt, diagnostics);
  if (!latest) return;
  const std::string& currency = latest->quote.copy.currency.code;
  if (currency != quote.copy.currency.code) {
    diagnostics
        .error("store/another-currency", {},
               "the new revision is in " + quote.copy.currency.code + ", quote " + std::to_string(number) + " in " +
                   currency)
        .help = "keep it as a quote of its own: --keep";
    return;
  }
  if (const std::string& customer = latest->quote.copy.customer; customer != quote.copy.customer) {
    diagnostics
        .warning("store/another-customer", {},
                 "quote " + std::to_string(number) + " was for " + quoted(printable(customer)) +
                     ", its new revision is for " + quoted(printable(quote.copy.customer)))
        .help =
        "'quote change' shows the one what the other was asked; for another customer keep a quote of its own: --keep";
  }
  quote.copy.number = number;
  quote.copy.revision = latest->quote.copy.revision + 1;
  write_all(database, quote, orders);
  transaction.commit();
}

}  // namespace teetally
