#pragma once
// Changes to a garden that might make it work, each as words, as an edit to the design file, and as the garden that
// results, so that it can be solved before anybody is told. Gardens are as laid out: sizes not chosen yet.
#include <optional>
#include <string>
#include <vector>

#include "hydraulics/settings.h"

namespace teetally::hydraulics {

struct Change {
  std::string words;
  std::string edit;
  Garden garden;
  std::optional<Pressure> regulator;  // instead of the practice's, for drip and tape
};

// All changes that can be made to a zone of `laid_out`, the cheapest-looking first. `sized` is the same garden sized.
std::vector<Change> changes_for(const Garden& laid_out, const Garden& sized, int zone, const Practice& practice,
                                UnitSystem units);

}  // namespace teetally::hydraulics
