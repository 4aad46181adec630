#pragma once
// The ways to buy that a Comparison holds, in one list and in words: the same for text, JSON and CSV.
#include <string>
#include <vector>

#include "render/order_parts.h"
#include "teetally/purchase/compare.h"
#include "teetally/render.h"

namespace teetally {

struct Way {
  std::string kind;  // "cheapest", "loose", "bundle", "supplier"
  std::string what;  // "loose parts only", "bundle FH-B1 One raised bed"
  const Purchase* purchase = nullptr;
  const BundleVerdict* verdict = nullptr;  // of bundles
  int catalog = -1;                        // of bundles and single suppliers
};
// What can be bought first, cheapest first; then what cannot.
std::vector<Way> ways_of(const CompareView& view);

// Why a way has no total, or that it is the best found and not proven; else nothing.
std::string way_remark(const CompareView& view, const Way& way);

std::string catalog_name(const Catalog& catalog);
std::string suppliers_phrase(const OfferBook& book, const Purchase& purchase);
// "6.40 more", "the same", "4.10 to 6.40 more".
std::string more_phrase(const Difference& difference, const Currency& currency);
std::string missing_phrase(const OfferBook& book, const Purchase& purchase);   // the needs that cannot be had
std::string missing_briefly(const OfferBook& book, const Purchase& purchase);  // only their number where they are many
std::vector<std::string> added_words(const CompareView& view, const Way& way, UnitSystem units);  // loose parts
std::vector<std::string> left_words(const CompareView& view, const Way& way, UnitSystem units);
std::vector<std::string> change_words(const CompareView& view, const Way& way, UnitSystem units);
// "dearer by 6.40; pays when its price falls to 41.20".
std::string verdict_phrase(const CompareView& view, const BundleVerdict& verdict);
// The answer in one sentence: a bundle with changes or loose parts, and by how much.
std::string advice_sentence(const CompareView& view);

}  // namespace teetally
