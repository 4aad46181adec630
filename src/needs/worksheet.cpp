#include "needs/worksheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <map>
#include <utility>

namespace teetally {
namespace {

const NominalSize* find_size(const std::vector<NominalSize>& sizes, const std::string& name) {
  const auto found = std::find_if(sizes.begin(), sizes.end(), [&](const NominalSize& s) { return s.name == name; });
  return found == sizes.end() ? nullptr : &*found;
}

}  // namespace

Worksheet::Worksheet(const SizedGarden& sized_garden, const Practice& its_practice, const Vocabulary& its_vocabulary,
                     UnitSystem its_units)
    : sized(sized_garden),
      garden(sized_garden.garden),
      practice(its_practice),
      vocabulary(its_vocabulary),
      units(its_units),
      tally(its_vocabulary) {
  list_systems();
}

// Tubing is one system where it is connected and shares a nominal size. Several systems of one size are told
// apart by their zone, and by a number where even that is the same.
void Worksheet::list_systems() {
  std::map<std::pair<int, std::string>, int> index;
  std::vector<int> zone_of_system;
  for (std::size_t leg = 0; leg < garden.legs.size(); ++leg) {
    const std::string& size = size_of(static_cast<int>(leg));
    const auto [entry, is_new] = index.try_emplace({garden.system_of_leg[leg], size}, static_cast<int>(systems.size()));
    if (is_new) {
      systems.push_back({size, size});
      const int element = garden.legs[leg].element;
      zone_of_system.push_back(element < 0 ? -1 : garden.elements[static_cast<std::size_t>(element)].zone);
    }
    system_of_leg_.push_back(size.empty() ? -1 : entry->second);
  }
  std::map<std::string, int> of_size, of_name;
  for (const TubingSystem& system : systems) ++of_size[system.size];
  for (std::size_t i = 0; i < systems.size(); ++i) {
    TubingSystem& system = systems[i];
    if (of_size[system.size] == 1) continue;
    const int zone = zone_of_system[i];
    if (zone >= 0 && !garden.zones[static_cast<std::size_t>(zone)].name.empty()) {
      system.name += fmt::format(", zone {}", quoted(garden.zones[static_cast<std::size_t>(zone)].name));
    }
    if (const int number = ++of_name[system.name]; number > 1) system.name += fmt::format(" ({})", number);
  }
}

Need& Worksheet::ask(const PartSpec& part, const std::vector<int>& systems_of_ends, int element, Reason reason) {
  if (element >= 0) served.insert(element);
  reason.element = element_name(element);
  return tally.add(part, systems_of_ends, std::move(reason));
}

void Worksheet::assume(std::string text, std::string origin) {
  const bool is_stated = std::any_of(assumptions.begin(), assumptions.end(),
                                     [&](const Assumption& stated) { return stated.text == text; });
  if (!is_stated) assumptions.push_back({std::move(text), std::move(origin)});
}

const std::string& Worksheet::size_of(int leg) const {
  const Leg& of = garden.legs[static_cast<std::size_t>(leg)];
  return of.size.empty() && of.run >= 0 ? garden.runs[static_cast<std::size_t>(of.run)].size : of.size;
}

bool Worksheet::is_existing(int leg) const {
  const int run = garden.legs[static_cast<std::size_t>(leg)].run;
  return run >= 0 && garden.runs[static_cast<std::size_t>(run)].existing;
}

int Worksheet::system_of(int leg) const { return system_of_leg_[static_cast<std::size_t>(leg)]; }

std::vector<int> Worksheet::systems_of(const std::vector<int>& legs) const {
  std::vector<int> found;
  for (const int leg : legs) found.push_back(system_of(leg));
  return found;
}

std::string Worksheet::element_name(int element) const {
  return element < 0 ? "" : garden.elements[static_cast<std::size_t>(element)].name;
}

std::vector<int> Worksheet::legs_at(int node) const {
  std::vector<int> found;
  for (std::size_t leg = 0; leg < garden.legs.size(); ++leg) {
    if (garden.legs[leg].from == node || garden.legs[leg].to == node) found.push_back(static_cast<int>(leg));
  }
  return found;
}

bool Worksheet::is_smaller(const std::string& a, const std::string& b) const {
  const NominalSize* listed_a = find_size(practice.sizes, a);
  const NominalSize* listed_b = find_size(practice.sizes, b);
  if (listed_a != nullptr && listed_b != nullptr) return listed_a->inside < listed_b->inside;
  const auto length_a = parse_length(a, {});
  const auto length_b = parse_length(b, {});
  return length_a && length_b ? *length_a < *length_b : a < b;
}

PartSpec sized_part(const std::string& kind, const std::string& size) { return {kind, {{"size", word_value(size)}}}; }

Reason design_reason(std::string rule, std::string where, std::int64_t amount, const Place& place) {
  Reason reason;
  reason.rule = std::move(rule);
  reason.where = std::move(where);
  reason.amount = amount;
  reason.place = place;
  return reason;
}

}  // namespace teetally
