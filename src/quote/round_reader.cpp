// The round file as values, and what can be wrong with it.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "teetally/quote/round.h"

namespace teetally {
namespace {

const BareUnits kNoUnits;
constexpr std::int64_t kMostPacks = 1'000'000;
constexpr std::int64_t kWhole = 1'000'000;  // of a percentage, in parts per million

RoundState state_called(const std::string& word) {
  for (const RoundState state : {RoundState::frozen, RoundState::ordered, RoundState::received}) {
    if (to_text(state) == word) return state;
  }
  return RoundState::open;
}

Delivery read_delivery(const YamlNode& node, bool substituted, const Currency& currency, Diagnostics& diagnostics) {
  Fields fields(node, "quote", substituted ? "a substitute" : "a shortage", kNoUnits, diagnostics);
  Delivery delivery;
  if (!fields.is_mapping()) return delivery;
  delivery.place = fields.place();
  delivery.substituted = substituted;
  for (const char* key : {"supplier", "sku"}) fields.require(key);
  delivery.supplier = fields.text("supplier").value_or("");
  delivery.sku = fields.text("sku").value_or("");
  delivery.packs = fields.count("packs", 1, kMostPacks).value_or(0);
  if (!substituted) {
    fields.require("packs");
    delivery.change = Money{} - fields.money("refund", currency).value_or(Money{});
  } else {
    if (fields.has("dearer by") && fields.has("cheaper by")) {
      diagnostics.error("quote/bad-value", delivery.place, "a substitute is dearer and cheaper at once").help =
          "give one of 'dearer by' and 'cheaper by'";
    }
    delivery.change = fields.money("dearer by", currency).value_or(Money{});
    delivery.change = delivery.change - fields.money("cheaper by", currency).value_or(Money{});
  }
  fields.finish();
  return delivery;
}

// The order and its line for a sku of a supplier; nullptr when there is none.
struct LineThere {
  const SupplierOrder* order = nullptr;
  const OrderLine* line = nullptr;
};
LineThere line_called(const PoolResult& result, const Delivery& delivery) {
  for (const SupplierOrder& order : result.purchase.orders) {
    const Catalog& catalog = *result.book.catalogs[order.catalog];
    if (catalog.id != delivery.supplier) continue;
    for (const OrderLine& line : order.lines) {
      if (line.bundle < 0 && catalog.items[line.item].packs[line.pack].sku == delivery.sku) return {&order, &line};
    }
  }
  return {};
}

bool same_packs(const Delivery& a, const Delivery& b) {
  return a.supplier == b.supplier && a.sku == b.sku && a.substituted == b.substituted;
}

// Packs of one sku may be named in several lines: that all of them together were ordered is seen at the last one.
void check_count(const Round& round, std::size_t d, const OrderLine& line, Diagnostics& diagnostics) {
  const Delivery& delivery = round.deliveries[d];
  std::int64_t packs = 0;
  for (std::size_t other = 0; other <= d; ++other) {
    if (same_packs(round.deliveries[other], delivery)) packs += round.deliveries[other].packs;
  }
  if (packs <= line.count) return;
  diagnostics.error(
      "quote/not-ordered", delivery.place,
      fmt::format("{} of {} {}, and {} ordered", counted(packs, "pack"), quoted(delivery.sku),
                  delivery.substituted ? "came as something else" : (packs == 1 ? "is missing" : "are missing"),
                  counted(line.count, "was", "were")));
}

// What so many packs of a line cost, with their tax; none stated: all of them. Rounded up.
Money price_of_packs(const OrderLine& line, std::int64_t packs, const OrderingTerms& terms) {
  const std::int64_t some = packs == 0 ? line.count : packs;
  const std::int64_t goods = (line.goods.minor * some + line.count - 1) / line.count;
  return {goods + (goods * terms.tax.ppm + kWhole - 1) / kWhole};
}

// More than everything there cost cannot come back; more than the packs cost may hold shipping, or a slip.
void check_refund(const Delivery& delivery, const LineThere& there, const PoolResult& result,
                  Diagnostics& diagnostics) {
  const Currency& currency = result.pool.currency;
  const Money back = Money{} - delivery.change;
  if (back > there.order->cost.total) {
    diagnostics
        .error("quote/refund-too-large", delivery.place,
               fmt::format("the supplier pays back {}, and the whole order there costs {}", to_text(back, currency),
                           to_text(there.order->cost.total, currency)))
        .help = "give what was paid back for these packs";
    return;
  }
  const OrderingTerms& terms = result.book.catalogs[there.order->catalog]->terms;
  const Money price = price_of_packs(*there.line, delivery.packs, terms);
  if (back <= price) return;
  diagnostics
      .warning("quote/large-refund", delivery.place,
               fmt::format("the supplier pays back {}, and these packs cost {} with tax", to_text(back, currency),
                           to_text(price, currency)))
      .help = "nothing, if shipping was paid back too; otherwise correct the amount";
}

void check_delivery(const Round& round, std::size_t d, const PoolResult& result, Diagnostics& diagnostics) {
  const Delivery& delivery = round.deliveries[d];
  const LineThere there = line_called(result, delivery);
  if (there.line == nullptr) {
    diagnostics
        .error(
            "quote/not-ordered", delivery.place,
            fmt::format("no pack {} of supplier {} is in the order", quoted(delivery.sku), quoted(delivery.supplier)))
        .help = "give the supplier's id and a sku as 'pool --paper orders --format csv' lists them; bundles by hand";
    return;
  }
  check_count(round, d, *there.line, diagnostics);
  check_refund(delivery, there, result, diagnostics);
}

}  // namespace

std::string to_text(RoundState state) {
  switch (state) {
    case RoundState::open:
      return "open";
    case RoundState::frozen:
      return "frozen";
    case RoundState::ordered:
      return "ordered";
    case RoundState::received:
      return "received";
  }
  return {};
}

std::optional<Round> read_round(const Source& source, const Currency& currency, Diagnostics& diagnostics) {
  const YamlNode root = read_yaml(source, diagnostics);
  if (root.kind == YamlNode::Kind::null && diagnostics.has_errors()) return std::nullopt;
  Fields fields(root, "quote", "the round", kNoUnits, diagnostics);
  if (!fields.is_mapping()) return std::nullopt;
  Round round;
  round.place = fields.place();
  if (fields.require("teetally") != nullptr && fields.text("teetally").value_or("round 1") != "round 1") {
    diagnostics.error("quote/not-a-round", fields.place_of("teetally"), "this is no round file").help =
        "the first line of a round file is 'teetally: round 1'";
    return std::nullopt;
  }
  round.name = fields.text("name").value_or("");
  round.state = state_called(fields.one_of("state", {"open", "frozen", "ordered", "received"}).value_or("open"));
  round.total = fields.money("total", currency);
  round.total_place = fields.place_of("total");
  round.left = fields.texts("left");
  round.left_place = fields.place_of("left");
  round.left_late = fields.texts("left late");
  round.late_place = fields.place_of("left late");
  for (const YamlNode* node : fields.list("short")) {
    round.deliveries.push_back(read_delivery(*node, false, currency, diagnostics));
  }
  for (const YamlNode* node : fields.list("substitutes")) {
    round.deliveries.push_back(read_delivery(*node, true, currency, diagnostics));
  }
  fields.finish();
  if (diagnostics.has_errors()) return std::nullopt;
  return round;
}

namespace {

// `gone` has those who are known to have left.
void check_left(const std::vector<std::string>& names, const Place& place, const PoolResult& result,
                std::set<std::string>& gone, Diagnostics& diagnostics) {
  for (const std::string& name : names) {
    if (!gone.insert(name).second) {
      diagnostics.error("quote/left-twice", place, fmt::format("plot {} leaves twice", quoted(name))).help =
          "name it once: under 'left' before the order is sent, under 'left late' after";
      continue;
    }
    const bool known = std::any_of(result.plots.begin(), result.plots.end(),
                                   [&](const PlotShare& share) { return result.pool.plots[share.plot].name == name; });
    if (known) continue;
    diagnostics.error("quote/unknown-plot", place, fmt::format("no plot of this order is called {}", quoted(name)));
  }
}

void check_state(const Round& round, Diagnostics& diagnostics) {
  const auto early = [&](const Place& place, const char* why) {
    diagnostics.error("quote/too-early", place, fmt::format("the round is {}; {}", to_text(round.state), why)).help =
        "set 'state' to where the order is: open, frozen, ordered or received";
  };
  const bool received = round.state == RoundState::received;
  if (round.state == RoundState::open && !round.left.empty())
    early(round.left_place, "plots leave an open round by 'in: no'");
  if (!received && round.state != RoundState::ordered && !round.left_late.empty()) {
    early(round.late_place, "nobody can leave late before the order is sent");
  }
  if (!received && !round.deliveries.empty())
    early(round.deliveries.front().place, "what came is known once it is received");
}

}  // namespace

void check_round(const Round& round, const PoolResult& result, Diagnostics& diagnostics) {
  if (round.state != RoundState::open && !round.total) {
    diagnostics.error("quote/missing-key", round.place, "the round has no key 'total'").help =
        "write what the order cost when it was frozen, so that a changed order is noticed";
  }
  if (round.total && *round.total != result.purchase.total) {
    diagnostics
        .error(
            "quote/round-differs", round.total_place,
            fmt::format("the order was frozen at {} and now comes to {}", to_text(*round.total, result.pool.currency),
                        to_text(result.purchase.total, result.pool.currency)))
        .help = "use the pool file and the catalogs as they were when the order was frozen";
  }
  std::set<std::string> gone;
  check_left(round.left, round.left_place, result, gone, diagnostics);
  check_left(round.left_late, round.late_place, result, gone, diagnostics);
  check_state(round, diagnostics);
}

void check_deliveries(const Round& round, const PoolResult& now, Diagnostics& diagnostics) {
  for (std::size_t d = 0; d < round.deliveries.size(); ++d) check_delivery(round, d, now, diagnostics);
}

}  // namespace teetally
