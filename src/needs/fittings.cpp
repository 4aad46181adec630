// Joints of the network as parts. Where the two legs that run on are of unequal size, the garden lists the
// change of size as a joint of its own, so the elbow, tee or cross beside it is of the larger size throughout.
#include <algorithm>

#include "needs/rules.h"

namespace teetally {
namespace {

class Joiner {
 public:
  Joiner(Worksheet& sheet, const Fitting& fitting) : sheet_(sheet), fitting_(fitting) {}

  void join() {
    switch (fitting_.joint) {
      case Joint::end_closure:
        return ask(sized_part("end closure", size(0)), fitting_.legs);
      case Joint::flush_cap:
        return ask(sized_part("flush cap", size(0)), fitting_.legs);
      case Joint::elbow:
        return elbow();
      case Joint::straight:
        return straight();
      case Joint::tee:
        return tee();
      case Joint::cross:
        return cross();
      case Joint::take_off:
        return take_off();
      case Joint::tape_start:
        return tape_start();
      case Joint::head:
        return;  // the tubing adapter is part of the head assembly
    }
  }

 private:
  const std::string& size(std::size_t i) const { return sheet_.size_of(fitting_.legs[i]); }

  // Of the first `count` legs the one of largest size; the first of equals.
  int largest(std::size_t count) const {
    int found = fitting_.legs.front();
    for (std::size_t i = 1; i < count; ++i) {
      if (sheet_.is_smaller(sheet_.size_of(found), size(i))) found = fitting_.legs[i];
    }
    return found;
  }

  void ask(const PartSpec& part, const std::vector<int>& legs) {
    sheet_.ask(part, sheet_.systems_of(legs), fitting_.element,
               design_reason(fitting_.rule, fitting_.where, 1, fitting_.place));
  }

  void elbow() {
    const int large = largest(2);
    ask(sized_part("elbow", sheet_.size_of(large)), {large, large});
  }

  void straight() {
    if (size(0) == size(1)) return ask(sized_part("coupling", size(0)), fitting_.legs);
    const int large = largest(2);
    const int small = large == fitting_.legs[0] ? fitting_.legs[1] : fitting_.legs[0];
    PartSpec part = sized_part("reducer", sheet_.size_of(large));
    part.attributes["small size"] = word_value(sheet_.size_of(small));
    ask(part, {large, small});
  }

  void tee() {
    const int large = largest(2);
    const int branch = fitting_.legs[2];
    PartSpec part = sized_part("tee", sheet_.size_of(large));
    part.attributes["branch size"] = word_value(sheet_.size_of(branch));
    ask(part, {large, large, branch});
  }

  void cross() {
    const int large = largest(4);
    ask(sized_part("cross", sheet_.size_of(large)), {large, large, large, large});
  }

  void take_off() {
    ask(sized_part("barbed connector", size(0)), {fitting_.legs[0]});
    ++sheet_.holes;
  }

  void tape_start() {
    PartSpec part = sized_part("tape connector", size(0));
    part.attributes["from size"] = word_value(size(1));
    ask(part, {fitting_.legs[0], fitting_.legs[1]});
    ++sheet_.holes;
  }

  Worksheet& sheet_;
  const Fitting& fitting_;
};

}  // namespace

void count_fittings(Worksheet& sheet) {
  for (const Fitting& fitting : sheet.garden.fittings) {
    // What only old tubing meets is there already; what joins new to old is not.
    const bool is_there =
        std::all_of(fitting.legs.begin(), fitting.legs.end(), [&](int leg) { return sheet.is_existing(leg); });
    if (!is_there) Joiner(sheet, fitting).join();
  }
}

}  // namespace teetally
