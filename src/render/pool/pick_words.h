#pragma once
// Picks in words, and picks of the same sku put together.
#include <set>
#include <string>
#include <vector>

#include "teetally/render/pool_papers.h"

namespace teetally {

const Plot& plot_of(const PoolResult& result, int line);
const PlotShare& share_of(const PoolResult& result, int line);
std::string plot_title(const Plot& plot);  // "plot A1, Ines"

struct PickWords {
  std::string amount, sku, name;
  std::string from;   // "FH-TE50-10 no. 2", "coil 4, cut 2"
  std::string where;  // of cuts: which piece it is
};
// Picks from packs that are used up one after another are one row.
std::vector<PickWords> words_of(const PaperView& view, const std::vector<Pick>& picks, UnitSystem units);
// Neighbours in the sequence that want the same.
struct PackingStep {
  std::size_t first = 0, last = 0;
};
std::vector<PackingStep> packing_steps(const PaperView& view);
std::string step_names(const PaperView& view, const PackingStep& step);  // "A1 to B3 (4 alike)"
// Packs that a step is the first to take from; `begun` grows by them.
std::vector<PackThere> newly_opened(const PaperView& view, const PackingStep& step, std::set<int>& begun);
std::vector<std::string> pack_ranges(const PoolResult& result,
                                     const std::vector<PackThere>& packs);  // "TW-1 no. 2 to 4"
std::string opened_words(const PoolResult& result, const std::vector<PackThere>& packs);
bool same_sku(const PackThere& a, const PackThere& b);
std::string packing_words(const PaperView& view);
std::string pack_label(const PoolResult& result, const PackThere& pack);  // "FH-TE50-10 no. 2"

}  // namespace teetally
