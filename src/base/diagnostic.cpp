#include "teetally/base/diagnostic.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <tuple>

namespace teetally {

Diagnostic& Diagnostics::error(std::string slug, Place place, std::string message) {
  entries_.push_back({Severity::error, std::move(slug), std::move(place), std::move(message), {}, {}});
  return entries_.back();
}

Diagnostic& Diagnostics::warning(std::string slug, Place place, std::string message) {
  entries_.push_back({Severity::warning, std::move(slug), std::move(place), std::move(message), {}, {}});
  return entries_.back();
}

void Diagnostics::add(Diagnostic diagnostic) { entries_.push_back(std::move(diagnostic)); }

bool Diagnostics::has_errors() const {
  return std::any_of(entries_.begin(), entries_.end(),
                     [](const Diagnostic& entry) { return entry.severity == Severity::error; });
}

std::vector<Diagnostic> Diagnostics::in_order() const {
  std::map<std::string, std::size_t> first_seen;
  std::vector<std::tuple<std::size_t, int, int>> keys;
  for (const Diagnostic& entry : entries_) {
    const std::string file = entry.place.known() ? entry.place.source->name : std::string();
    const std::size_t rank = first_seen.emplace(file, first_seen.size()).first->second;
    keys.emplace_back(rank, entry.place.line, entry.place.column);
  }
  std::vector<std::size_t> order(entries_.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return keys[a] < keys[b]; });
  std::vector<Diagnostic> sorted;
  // A line of a file that is laid out several times is read several times; what is wrong with it is said once.
  std::set<std::tuple<std::tuple<std::size_t, int, int>, std::string_view, std::string_view>> said;
  for (const std::size_t index : order) {
    const Diagnostic& entry = entries_[index];
    if (!entry.place.known() || said.emplace(keys[index], entry.slug, entry.message).second) sorted.push_back(entry);
  }
  return sorted;
}

}  // namespace teetally
