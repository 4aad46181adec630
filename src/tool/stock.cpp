#include <algorithm>

#include "teetally/render/store.h"
#include "tool/commands.h"
#include "tool/pipeline.h"
#include "tool/pool_steps.h"
#include "tool/store_file.h"
#include "tool/units_of_file.h"

namespace teetally {
namespace {

bool is_metric(const StockEntry& entry) {
  const auto size = entry.part.item.part.attributes.find("size");
  return size != entry.part.item.part.attributes.end() && !size->second.words.empty() &&
         size->second.words.front().ends_with(" mm");
}

// Metric when most of what is on hand has a metric size, unless the user asks for a system.
UnitSystem units_of_stock(const Session& session, const Store& store) {
  if (session.request.units) return *session.request.units;
  const std::vector<StockEntry> all = list_stock(store, true);
  return 2 * std::count_if(all.begin(), all.end(), is_metric) > std::ssize(all) ? UnitSystem::metric : UnitSystem::us;
}

Answer booked(const Session& session, const std::vector<StockBooked>& all, UnitSystem units) {
  if (session.diagnostics.has_errors()) return stopped(session);
  return {ExitCode::done, in_form(
                              session,
                              [&] {
                                return booked_text(all, {session.width, units});
                              },
                              [&] { return booked_document(all, units); }, [&] { return booked_csv(all, units); })};
}

std::optional<std::int64_t> part_of(Session& session) {
  const std::string& word = session.request.arguments[0];
  if (const auto number = stock_number(word)) return number;
  session.diagnostics
      .error("tool/bad-value", {}, "the part is " + quoted(printable(word)) + "; expected its name in the stock, as P3")
      .help = "'teetally stock list' shows all";
  return std::nullopt;
}

constexpr std::int64_t kMostParts = 1'000'000;

std::optional<std::int64_t> count_of(Session& session, std::int64_t least, const std::string& expected) {
  const std::string& word = session.request.arguments[1];
  const auto count = parse_count(word.substr(word.rfind('+', 0) == 0 ? 1 : 0));
  if (count && *count >= least && *count <= kMostParts) return *count;
  session.diagnostics.error("tool/bad-value", {},
                            quoted(printable(word)) + " is no number of parts; expected " + expected);
  return std::nullopt;
}

// One change of one entry.
Answer move(Session& session, StockMove how, std::int64_t least, int sign, const std::string& expected) {
  const auto number = part_of(session);
  const auto count = count_of(session, least, expected);
  if (!number || !count) return stopped(session);
  auto store = open_store(session, StoreUse::write);
  if (!store) return stopped(session);
  const Request& request = session.request;
  const std::string why = request.reason.value_or("");
  const UnitSystem units = units_of_stock(session, *store);
  if (how == StockMove::counted) {
    return booked(session, count_stock(*store, *number, *count, why, request.today, session.diagnostics), units);
  }
  StockChange change;
  change.number = *number;
  change.change = sign * *count;
  change.move = how;
  return booked(session, book_stock(*store, {change}, why, request.today, session.diagnostics), units);
}

// Part of a piece of tubing is used.
Answer cut(Session& session, Length used) {
  const auto number = part_of(session);
  if (!number) return stopped(session);
  auto store = open_store(session, StoreUse::write);
  if (!store) return stopped(session);
  const Request& request = session.request;
  const UnitSystem units = units_of_stock(session, *store);
  const auto changes = changes_of_cut(*store, *number, used, units, session.diagnostics);
  if (session.diagnostics.has_errors()) return stopped(session);
  return booked(session, book_stock(*store, changes, request.reason.value_or(""), request.today, session.diagnostics),
                units);
}

bool is_pool(const std::string& path) {
  if (path == "-") return false;  // what comes from standard input can be read once only
  Diagnostics ignored;            // whoever reads the file for its content reports what is wrong with it
  const Source source = read_source(path, ignored);
  return source && kind_of_file(source) == FileKind::pool;
}

// Pieces that nobody asked for are the plots' where the pool hands them out; what is left of tubing never is.
void keep_tubing_only(const OfferBook& book, std::vector<Leftover>& leftovers) {
  std::erase_if(leftovers, [&](const Leftover& left) {
    const Catalog& catalog = *book.catalogs[static_cast<std::size_t>(left.catalog)];
    const std::vector<Pack>& packs = catalog.items[static_cast<std::size_t>(left.item)].packs;
    return std::none_of(packs.begin(), packs.end(), [](const Pack& pack) { return pack.length.tenths_mm > 0; });
  });
}

Answer receive_pool(Session& session) {
  auto result = buy_pool_order(session);
  if (!result) return stopped(session);
  const UnitSystem units = result->units;
  if (result->purchase.outcome != Outcome::bought) {
    const OrderView view{result->book, result->purchase, nullptr};
    return {ExitCode::no_answer, order_text(view, {session.width, units})};
  }
  if (session.request.round) {
    const auto round = round_of(session, *result);
    if (!round) return stopped(session);
    result = without_left(*result, *round, session.request.limits);
  }
  if (result->pool.leftovers == LeftoverRule::by_use) keep_tubing_only(result->book, result->purchase.leftovers);
  auto store = open_store(session, StoreUse::write);
  if (!store) return stopped(session);
  return booked(session,
                receive_order(*store, result->book, result->purchase, session.request.today, session.diagnostics),
                units);
}

}  // namespace

Answer run_stock_list(Session& session) {
  const auto store = open_store(session, StoreUse::read);
  if (!store) return stopped(session);
  const std::vector<StockEntry> entries = list_stock(*store, false);
  const UnitSystem units = units_of_stock(session, *store);
  return {ExitCode::done,
          in_form(
              session,
              [&] {
                return stock_text(entries, {session.width, units});
              },
              [&] { return stock_document(entries, units); }, [&] { return stock_csv(entries, units); })};
}

Answer run_stock_add(Session& session) {
  const Request& request = session.request;
  const Source source = read_input(request.arguments[0], session.diagnostics);
  const auto vocabulary = read_vocabulary(session);
  if (!source || !vocabulary) return stopped(session);
  const auto listed = read_on_hand(source, *vocabulary, Currency{}, session.diagnostics);
  if (!listed) return stopped(session);
  auto store = open_store(session, StoreUse::write);
  if (!store) return stopped(session);
  const std::vector<StockBooked> added =
      book_stock(*store, changes_of_list(*listed), request.reason.value_or(""), request.today, session.diagnostics);
  return booked(session, added, request.units.value_or(units_of_file(source)));
}

Answer run_stock_receive(Session& session) {
  if (is_pool(session.request.arguments[0])) return receive_pool(session);
  const auto bought = buy_all(session, session.request.arguments[0], false);
  if (!bought) return stopped(session);
  const OrderView view{bought->book, bought->purchase, bought->sized ? &*bought->sized : nullptr};
  // What cannot be bought cannot have come: the order says what is in the way.
  if (bought->purchase.outcome != Outcome::bought) {
    return {ExitCode::no_answer, order_text(view, {session.width, bought->units})};
  }
  auto store = open_store(session, StoreUse::write);
  if (!store) return stopped(session);
  return booked(session,
                receive_order(*store, bought->book, bought->purchase, session.request.today, session.diagnostics),
                bought->units);
}

Answer run_stock_use(Session& session) {
  const std::string& word = session.request.arguments[1];
  const auto length = parse_length(word, {});
  if (!parse_count(word) && length && length->tenths_mm > 0) return cut(session, *length);
  return move(session, StockMove::used, 1, -1, "a whole number from 1 on, or of tubing a length such as 12 ft");
}
Answer run_stock_count(Session& session) { return move(session, StockMove::counted, 0, 1, "a whole number from 0 on"); }
Answer run_stock_adjust(Session& session) {
  return move(session, StockMove::adjusted, -kMostParts, 1, "how many more or less, as +2 or -2");
}

}  // namespace teetally
