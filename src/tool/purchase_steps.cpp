#include <algorithm>

#include "tool/pipeline.h"
#include "tool/suppliers.h"

namespace teetally {
namespace {

// The parts at hand join the catalogs as one more supplier, whatever suppliers the limits allow.
void add_on_hand(Session& session, const Vocabulary& vocabulary, std::vector<Catalog>& catalogs) {
  if (!session.request.on_hand) return;
  const Source source = read_input(*session.request.on_hand, session.diagnostics);
  if (!source) return;
  auto on_hand = read_on_hand(source, vocabulary, catalogs.front().currency, session.diagnostics);
  if (!on_hand) return;
  if (!session.request.limits.only_suppliers.empty()) session.request.limits.only_suppliers.push_back(on_hand->id);
  catalogs.push_back(std::move(*on_hand));
}

// The same book with the nearest misses of every need: wanted once it is known that there is no purchase.
OfferBook with_near_misses(const OfferBook& book, const Vocabulary& vocabulary, UnitSystem units) {
  std::vector<Catalog> catalogs;
  for (const auto& catalog : book.catalogs) catalogs.push_back(*catalog);
  OfferWishes wishes;
  wishes.near_misses = true;
  return find_offers(book.takeoff, std::move(catalogs), vocabulary, wishes, units);
}

// A purchase that does not stand its audit is a bug of ours, never an answer.
void assert_sound(const OfferBook& book, const BuyLimits& limits, const Purchase& purchase) {
  if (purchase.outcome != Outcome::bought) return;
  const std::vector<std::string> wrong = audit(book, limits, purchase);
  if (!wrong.empty()) throw std::logic_error("the purchase found does not stand its audit: " + wrong.front());
}

bool catalogs_given(Session& session) {
  if (!session.request.catalogs.empty()) return true;
  session.diagnostics.error("tool/no-catalogs", {}, "no catalogs are given to buy from").help =
      "name files or folders of suppliers' catalogs: --catalogs PATH...";
  return false;
}

}  // namespace

std::optional<std::vector<Catalog>> catalogs_of(Session& session, const Vocabulary& vocabulary) {
  const Request& request = session.request;
  if (!catalogs_given(session)) return std::nullopt;
  std::vector<Catalog> catalogs =
      timed(session, "catalog", [&] { return read_suppliers(session, request.catalogs, vocabulary); });
  std::size_t items = 0;
  for (const Catalog& catalog : catalogs) items += catalog.items.size();
  note_size(session, counted(static_cast<std::int64_t>(catalogs.size()), "catalog") + ", " +
                         counted(static_cast<std::int64_t>(items), "item"));
  if (session.diagnostics.has_errors()) return std::nullopt;
  add_on_hand(session, vocabulary, catalogs);
  if (session.request.from_stock) add_stock(session, catalogs);
  if (session.diagnostics.has_errors()) return std::nullopt;
  const auto as_json = [&] {
    Json all = Json::array();
    for (const Catalog& catalog : catalogs) all.push(to_json(catalog));
    return all;
  };
  if (must_stop(session, "catalog", as_json)) return std::nullopt;
  return catalogs;
}

std::optional<Bought> buy_all(Session& session, const std::string& path, bool near_misses) {
  if (!catalogs_given(session)) return std::nullopt;
  auto listed = list_needs(session, path);
  if (!listed) return std::nullopt;
  auto catalogs = catalogs_of(session, listed->vocabulary);
  if (!catalogs) return std::nullopt;

  Bought bought;
  bought.vocabulary = std::move(listed->vocabulary);
  bought.units = listed->units;
  bought.site = std::move(listed->site);
  bought.sized = std::move(listed->sized);
  OfferWishes wishes;
  wishes.near_misses = near_misses;
  bought.book = timed(session, "offers", [&] {
    return find_offers(std::move(listed->takeoff), std::move(*catalogs), bought.vocabulary, wishes, bought.units);
  });
  note_size(session, counted(static_cast<std::int64_t>(bought.book.servings.size()), "serving"));
  check_limits(bought.book, session.request.limits, session.diagnostics);
  if (must_stop(session, "offers", [&] { return to_json(bought.book); })) return std::nullopt;
  const BuyLimits& limits = session.request.limits;
  bought.purchase = timed(session, "purchase", [&] { return buy(bought.book, limits); });
  note_size(session, counted(bought.purchase.proof.nodes, "node"));
  timed(session, "audit", [&] { return assert_sound(bought.book, limits, bought.purchase), 0; });
  if (bought.purchase.outcome == Outcome::infeasible && !near_misses) {
    bought.book = with_near_misses(bought.book, bought.vocabulary, bought.units);
  }
  if (must_stop(session, "purchase", [&] { return to_json(bought.purchase, bought.book); })) return std::nullopt;
  return bought;
}

}  // namespace teetally
