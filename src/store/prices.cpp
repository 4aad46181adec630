#include "teetally/store/prices.h"

#include <algorithm>
#include <map>

#include "store/sqlite.h"

namespace teetally {
namespace {

struct PriceRow {
  std::string sku, name;
  bool bundle = false;
  std::int64_t pieces = 1;
  Length length;
  std::int64_t from = 1;
  Money price;
};

std::vector<PriceRow> rows_of(const Catalog& catalog) {
  std::vector<PriceRow> rows;
  for (const Item& item : catalog.items) {
    for (const Pack& pack : item.packs) {
      const std::string& sku = pack.sku.empty() ? item.sku : pack.sku;
      for (const PriceBreak& step : pack.prices) {
        rows.push_back({sku, item.name, false, pack.count, pack.length, step.from, step.price});
      }
    }
  }
  for (const Bundle& bundle : catalog.bundles) rows.push_back({bundle.sku, bundle.name, true, 1, {}, 1, bundle.price});
  return rows;
}

void insert_prices(Database& database, std::int64_t snapshot, const Catalog& catalog) {
  Statement insert = database.statement("INSERT INTO price VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)");
  std::int64_t position = 0;
  for (const PriceRow& row : rows_of(catalog)) {
    insert
        .with({snapshot, position++, row.sku, row.name, std::int64_t{row.bundle}, row.pieces, row.length.tenths_mm,
               row.from, row.price.minor})
        .run();
  }
}

// The snapshot of this file, made when it is new.
std::int64_t snapshot_of(Database& database, const Catalog& catalog) {
  const std::string hash = content_hash(catalog.source->text);
  Statement known = database.statement("SELECT id FROM snapshot WHERE hash = ?1");
  if (known.with({hash}).next()) return known.number(0);
  database.statement("INSERT INTO snapshot (hash, supplier, name, currency, file) VALUES (?1, ?2, ?3, ?4, ?5)")
      .with({hash, catalog.id, catalog.name, catalog.currency.code, catalog.source->text})
      .run();
  const std::int64_t snapshot = database.last_row();
  insert_prices(database, snapshot, catalog);
  return snapshot;
}

struct Earlier {
  std::int64_t id = 0, snapshot = 0;
  std::string first_day, last_day;
};

// The recording of the supplier that holds on the day: the latest that began by then.
std::optional<Earlier> standing_on(Database& database, const std::string& supplier, const std::string& day) {
  Statement query = database.statement(
      "SELECT id, snapshot, first_day, last_day FROM recording WHERE supplier = ?1 AND first_day <= ?2 "
      "ORDER BY first_day DESC, id DESC LIMIT 1");
  if (!query.with({supplier, day}).next()) return std::nullopt;
  return Earlier{query.number(0), query.number(1), query.text(2), query.text(3)};
}

void insert_recording(Database& database, std::int64_t snapshot, const std::string& supplier, const std::string& day) {
  database.statement("INSERT INTO recording (snapshot, supplier, first_day, last_day) VALUES (?1, ?2, ?3, ?3)")
      .with({snapshot, supplier, day})
      .run();
}

// Other prices turn up for a day within its time: it held until then, and again on its last day.
void break_off(Database& database, const std::string& supplier, const Earlier& standing, const std::string& day) {
  database.statement("UPDATE recording SET last_day = ?2 WHERE id = ?1").with({standing.id, day}).run();
  insert_recording(database, standing.snapshot, supplier, standing.last_day);
}

Recording record(Database& database, const Catalog& catalog, const std::string& day) {
  const std::int64_t snapshot = snapshot_of(database, catalog);
  const auto earlier = standing_on(database, catalog.id, day);
  Recording recording{catalog.id, catalog.name, 0, day, true, std::nullopt};
  Statement count = database.statement("SELECT count(*) FROM price WHERE snapshot = ?1");
  if (count.with({snapshot}).next()) recording.prices = count.number(0);
  if (earlier && earlier->snapshot == snapshot) {
    database.statement("UPDATE recording SET last_day = max(last_day, ?2) WHERE id = ?1")
        .with({earlier->id, day})
        .run();
    recording.changed = false;
    recording.since = earlier->first_day;
    return recording;
  }
  if (earlier) recording.before = earlier->first_day;
  if (earlier && earlier->last_day > day) break_off(database, catalog.id, *earlier, day);
  insert_recording(database, snapshot, catalog.id, day);
  return recording;
}

// Equal prices of neighbouring recordings are one period.
void add_period(PriceHistory& history, const Earlier& when, std::optional<Money> price) {
  if (!history.periods.empty() && history.periods.back().price == price) {
    history.periods.back().last_day = when.last_day;
  } else {
    history.periods.push_back({when.first_day, when.last_day, price});
  }
}

// What tells one way of selling a sku from the others.
using Way = std::tuple<bool, std::int64_t, std::int64_t, std::int64_t>;

void add_recording(Database& database, const std::string& sku, const Earlier& when, const PriceHistory& supplier,
                   std::map<Way, PriceHistory>& histories) {
  Statement rows = database.statement(
      "SELECT name, bundle, pieces, length, from_packs, amount FROM price WHERE sku = ?1 AND snapshot = ?2 "
      "ORDER BY position");
  rows.with({sku, when.snapshot});
  std::vector<Way> seen;
  while (rows.next()) {
    const Way way{rows.number(1) != 0, rows.number(2), rows.number(3), rows.number(4)};
    if (std::find(seen.begin(), seen.end(), way) != seen.end()) continue;  // sold twice alike: the first one stands
    seen.push_back(way);
    PriceHistory& history = histories.emplace(way, supplier).first->second;
    history.name = rows.text(0);
    std::tie(history.bundle, history.pieces, history.length.tenths_mm, history.from) = way;
    add_period(history, when, Money{rows.number(5)});
  }
  for (auto& [way, history] : histories) {
    if (std::find(seen.begin(), seen.end(), way) == seen.end()) add_period(history, when, std::nullopt);
  }
}

std::vector<PriceHistory> histories_at(Database& database, const std::string& sku, const PriceHistory& supplier) {
  std::map<Way, PriceHistory> histories;
  Statement recordings = database.statement(
      "SELECT id, snapshot, first_day, last_day FROM recording WHERE supplier = ?1 ORDER BY first_day, id");
  recordings.with({supplier.supplier});
  while (recordings.next()) {
    const Earlier when{recordings.number(0), recordings.number(1), recordings.text(2), recordings.text(3)};
    add_recording(database, sku, when, supplier, histories);
  }
  std::vector<PriceHistory> all;
  for (auto& [way, history] : histories) all.push_back(std::move(history));
  return all;
}

void report_unknown(Database& database, const std::string& sku, Diagnostics& diagnostics) {
  std::vector<std::string> known;
  Statement skus = database.statement("SELECT DISTINCT sku FROM price ORDER BY sku");
  while (skus.next()) known.push_back(skus.text(0));
  Diagnostic& d = diagnostics.error("store/unknown-sku", {},
                                    "no price of " + quoted(printable(sku)) + " was ever recorded; " +
                                        counted(static_cast<std::int64_t>(known.size()), "sku") + " are known");
  const auto near = nearest_word(sku, known);
  d.help = near ? "did you mean " + quoted(printable(*near)) + "?"
                : "'teetally catalog record' keeps the prices of catalogs, from then on";
}

}  // namespace

std::vector<Recording> record_catalogs(Store& store, const std::vector<Catalog>& catalogs, const std::string& day) {
  Transaction transaction(store.database());
  std::vector<Recording> recordings;
  for (const Catalog& catalog : catalogs) recordings.push_back(record(store.database(), catalog, day));
  transaction.commit();
  return recordings;
}

std::vector<PriceHistory> price_history(const Store& store, const std::string& sku, Diagnostics& diagnostics) {
  Database& database = store.database();
  std::vector<PriceHistory> all;
  Statement suppliers = database.statement(
      "SELECT supplier, name, currency FROM snapshot WHERE id IN (SELECT max(snapshot) FROM price JOIN snapshot ON "
      "snapshot.id = snapshot WHERE sku = ?1 GROUP BY supplier) ORDER BY supplier");
  suppliers.with({sku});
  while (suppliers.next()) {
    PriceHistory supplier;
    supplier.supplier = suppliers.text(0);
    supplier.supplier_name = suppliers.text(1);
    supplier.sku = sku;
    supplier.currency = find_currency(suppliers.text(2)).value_or(Currency{suppliers.text(2), 2});
    for (PriceHistory& history : histories_at(database, sku, supplier)) all.push_back(std::move(history));
  }
  if (all.empty()) report_unknown(database, sku, diagnostics);
  return all;
}

}  // namespace teetally
