#include "render/plan/numbers.h"

#include <algorithm>

namespace teetally {
namespace {

// The parts between the tap and the tubing, in the words of the vocabulary.
const std::vector<std::string> kHeadKinds = {"timer", "backflow preventer", "filter", "pressure regulator",
                                             "tubing adapter"};

std::string key_of(const std::string& element, const std::string& rule, const std::string& where) {
  return element + '\n' + rule + '\n' + where;
}

int first_of(const std::vector<int>& needs) { return needs.empty() ? -1 : needs.front(); }

}  // namespace

PlanNumbers::PlanNumbers(const PlanSubject& subject) : garden_(subject.sized.garden), takeoff_(subject.takeoff) {
  for (std::size_t i = 0; i < takeoff_.needs.size(); ++i) {
    for (const Reason& reason : takeoff_.needs[i].reasons) {
      if (reason.reason_class != ReasonClass::design) continue;
      by_reason_[key_of(reason.element, reason.rule, reason.where)].push_back(static_cast<int>(i));
      if (takeoff_.needs[i].by_length) {
        by_reason_[key_of(reason.element, "", reason.where)].push_back(static_cast<int>(i));
      }
    }
  }
}

std::vector<int> PlanNumbers::find(int element, const std::string& rule, const std::string& where) const {
  const std::string name = element < 0 ? "" : garden_.elements[static_cast<std::size_t>(element)].name;
  const auto found = by_reason_.find(key_of(name, rule, where));
  return found == by_reason_.end() ? std::vector<int>() : found->second;
}

// Its sizes are those of the fitting's legs, and the branch is that of the last leg.
bool PlanNumbers::fits(int need, const Fitting& fitting) const {
  const auto size_of = [&](int leg) { return garden_.legs[static_cast<std::size_t>(leg)].size; };
  for (const auto& attribute : takeoff_.needs[static_cast<std::size_t>(need)].part.attributes) {
    const auto is_that = [&](int leg) { return attribute.second == word_value(size_of(leg)); };
    if (attribute.first == "branch size" && !is_that(fitting.legs.back())) return false;
    if (attribute.first == "size" && std::none_of(fitting.legs.begin(), fitting.legs.end(), is_that)) return false;
  }
  return true;
}

int PlanNumbers::of_fitting(const Fitting& fitting) const {
  const std::vector<int> found = find(fitting.element, fitting.rule, fitting.where);
  const auto fitted = std::find_if(found.begin(), found.end(), [&](int need) { return fits(need, fitting); });
  return fitted != found.end() ? *fitted : first_of(found);
}

int PlanNumbers::of_device(const Device& device) const {
  return first_of(find(device.element, device.rule, garden_.nodes[static_cast<std::size_t>(device.node)].label));
}

int PlanNumbers::of_run(const Run& run) const { return run.existing ? -1 : first_of(find(run.element, "", run.name)); }

std::vector<int> PlanNumbers::of_head() const {
  std::vector<int> found;
  for (std::size_t i = 0; i < takeoff_.needs.size(); ++i) {
    const std::string& kind = takeoff_.needs[i].part.kind;
    if (std::find(kHeadKinds.begin(), kHeadKinds.end(), kind) != kHeadKinds.end()) found.push_back(static_cast<int>(i));
  }
  return found;
}

}  // namespace teetally
