#pragma once
// Which need of the takeoff a part on the plan belongs to: the one with a reason of the same element, rule and place.
#include <map>
#include <string>
#include <vector>

#include "teetally/render/plan.h"

namespace teetally {

class PlanNumbers {
 public:
  explicit PlanNumbers(const PlanSubject& subject);

  // Indices into Takeoff::needs; -1 where the site has the part already, or no need names it.
  int of_fitting(const Fitting& fitting) const;
  int of_device(const Device& device) const;
  int of_run(const Run& run) const;
  std::vector<int> of_head() const;  // parts whose reasons stand at the tap: no kind of the network's own

 private:
  // All that are asked for by that element, rule and place; tees that share a joint may differ in size.
  std::vector<int> find(int element, const std::string& rule, const std::string& where) const;
  bool fits(int need, const Fitting& fitting) const;

  const Garden& garden_;
  const Takeoff& takeoff_;
  std::map<std::string, std::vector<int>> by_reason_;
};

}  // namespace teetally
