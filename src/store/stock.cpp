#include "teetally/store/stock.h"

#include "store/part_text.h"
#include "store/sqlite.h"

namespace teetally {
namespace {

constexpr std::string_view kEntries =
    "SELECT id, sku, name, part, length, (SELECT coalesce(sum(change), 0) FROM stock_move WHERE part = stock_part.id), "
    "(SELECT max(day) FROM stock_move WHERE part = stock_part.id) FROM stock_part ";

StockEntry entry_of(const Statement& row, const std::string& file) {
  auto item = part_from_text(row.text(3));
  if (!item) throw WorldFailure("cannot use the store " + quoted(printable(file)) + ": a part in it cannot be read");
  StockEntry entry;
  entry.number = row.number(0);
  entry.part.item = std::move(*item);
  entry.part.item.sku = row.text(1);
  entry.part.item.name = row.text(2);
  entry.part.length = {row.number(4)};
  entry.count = row.number(5);
  entry.last_day = row.text(6);
  return entry;
}

std::optional<StockEntry> find_entry(Database& database, std::int64_t number) {
  Statement row = database.statement(std::string(kEntries) + "WHERE id = ?1");
  if (!row.with({number}).next()) return std::nullopt;
  return entry_of(row, database.path());
}

// The number of the entry for a described part, made when there is none.
std::int64_t number_of(Database& database, const StockPart& part) {
  const std::string text = part_text(part.item);
  Statement known = database.statement("SELECT id FROM stock_part WHERE part = ?1 AND length = ?2");
  if (known.with({text, part.length.tenths_mm}).next()) return known.number(0);
  database.statement("INSERT INTO stock_part (part, length, sku, name) VALUES (?1, ?2, ?3, ?4)")
      .with({text, part.length.tenths_mm, part.item.sku, part.item.name})
      .run();
  return database.last_row();
}

struct Reason {
  const std::string& why;
  const std::string& day;
};

std::optional<StockBooked> book(Database& database, const StockChange& change, const Reason& reason,
                                Diagnostics& diagnostics) {
  const std::int64_t number = change.number ? *change.number : number_of(database, change.part);
  auto entry = find_entry(database, number);
  if (!entry) {
    diagnostics.error("store/no-part", {}, "there is no part " + stock_name(number) + " in the stock").help =
        "'teetally stock list' shows all";
    return std::nullopt;
  }
  if (entry->count + change.change < 0) {
    diagnostics
        .error("store/not-that-many", {},
               stock_name(number) + " (" + printable(entry->part.item.name) + ") has " + std::to_string(entry->count) +
                   " on hand, found " + std::to_string(-change.change) + " to take")
        .help = "count what is there: teetally stock count " + stock_name(number) + " COUNT";
    return std::nullopt;
  }
  if (change.change != 0 || change.move == StockMove::counted) {
    database.statement("INSERT INTO stock_move (part, day, change, move, why) VALUES (?1, ?2, ?3, ?4, ?5)")
        .with({number, reason.day, change.change, to_text(change.move), reason.why})
        .run();
    entry = find_entry(database, number);
  }
  return StockBooked{*entry, change.change, change.move};
}

// Nothing is booked where anything is refused.
std::vector<StockBooked> book_all(Database& database, const std::vector<StockChange>& changes, const Reason& reason,
                                  Diagnostics& diagnostics) {
  std::vector<StockBooked> booked;
  for (const StockChange& change : changes) {
    if (auto one = book(database, change, reason, diagnostics)) booked.push_back(std::move(*one));
  }
  return diagnostics.has_errors() ? std::vector<StockBooked>() : booked;
}

}  // namespace

std::string stock_name(std::int64_t number) { return "P" + std::to_string(number); }

std::optional<std::int64_t> stock_number(std::string_view name) {
  if (name.size() < 2 || (name[0] != 'P' && name[0] != 'p')) return std::nullopt;
  const auto number = parse_count(name.substr(1));
  if (!number || *number < 1) return std::nullopt;
  return *number;
}

std::string to_text(StockMove move) {
  switch (move) {
    case StockMove::received:
      return "received";
    case StockMove::used:
      return "used";
    case StockMove::counted:
      return "counted";
    case StockMove::adjusted:
      return "adjusted";
  }
  return {};
}

std::vector<StockEntry> list_stock(const Store& store, bool empty_too) {
  Database& database = store.database();
  std::vector<StockEntry> entries;
  Statement rows = database.statement(std::string(kEntries) + "ORDER BY id");
  while (rows.next()) {
    StockEntry entry = entry_of(rows, database.path());
    if (empty_too || entry.count > 0) entries.push_back(std::move(entry));
  }
  return entries;
}

Catalog stock_as_catalog(const Store& store, const Currency& currency) {
  Catalog catalog;
  catalog.id = kOnHandId;
  catalog.name = "Parts on hand";
  catalog.currency = currency;
  catalog.source = source_from_text(store.database().path(), "");
  for (StockEntry& entry : list_stock(store, false)) {
    Item item = std::move(entry.part.item);
    item.sku = stock_name(entry.number);
    Pack pack;
    pack.sku = item.sku;
    pack.length = entry.part.length;
    pack.prices.push_back({1, Money{}, {}});
    pack.stock = entry.count;
    item.packs.push_back(std::move(pack));
    catalog.items.push_back(std::move(item));
  }
  return catalog;
}

std::vector<StockBooked> book_stock(Store& store, const std::vector<StockChange>& changes, const std::string& why,
                                    const std::string& day, Diagnostics& diagnostics) {
  Transaction transaction(store.database());
  std::vector<StockBooked> booked = book_all(store.database(), changes, {why, day}, diagnostics);
  if (!diagnostics.has_errors()) transaction.commit();
  return booked;
}

std::vector<StockBooked> count_stock(Store& store, std::int64_t number, std::int64_t count, const std::string& why,
                                     const std::string& day, Diagnostics& diagnostics) {
  Transaction transaction(store.database());
  const auto entry = find_entry(store.database(), number);
  StockChange change;
  change.number = number;
  change.change = entry ? count - entry->count : 0;
  change.move = StockMove::counted;
  std::vector<StockBooked> booked = book_all(store.database(), {change}, {why, day}, diagnostics);
  if (!diagnostics.has_errors()) transaction.commit();
  return booked;
}

std::vector<StockBooked> receive_order(Store& store, const OfferBook& book, const Purchase& purchase,
                                       const std::string& day, Diagnostics& diagnostics) {
  Database& database = store.database();
  const std::string& name = book.takeoff.name;
  const std::vector<StockChange> changes = changes_of_order(book, purchase);
  Transaction transaction(database);
  Statement known = database.statement("SELECT 1 FROM stock_order WHERE name = ?1 AND day = ?2");
  if (known.with({name, day}).next()) {
    diagnostics
        .error("store/received-already", {},
               "the order for " + quoted(printable(name)) + " was received already on " + day)
        .help = "if another one came, receive it with another day: --today DATE";
    return {};
  }
  database.statement("INSERT INTO stock_order (name, day) VALUES (?1, ?2)").with({name, day}).run();
  std::vector<StockBooked> booked = book_all(database, changes, {name, day}, diagnostics);
  if (!diagnostics.has_errors()) transaction.commit();
  return booked;
}

}  // namespace teetally
