#pragma once
// Collects reasons by part and by the tubing systems its ends grip, and makes needs of them. A need's amount
// is never set on its own: it is the sum of its reasons.
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "teetally/needs.h"

namespace teetally {

class Tally {
 public:
  explicit Tally(const Vocabulary& vocabulary) : vocabulary_(vocabulary) {}

  // Adds to the need for this part in these systems, which comes to be when it is first asked for.
  Need& add(const PartSpec& part, const std::vector<int>& systems, Reason reason);
  static void add(Need& need, Reason reason);

  // Every need so far, in the order in which a takeoff lists them.
  std::vector<Need*> needs();
  // Numbers the needs ("N01" ...) and parts those with something to buy from those the site covers.
  void finish(std::vector<Need>& to_buy, std::vector<Need>& covered);

 private:
  struct Key {
    std::size_t kind_rank;  // in the vocabulary's order, which reads from the tubing to the tap
    PartSpec part;
    std::vector<int> systems;
    auto operator<=>(const Key&) const = default;
  };
  const Vocabulary& vocabulary_;
  std::map<Key, Need> needs_;
};

// Whether the reasons of a need add up to its amount.
bool adds_up(const Need& need);

}  // namespace teetally
