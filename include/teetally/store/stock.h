#pragma once
// Parts on hand, kept as what came and went. Equal parts are one entry: kind, attributes, diameters and grips, and for
// tubing the length of a piece. An entry never goes below nothing.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "teetally/purchase.h"
#include "teetally/store.h"

namespace teetally {

// What an entry is. `item.packs` is empty; `item.sku` is the supplier's.
struct StockPart {
  Item item;
  Length length{};  // of one piece of tubing; zero otherwise
};
struct StockEntry {
  std::int64_t number = 0;  // P1, P2, ... for people
  StockPart part;
  std::int64_t count = 0;  // pieces on hand
  std::string last_day;    // of the last change
};
std::string stock_name(std::int64_t number);                             // "P3"
std::optional<std::int64_t> stock_number(std::string_view name);         // of "P3" or "p3"
std::vector<StockEntry> list_stock(const Store& store, bool empty_too);  // by number

// What is on hand as read_on_hand would give it, to buy from: the sku is the entry's name.
Catalog stock_as_catalog(const Store& store, const Currency& currency);

enum class StockMove { received, used, counted, adjusted };
std::string to_text(StockMove move);

// So many pieces more or less of a part, known by its number or described.
struct StockChange {
  std::optional<std::int64_t> number;
  StockPart part;  // where no number is given
  std::int64_t change = 0;
  StockMove move = StockMove::received;
};
struct StockBooked {
  StockEntry entry;  // after the change
  std::int64_t change = 0;
  StockMove move = StockMove::received;
};
// All of the changes or none: store/no-part, store/not-that-many. `why` says for which job or order.
std::vector<StockBooked> book_stock(Store& store, const std::vector<StockChange>& changes, const std::string& why,
                                    const std::string& day, Diagnostics& diagnostics);
// An entry was counted: it has so many now.
std::vector<StockBooked> count_stock(Store& store, std::int64_t number, std::int64_t count, const std::string& why,
                                     const std::string& day, Diagnostics& diagnostics);

// A piece of an entry of tubing is cut: it goes, and what is left of it comes back as a piece of its own.
// store/no-part, store/not-cut where it comes in pieces or the pieces are shorter.
std::vector<StockChange> changes_of_cut(const Store& store, std::int64_t number, Length used, UnitSystem units,
                                        Diagnostics& diagnostics);

// What carrying out a purchase does to the stock: what it takes from there goes, its spare pieces come, and tubing
// comes as the offcuts that are worth keeping.
std::vector<StockChange> changes_of_order(const OfferBook& book, const Purchase& purchase);
// Books them, once a day for orders of one name: store/received-already.
std::vector<StockBooked> receive_order(Store& store, const OfferBook& book, const Purchase& purchase,
                                       const std::string& day, Diagnostics& diagnostics);
// The parts of a list of parts on hand.
std::vector<StockChange> changes_of_list(const Catalog& on_hand);

}  // namespace teetally
