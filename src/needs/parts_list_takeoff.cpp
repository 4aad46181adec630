// A parts list has no drawing, so nothing says which parts touch. Unless it says otherwise, all its tubing and
// fittings of one nominal size are taken to be connected: a purchase then never mixes fit families on them.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "needs/ends.h"
#include "needs/parts_list.h"
#include "needs/tally.h"

namespace teetally {
namespace {

class ListSystems {
 public:
  explicit ListSystems(std::vector<TubingSystem>& systems) : systems_(systems) {}

  int find(const std::string& name, const std::string& size) {
    const auto [entry, is_new] = index_.try_emplace({name, size}, static_cast<int>(systems_.size()));
    if (is_new) systems_.push_back({name.empty() ? size : fmt::format("{}, {}", size, name), size});
    return entry->second;
  }

 private:
  std::vector<TubingSystem>& systems_;
  std::map<std::pair<std::string, std::string>, int> index_;
};

std::vector<int> systems_of(const ListedPart& listed, const KindType& kind, ListSystems& systems,
                            Diagnostics& diagnostics) {
  const std::vector<std::string> sizes = sizes_of_ends(listed.part, kind);
  if (std::find(sizes.begin(), sizes.end(), "") != sizes.end()) {
    diagnostics
        .warning("needs/size-not-given", listed.place,
                 fmt::format("{} does not give one size for each of its ends", quoted(kind.name)))
        .help = "without it nothing checks that the part bought fits the tubing; give one size per end";
    return {};
  }
  std::vector<int> found;
  for (const std::string& size : sizes) found.push_back(systems.find(listed.system, size));
  return found;
}

Reason reason_for(const ListedPart& listed, bool by_length) {
  Reason reason;
  reason.element = "parts list";
  reason.rule = "listed";
  reason.where = listed.purpose;
  reason.amount = by_length ? listed.length.tenths_mm * listed.count : listed.count;
  reason.place = listed.place;
  return reason;
}

}  // namespace

Takeoff as_takeoff(const PartsList& list, const Vocabulary& vocabulary, Diagnostics& diagnostics) {
  Takeoff takeoff;
  takeoff.name = list.name;
  ListSystems systems(takeoff.systems);
  Tally tally(vocabulary);
  for (const ListedPart& listed : list.parts) {
    const KindType& kind = *vocabulary.find(listed.part.kind);
    const std::vector<int> ends = list.connected ? systems_of(listed, kind, systems, diagnostics) : std::vector<int>{};
    Need& need = tally.add(listed.part, ends, reason_for(listed, kind.by_length));
    if (kind.by_length) {
      need.pieces.insert(need.pieces.end(), static_cast<std::size_t>(listed.count),
                         {listed.length, listed.purpose, listed.is_total || listed.may_join, listed.is_total});
    }
  }
  tally.finish(takeoff.needs, takeoff.covered);
  return takeoff;
}

}  // namespace teetally
