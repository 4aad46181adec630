#pragma once
// Pieces of JSON documents that several documents share. docs/json.md describes them.
#include <string>
#include <string_view>

#include "teetally/render.h"

namespace teetally {

Json document_start(std::string_view document, std::string_view name);    // "document", "version", "name"
Json amount_json(bool by_length, std::int64_t amount, UnitSystem units);  // {"amount", "unit", "text"}
Json place_json(const Place& place);                                      // {"file", "line", "column"} or null
Json part_json(const PartSpec& part, UnitSystem units);                   // to_json's, with "text"
Json verdict_json(const SizedGarden* sized);                              // {"verdict", "words"} or null
Json words_json(const std::vector<std::string>& words);
Json reasons_json(const Need& need, UnitSystem units);
Json near_misses_json(const OfferBook& book, int need);  // of one need; need < 0: of all
Json line_json(const Catalog& catalog, const OrderLine& line, UnitSystem units);
Json supplier_json(const Catalog& catalog);

}  // namespace teetally
