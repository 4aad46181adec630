#pragma once
// Values of the stages as something to read: text for a terminal, JSON documents (versioned, docs/json.md) and
// CSV. Nothing is decided here and no number is shown that is not in the value given. Text from files is made
// safe for each form. Texts end with a newline and fit Page::width.
#include <optional>
#include <string>
#include <vector>

#include "teetally/catalog.h"
#include "teetally/hydraulics.h"
#include "teetally/needs.h"
#include "teetally/offers.h"
#include "teetally/purchase.h"
#include "teetally/purchase/compare.h"
#include "teetally/render/layout.h"

namespace teetally {

struct Page {
  int width = 80;
  UnitSystem units = UnitSystem::us;
};

// Does the garden work: every zone's verdict and figures, the sizes and why, and on request what to change. `advice`,
// by zone, is absent when nobody asked for it; `rows` lists every row instead of the least even one of each element.
struct CheckView {
  const SizedGarden& sized;
  const std::vector<std::vector<Advice>>* advice = nullptr;
  bool rows = false;
};
std::string check_text(const CheckView& view, const Page& page);
Json check_document(const CheckView& view, UnitSystem units);       // "teetally/check"
std::string check_csv(const SizedGarden& sized, UnitSystem units);  // a row per run

// Needs by kind with their reasons. `sized` is absent for parts lists.
std::string takeoff_text(const Takeoff& takeoff, const SizedGarden* sized, const Page& page);
Json takeoff_document(const Takeoff& takeoff, const SizedGarden* sized, UnitSystem units);  // "teetally/takeoff"
std::string takeoff_csv(const Takeoff& takeoff, UnitSystem units);                          // a row per need

// What a purchase buys, from whom, for how much, for which need, and how sure that is.
struct OrderView {
  const OfferBook& book;
  const Purchase& purchase;
  const SizedGarden* sized = nullptr;
};
std::string order_text(const OrderView& view, const Page& page);
Json order_document(const OrderView& view, UnitSystem units);    // "teetally/order"
std::string order_csv(const OrderView& view, UnitSystem units);  // a row per order line

// Which piece of tubing comes from which coil, in cutting order.
std::string cut_list_text(const OrderView& view, const Page& page);
Json cut_list_document(const OrderView& view, UnitSystem units);    // "teetally/cut-list"
std::string cut_list_csv(const OrderView& view, UnitSystem units);  // a row per cut, and one for what is left of a coil

// The ways to buy side by side, and what each would cost more; why_text is the short form under an order.
struct CompareView {
  const OfferBook& book;
  const Comparison& comparison;
};
std::string compare_text(const CompareView& view, const Page& page);
Json compare_document(const CompareView& view, UnitSystem units);    // "teetally/comparison"
std::string compare_csv(const CompareView& view, UnitSystem units);  // a row per way
std::string why_text(const CompareView& view, const Page& page);

// Needs walked back to the lines of the files that asked for them. `book` and `purchase` are absent when no
// catalogs were given.
struct WalkView {
  const Takeoff& takeoff;
  std::vector<int> needs;
  const OfferBook* book = nullptr;
  const Purchase* purchase = nullptr;
};
std::string walk_text(const WalkView& view, const Page& page);
Json walk_document(const WalkView& view, UnitSystem units);    // "teetally/explanation"
std::string walk_csv(const WalkView& view, UnitSystem units);  // a row per reason

// What catalogs hold.
std::string catalogs_text(const std::vector<Catalog>& catalogs, const Page& page);
Json catalogs_document(const std::vector<Catalog>& catalogs);                      // "teetally/catalogs"
std::string catalogs_csv(const std::vector<Catalog>& catalogs, UnitSystem units);  // a row per pack

}  // namespace teetally
