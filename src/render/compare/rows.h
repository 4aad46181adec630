#pragma once
// What a comparison tells besides its ways, as rows of words: the same for text, page and workbook.
#include <string>
#include <vector>

#include "teetally/render.h"

namespace teetally {

inline constexpr const char* kHowCompared =
    "Each way is the cheapest order of its kind, bought anew and checked from the catalogs; where one is not proven, "
    "it says so. The proofs rest on:";

// "cannot be had", "not settled", or how much dearer.
std::string costs_phrase(const CompareView& view, const Purchase& purchase);
std::string no_comparison_words(const CompareView& view);  // why there is nothing to compare; else nothing
std::string idle_bundles(const CompareView& view);         // bundles that hold nothing needed

std::vector<Row> fewer_rows(const CompareView& view);                   // what | costs
std::vector<Row> plan_rows(const CompareView& view);                    // suppliers and bundles | total
std::string plans_end_words(const CompareView& view);                   // why there are no more of them
std::vector<Row> pack_rows(const CompareView& view, UnitSystem units);  // sku | what | how far its price may rise
std::vector<Row> need_rows(const CompareView& view, UnitSystem units);  // need, part, one, more, fewer, spares
std::string all_spares_words(const CompareView& view);                  // a sentence, or nothing

}  // namespace teetally
