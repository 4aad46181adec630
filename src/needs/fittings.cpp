// Joints of the network as parts. A tee or cross is of the largest size that meets there; each end of its run
// that is smaller gets a reducer, while a tee's branch may be smaller by itself.
#include <fmt/format.h>

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

  // The leg of largest size; the first of equals.
  int largest() const {
    int found = fitting_.legs.front();
    for (const int leg : fitting_.legs) {
      if (sheet_.is_smaller(sheet_.size_of(found), sheet_.size_of(leg))) found = leg;
    }
    return found;
  }

  void ask(const PartSpec& part, const std::vector<int>& legs, const std::string& more = "") {
    sheet_.ask(part, sheet_.systems_of(legs), fitting_.element,
               design_reason(fitting_.rule + more, fitting_.where, 1, fitting_.place));
  }

  void reduce(int large, int small) {
    PartSpec part = sized_part("reducer", sheet_.size_of(large));
    part.attributes["small size"] = word_value(sheet_.size_of(small));
    ask(part, {large, small}, fmt::format("; {} runs on as {}", sheet_.size_of(large), sheet_.size_of(small)));
  }
  void reduce_to(int large, const std::vector<int>& legs) {
    for (const int leg : legs) {
      if (sheet_.is_smaller(sheet_.size_of(leg), sheet_.size_of(large))) reduce(large, leg);
    }
  }

  void elbow() {
    const int large = largest();
    ask(sized_part("elbow", sheet_.size_of(large)), {large, large});
    reduce_to(large, fitting_.legs);
  }

  void straight() {
    if (size(0) == size(1)) return ask(sized_part("coupling", size(0)), fitting_.legs);
    reduce_to(largest(), fitting_.legs);
  }

  void tee() {
    const int large = largest();
    const int branch = fitting_.legs[2];
    PartSpec part = sized_part("tee", sheet_.size_of(large));
    part.attributes["branch size"] = word_value(sheet_.size_of(branch));
    ask(part, {large, large, branch});
    reduce_to(large, {fitting_.legs[0], fitting_.legs[1]});
  }

  void cross() {
    const int large = largest();
    ask(sized_part("cross", sheet_.size_of(large)), {large, large, large, large});
    reduce_to(large, fitting_.legs);
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
