#pragma once
// What a run card says, the same for text and page. Words from files are as they stand there.
#include <string>
#include <vector>

#include "teetally/render/run_card.h"

namespace teetally {

struct ZoneWords {
  std::string zone, starts, each, in_all, water, onto, rate;  // "-" where there is no start
};
ZoneWords zone_words(const ZoneRun& run, UnitSystem units);
std::vector<std::string> run_card_reckoning(const RunCard& card);  // where the figures come from

}  // namespace teetally
