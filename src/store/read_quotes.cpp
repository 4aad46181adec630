#include <algorithm>

#include "store/sqlite.h"
#include "teetally/store/quotes.h"

namespace teetally {
namespace {

Currency currency_of(const std::string& code) { return find_currency(code).value_or(Currency{code, 2}); }

// What a quote has under a number, for messages.
std::string quote_words(std::int64_t number) { return "quote " + std::to_string(number); }

bool is_known(Database& database, std::int64_t number, Diagnostics& diagnostics) {
  Statement query = database.statement("SELECT 1 FROM quote WHERE number = ?1");
  if (query.with({number}).next()) return true;
  const std::int64_t most = database.number("SELECT max(number) FROM quote");
  Diagnostic& d = diagnostics.error("store/no-quote", {},
                                    "there is no " + quote_words(number) + "; " +
                                        (most == 0 ? "none is kept yet" : "the last one is " + std::to_string(most)));
  d.help = most == 0 ? "'teetally quote ... --keep' keeps one" : "'teetally quote list' shows all";
  return false;
}

// The revision meant, where there is one.
std::optional<std::int64_t> revision_of(Database& database, std::int64_t number, std::optional<std::int64_t> wanted,
                                        Diagnostics& diagnostics) {
  if (!is_known(database, number, diagnostics)) return std::nullopt;
  Statement query = database.statement("SELECT max(revision) FROM revision WHERE quote = ?1");
  query.with({number}).next();
  const std::int64_t latest = query.number(0);
  if (!wanted) return latest;
  if (*wanted >= 1 && *wanted <= latest) return wanted;
  diagnostics.error("store/no-revision", {},
                    quote_words(number) + " has " + counted(latest, "revision") + ", found " + std::to_string(*wanted));
  return std::nullopt;
}

void read_revision(Database& database, Quote& quote) {
  CustomerCopy& c = quote.copy;
  CostSheet& s = quote.costs;
  Statement row = database.statement(
      "SELECT name, business, customer, site, scope, made_on, valid_until, price, tax_words, tax, total, materials, "
      "labour, equipment, delivery, overhead, contingency, profit, profit_words, taxable, currency "
      "FROM revision JOIN quote ON number = quote WHERE quote = ?1 AND revision = ?2");
  if (!row.with({c.number, c.revision}).next()) return;
  c.name = row.text(0);
  c.business = row.text(1);
  c.customer = row.text(2);
  c.site = row.text(3);
  c.scope = row.text(4);
  c.made_on = row.text(5);
  c.valid_until = row.text_if_any(6);
  c.price = {row.number(7)};
  c.tax_words = row.text(8);
  c.tax = {row.number(9)};
  c.total = {row.number(10)};
  int column = 11;
  for (Money* amount : {&s.materials, &s.labour, &s.equipment, &s.delivery, &s.overhead, &s.contingency, &s.profit}) {
    *amount = {row.number(column++)};
  }
  s.profit_words = row.text(18);
  s.taxable = {row.number(19)};
  c.currency = currency_of(row.text(20));
}

void read_lists(Database& database, Quote& quote) {
  CustomerCopy& c = quote.copy;
  Statement rows = database.statement(
      "SELECT list, what, words, amount FROM revision_line WHERE quote = ?1 AND revision = ?2 ORDER BY list, position");
  rows.with({c.number, c.revision});
  while (rows.next()) {
    const std::string list = rows.text(0), what = rows.text(1);
    const Money amount{rows.number(3)};
    if (list == "part") c.parts.push_back({what, rows.text(2)});
    if (list == "section") c.sections.push_back({what, amount});
    if (list == "payment") c.payments.push_back({what, amount});
    if (list == "exclusion") c.exclusions.push_back(what);
    if (list == "caution") c.cautions.push_back(what);
    if (list == "note") quote.costs.notes.push_back(what);
  }
}

void read_costs(Database& database, Quote& quote) {
  Statement rows = database.statement(
      "SELECT part, supplier, sku, what, count, price, cost FROM cost_line WHERE quote = ?1 AND revision = ?2 "
      "ORDER BY position");
  rows.with({quote.copy.number, quote.copy.revision});
  while (rows.next()) {
    CostLine line;
    line.part = static_cast<CostPart>(rows.number(0));
    line.supplier = rows.text(1);
    line.sku = rows.text(2);
    line.what = rows.text(3);
    line.count = rows.number(4);
    if (!rows.is_null(5)) line.price = Money{rows.number(5)};
    line.cost = {rows.number(6)};
    quote.costs.lines.push_back(std::move(line));
  }
}

void read_options(Database& database, Quote& quote) {
  Statement rows = database.statement(
      "SELECT name, differs, price, tax, total, cost, profit, margin FROM quoted_option "
      "WHERE quote = ?1 AND revision = ?2 ORDER BY position");
  rows.with({quote.copy.number, quote.copy.revision});
  while (rows.next()) {
    quote.copy.options.push_back({rows.text(0), rows.text(1), {rows.number(2)}, {rows.number(3)}, {rows.number(4)}});
    quote.costs.options.push_back({rows.text(0), {rows.number(5)}, {rows.number(6)}, {rows.number(7)}});
  }
}

std::vector<OrderedLine> read_order_lines(Database& database, std::int64_t order) {
  std::vector<OrderedLine> lines;
  Statement rows = database.statement(
      "SELECT id, sku, what, bundle, pieces, length, count, goods FROM order_line WHERE supplier_order = ?1 "
      "ORDER BY id");
  Statement changes =
      database.statement("SELECT content, swap, times FROM order_change WHERE order_line = ?1 ORDER BY id");
  rows.with({order});
  while (rows.next()) {
    OrderedLine line;
    line.sku = rows.text(1);
    line.what = rows.text(2);
    line.bundle = rows.number(3) != 0;
    line.pieces = rows.number(4);
    line.length = {rows.number(5)};
    line.count = rows.number(6);
    line.goods = {rows.number(7)};
    changes.with({rows.number(0)});
    while (changes.next()) line.changes.push_back({changes.text(0), changes.text(1), changes.number(2)});
    lines.push_back(std::move(line));
  }
  return lines;
}

std::vector<OrderedFrom> read_orders(Database& database, const CustomerCopy& copy) {
  std::vector<OrderedFrom> orders;
  Statement rows = database.statement(
      "SELECT id, supplier, name, goods, discount, shipping, small_order_fee, tax, total FROM supplier_order "
      "WHERE quote = ?1 AND revision = ?2 ORDER BY id");
  rows.with({copy.number, copy.revision});
  while (rows.next()) {
    OrderedFrom order{rows.text(1), rows.text(2), read_order_lines(database, rows.number(0)), {}};
    OrderCost& cost = order.cost;
    int column = 3;
    for (Money* amount : {&cost.goods, &cost.discount, &cost.shipping, &cost.small_order_fee, &cost.tax, &cost.total}) {
      *amount = {rows.number(column++)};
    }
    orders.push_back(std::move(order));
  }
  return orders;
}

struct Settled {
  QuoteState state = QuoteState::open;
  std::string day;
};
Settled settled(Database& database, std::int64_t number, std::int64_t revision) {
  Statement row = database.statement("SELECT state, day FROM settlement WHERE quote = ?1 AND revision = ?2");
  if (!row.with({number, revision}).next()) return {};
  return {row.text(0) == "accepted" ? QuoteState::accepted : QuoteState::withdrawn, row.text(1)};
}

std::optional<std::int64_t> accepted_revision(Database& database, std::int64_t number) {
  Statement row = database.statement("SELECT max(revision) FROM settlement WHERE quote = ?1 AND state = 'accepted'");
  if (!row.with({number}).next() || row.is_null(0)) return std::nullopt;
  return row.number(0);
}

}  // namespace

std::string to_text(QuoteState state) {
  switch (state) {
    case QuoteState::open:
      return "open";
    case QuoteState::accepted:
      return "accepted";
    case QuoteState::withdrawn:
      return "withdrawn";
  }
  return {};
}

std::optional<KeptQuote> read_quote(const Store& store, std::int64_t number, std::optional<std::int64_t> revision,
                                    Diagnostics& diagnostics) {
  Database& database = store.database();
  const auto found = revision_of(database, number, revision, diagnostics);
  if (!found) return std::nullopt;
  KeptQuote kept;
  kept.quote.copy.number = number;
  kept.quote.copy.revision = *found;
  read_revision(database, kept.quote);
  read_lists(database, kept.quote);
  read_costs(database, kept.quote);
  read_options(database, kept.quote);
  kept.orders = read_orders(database, kept.quote.copy);
  const Settled answer = settled(database, number, *found);
  kept.state = answer.state;
  kept.since = answer.day;
  kept.accepted = accepted_revision(database, number);
  return kept;
}

std::vector<QuoteStanding> list_quotes(const Store& store) {
  Database& database = store.database();
  std::vector<QuoteStanding> all;
  Statement rows = database.statement(
      "SELECT quote, max(revision), made_on, customer, name, valid_until, total, currency FROM revision "
      "JOIN quote ON number = quote GROUP BY quote ORDER BY quote");
  while (rows.next()) {
    QuoteStanding one;
    one.number = rows.number(0);
    one.revision = rows.number(1);
    one.made_on = rows.text(2);
    one.customer = rows.text(3);
    one.name = rows.text(4);
    one.valid_until = rows.text_if_any(5);
    one.total = {rows.number(6)};
    one.currency = currency_of(rows.text(7));
    const Settled answer = settled(database, one.number, one.revision);
    one.state = answer.state;
    one.since = answer.day;
    one.accepted = accepted_revision(database, one.number);
    all.push_back(std::move(one));
  }
  return all;
}

void settle_quote(Store& store, std::int64_t number, std::optional<std::int64_t> revision, QuoteState state,
                  const std::string& day, Diagnostics& diagnostics) {
  Database& database = store.database();
  Transaction transaction(database);
  const auto kept = read_quote(store, number, revision, diagnostics);
  if (!kept) return;
  const CustomerCopy& copy = kept->quote.copy;
  const std::string which = "revision " + std::to_string(copy.revision) + " of " + quote_words(number);
  if (kept->state != QuoteState::open) {
    diagnostics.error("store/quote-settled", {}, which + " was " + to_text(kept->state) + " on " + kept->since).help =
        "an answer stands; a new revision may be answered anew: teetally quote ... --revise " + std::to_string(number);
    return;
  }
  if (day < copy.made_on) {
    diagnostics
        .error("store/answered-too-early", {},
               which + " is of " + copy.made_on + "; it cannot be " + to_text(state) + " on " + day)
        .help = "give the day of the answer: --today " + copy.made_on + ", or later";
    return;
  }
  if (state == QuoteState::accepted && copy.valid_until && *copy.valid_until < day) {
    diagnostics
        .warning("store/prices-lapsed", {},
                 "the prices of " + which + " held until " + *copy.valid_until + "; it is accepted on " + day)
        .help = "'teetally quote again " + std::to_string(number) + " --catalogs PATH...' shows what it would cost now";
  }
  database.statement("INSERT INTO settlement VALUES (?1, ?2, ?3, ?4)")
      .with({number, copy.revision, to_text(state), day})
      .run();
  transaction.commit();
}

}  // namespace teetally
