#pragma once
// The sheet a takeoff is worked out on: what every rule reads, what they add to, and the few questions all of
// them ask of a garden.
#include <set>
#include <string>
#include <vector>

#include "needs/tally.h"
#include "teetally/needs/take_off.h"

namespace teetally {

struct Worksheet {
  Worksheet(const SizedGarden& sized_garden, const Practice& its_practice, const Vocabulary& its_vocabulary,
            UnitSystem its_units);

  const SizedGarden& sized;
  const Garden& garden;
  const Practice& practice;
  const Vocabulary& vocabulary;
  UnitSystem units;

  std::vector<TubingSystem> systems;
  Tally tally;
  std::vector<Assumption> assumptions;
  std::vector<std::string> cautions;
  std::set<int> served;    // elements that yielded a part
  std::int64_t holes = 0;  // punched into tubing

  // Adds one reason of the design, on behalf of an element (-1: of none).
  Need& ask(const PartSpec& part, const std::vector<int>& systems_of_ends, int element, Reason reason);
  // States an assumption; once is enough.
  void assume(std::string text, std::string origin);

  const std::string& size_of(int leg) const;
  bool is_existing(int leg) const;
  // The tubing system of a leg; -1 for tubing without a size.
  int system_of(int leg) const;
  // The end or ends of a fitting on legs, in the order of the kind's ends.
  std::vector<int> systems_of(const std::vector<int>& legs) const;
  std::string element_name(int element) const;
  std::vector<int> legs_at(int node) const;
  // Whether nominal size `a` is smaller than `b`: by the practice's inside diameters, else by the number in the name.
  bool is_smaller(const std::string& a, const std::string& b) const;

 private:
  void list_systems();
  std::vector<int> system_of_leg_;
};

PartSpec sized_part(const std::string& kind, const std::string& size);
Reason design_reason(std::string rule, std::string where, std::int64_t amount, const Place& place);

}  // namespace teetally
