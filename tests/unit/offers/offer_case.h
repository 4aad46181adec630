#pragma once
// Catalogs as text and takeoffs by hand, for tests of matching.
#include <string>
#include <vector>

#include "teetally/offers.h"

namespace offer_case {

using namespace teetally;

inline const Vocabulary& vocabulary() {
  static const Vocabulary shipped = shipped_vocabulary();
  return shipped;
}

inline Catalog catalog(const std::string& id, const std::string& items) {
  Diagnostics diagnostics;
  auto read = read_catalog(
      source_from_text(id + ".yaml", "teetally: catalog 1\nsupplier: {id: " + id + "}\ncurrency: USD\n" + items),
      vocabulary(), diagnostics);
  std::string complaints;
  for (const auto& entry : diagnostics.in_order()) complaints += to_text(entry);
  if (!read) throw std::invalid_argument(complaints);
  return *read;
}

// A part written as in a file: "{kind: tee, size: 1/2 in, branch size: 1/2 in}".
inline PartSpec part(const std::string& text) {
  Diagnostics diagnostics;
  const YamlNode node = read_yaml(source_from_text("part", text), diagnostics);
  const BareUnits bare;
  Fields fields(node, "catalog", "the part", bare, diagnostics);
  auto spec = read_part(fields, vocabulary(), bare, diagnostics);
  fields.finish();
  if (!spec || diagnostics.has_errors()) throw std::invalid_argument(text);
  return *spec;
}

inline Need need(const std::string& text, std::vector<int> systems = {}) {
  Need made;
  made.part = part(text);
  made.systems = std::move(systems);
  made.by_length = vocabulary().find(made.part.kind)->by_length;
  made.amount = 1;
  return made;
}
inline Need tubing(const std::string& text, int system, Length longest, bool may_join = false) {
  Need made = need(text, {system});
  made.pieces.push_back({longest, "somewhere", may_join});
  made.amount = longest.tenths_mm;
  return made;
}

inline Takeoff takeoff(std::vector<std::string> systems, std::vector<Need> needs) {
  Takeoff made;
  for (const std::string& name : systems) made.systems.push_back({name, name});
  made.needs = std::move(needs);
  for (std::size_t i = 0; i < made.needs.size(); ++i) made.needs[i].id = "N" + std::to_string(i + 1);
  return made;
}

inline OfferBook offers(Takeoff takeoff, std::vector<Catalog> catalogs, bool near_misses = false) {
  OfferWishes wishes;
  wishes.near_misses = near_misses;
  return find_offers(std::move(takeoff), std::move(catalogs), vocabulary(), wishes, UnitSystem::us);
}

inline std::string sku_of(const OfferBook& book, int item) {
  const BookItem& at = book.items[static_cast<std::size_t>(item)];
  return book.catalogs[static_cast<std::size_t>(at.catalog)]->items[static_cast<std::size_t>(at.item)].sku;
}

// What serves a need, in order, with its conditions: "T1(0:0,1)" is item T1 when system 0 has family 0 or 1.
inline std::string servings(const OfferBook& book, int need) {
  std::string text;
  for (const Serving& serving : book.servings) {
    if (serving.need != need) continue;
    text += (text.empty() ? "" : " ") + sku_of(book, serving.item) + "(";
    for (const FitCondition& condition : serving.conditions) {
      text += (text.back() == '(' ? "" : " ") + std::to_string(condition.system) + ":";
      for (const int family : condition.families) text += (text.back() == ':' ? "" : ",") + std::to_string(family);
    }
    text += ")";
  }
  return text;
}

// "T2: grips ...", nearest first.
inline std::vector<std::string> misses(const OfferBook& book, int need) {
  std::vector<std::string> texts;
  for (const NearMiss& miss : book.near_misses) {
    if (miss.need == need) texts.push_back(sku_of(book, miss.item) + ": " + miss.why);
  }
  return texts;
}

}  // namespace offer_case
