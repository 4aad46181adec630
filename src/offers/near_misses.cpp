#include "offers/near_misses.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "offers/families.h"
#include "offers/fitting.h"

namespace teetally {

namespace {

struct Candidate {
  std::size_t mismatches = 0;
  double distance = 0;  // sum over attributes, each 0 (alike) to 1 (unlike)
  const Alike* alike = nullptr;
  BookItem item;
  std::vector<std::string> why;
};

bool nearer(const Candidate& a, const Candidate& b) {
  return std::tie(a.mismatches, a.distance, a.item.catalog, a.item.item) <
         std::tie(b.mismatches, b.distance, b.item.catalog, b.item.item);
}

double apart(const AttributeValue& a, const AttributeValue& b) {
  if (a.dimension == Dimension::word || b.dimension == Dimension::word) return 1;
  const double x = static_cast<double>(a.low), y = static_cast<double>(b.low);
  const double larger = std::max(std::fabs(x), std::fabs(y));
  return larger == 0 ? 0 : std::min(1.0, std::fabs(x - y) / larger);
}

// Each attribute of the need on its own, since one mismatch may hide another.
Candidate compare(const Need& need, const Alike& alike, const Vocabulary& vocabulary, UnitSystem units) {
  Candidate candidate;
  candidate.alike = &alike;
  candidate.item = alike.items.front();
  for (const auto& [name, value] : need.part.attributes) {
    const PartSpec one{need.part.kind, {{name, value}}};
    auto why = mismatch(one, alike.part, vocabulary, units);
    if (!why) continue;
    const auto given = alike.part.attributes.find(name);
    candidate.distance += given == alike.part.attributes.end() ? 1 : apart(value, given->second);
    candidate.why.push_back(std::move(*why));
  }
  candidate.mismatches = candidate.why.size();
  return candidate;
}

// Why an item of the right specification still does not serve; empty when it does.
std::string obstacle(const Need& need, const BookItem& at, const OfferBook& book, const Shelf& shelf,
                     const Vocabulary& vocabulary, UnitSystem units) {
  const Item& item = book.catalogs[static_cast<std::size_t>(at.catalog)]->items[static_cast<std::size_t>(at.item)];
  if (!shelf.of(at).for_sale) return "none can be bought: no pack has any left, and no bundle holds it";
  if (need.by_length) {
    if (can_be_cut_for(need, at, shelf)) return "";
    return "its longest coil is " + to_text(shelf.of(at).longest_coil, units) + "; one piece of " +
           to_text(longest_unjoined(need), units) + " may not be joined";
  }
  const KindType* kind = vocabulary.find(need.part.kind);
  if (kind == nullptr || !ways_to_fit(need, item, kind->ends, book.systems).empty()) return "";
  return why_no_fit(need, item, book.takeoff, book.systems, units);
}

// The items of one specification: when only the specification is wrong, one of them stands for all.
void add_candidates(const Candidate& compared, const Need& need, const OfferBook& book, const Shelf& shelf,
                    const Vocabulary& vocabulary, UnitSystem units, std::vector<Candidate>& candidates) {
  if (compared.mismatches > 0) {
    candidates.push_back(compared);
    return;
  }
  for (const BookItem& at : compared.alike->items) {
    std::string why = obstacle(need, at, book, shelf, vocabulary, units);
    if (why.empty()) continue;
    Candidate one = compared;
    one.item = at;
    one.mismatches = 1;
    one.why.push_back(std::move(why));
    candidates.push_back(std::move(one));
  }
}

std::string joined(const std::vector<std::string>& reasons) {
  std::string text;
  for (const std::string& reason : reasons) text += (text.empty() ? "" : "; ") + reason;
  return text;
}

}  // namespace

std::vector<Miss> nearest_misses(const Need& need, const OfferBook& book, const Shelf& shelf,
                                 const Vocabulary& vocabulary, int most, UnitSystem units) {
  std::vector<Candidate> candidates;
  for (const Alike& alike : shelf.of_kind(need.part.kind)) {
    add_candidates(compare(need, alike, vocabulary, units), need, book, shelf, vocabulary, units, candidates);
  }
  const std::size_t kept = std::min(candidates.size(), static_cast<std::size_t>(std::max(most, 0)));
  std::partial_sort(candidates.begin(), candidates.begin() + static_cast<std::ptrdiff_t>(kept), candidates.end(),
                    nearer);
  std::vector<Miss> misses;
  for (std::size_t i = 0; i < kept; ++i) misses.push_back({candidates[i].item, joined(candidates[i].why)});
  return misses;
}

}  // namespace teetally
