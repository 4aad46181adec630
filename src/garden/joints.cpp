#include "garden/joints.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "garden/geometry.h"
#include "garden/network.h"

namespace teetally::garden {

namespace {

const NominalSize* size_of(const Practice& practice, const std::string& name) {
  for (const NominalSize& size : practice.sizes) {
    if (size.name == name) return &size;
  }
  return nullptr;
}

// Tubing that is not sized yet is at least the smallest that lines are made of.
Diameter inside_of(const std::string& name, const Garden& garden, const Practice& practice) {
  if (const NominalSize* size = size_of(practice, name)) return size->inside;
  for (const NominalSize& size : practice.sizes) {
    if (size.use == "supply" && size.series == garden.series) return size.inside;
  }
  return {};
}

class NodeFitter {
 public:
  NodeFitter(const Garden& garden, const Practice& practice, int node)
      : garden_(garden), practice_(practice), node_(node) {}

  NodeJoint fit(const std::vector<int>& legs, bool is_source) {
    if (is_source) {
      for (const int leg : legs) add(Joint::head, {leg}, "tubing starts at the head assembly: tubing adapter");
      return std::move(joint_);
    }
    sort_out(legs);
    for (const int leg : small_) {
      add(Joint::take_off, {leg, carrier()}, "small tubing leaves larger tubing through its wall: barbed connector");
    }
    for (const int leg : tape_) {
      add(Joint::tape_start, {leg, carrier()}, "tape leaves other tubing: tape connector");
    }
    joint_.meeting = static_cast<int>(main_.size());
    if (!at_device()) join();
    return std::move(joint_);
  }

 private:
  const Leg& leg(int index) const { return garden_.legs[static_cast<std::size_t>(index)]; }
  const Run& run(int index) const { return garden_.runs[static_cast<std::size_t>(leg(index).run)]; }
  const std::string& size(int index) const { return leg(index).size; }
  double turn(int a, int b) const { return turn_at(garden_, node_, a, b); }

  // Parts the legs into those that fittings join, small tubing through the wall, and tape on other tubing.
  void sort_out(const std::vector<int>& legs) {
    Diameter largest;
    for (const int each : legs) {
      if (leg(each).role != LegRole::tape) largest = std::max(largest, inside_of(size(each), garden_, practice_));
    }
    const double limit = practice_.punch_below.value * static_cast<double>(largest.tenths_um);
    for (const int each : legs) {
      const auto inside = static_cast<double>(inside_of(size(each), garden_, practice_).tenths_um);
      std::vector<int>& pile = leg(each).role == LegRole::tape ? tape_ : inside < limit ? small_ : main_;
      pile.push_back(each);
    }
    if (main_.empty()) std::swap(main_, tape_);
  }

  // Whether all of these are on the site already, so that their fitting is, too.
  bool on_site(const std::vector<int>& legs) const {
    return std::all_of(legs.begin(), legs.end(), [&](int each) { return run(each).existing; });
  }

  void add(Joint joint, std::vector<int> legs, std::string rule) {
    if (on_site(legs)) return;
    Fitting fitting;
    fitting.joint = joint;
    fitting.node = node_;
    // Later runs hang on earlier ones: the latest is the one that asks for the part.
    const int asks = *std::max_element(legs.begin(), legs.end(), [&](int a, int b) { return leg(a).run < leg(b).run; });
    fitting.element = leg(asks).element;
    fitting.place = leg(asks).place;
    fitting.rule = std::move(rule);
    fitting.where = garden_.nodes[static_cast<std::size_t>(node_)].label;
    fitting.legs = std::move(legs);
    joint_.fittings.push_back(std::move(fitting));
  }

  // An outlet closes its feeder; a valve sits between two legs and cuts them.
  bool at_device() {
    const int index = garden_.nodes[static_cast<std::size_t>(node_)].device;
    if (index < 0) return false;
    if (garden_.devices[static_cast<std::size_t>(index)].outlet) {
      return main_.size() == 1 && leg(main_[0]).role == LegRole::feeder;
    }
    if (main_.size() != 2) return false;
    change_size(main_[0], main_[1]);
    return true;
  }

  void join() {
    switch (main_.size()) {
      case 0:
        break;
      case 1:
        close(main_[0]);
        break;
      case 2:
        join_two(main_[0], main_[1]);
        break;
      case 3:
        join_three();
        break;
      default:
        join_many();
        break;
    }
  }

  void close(int end) {
    const LegRole role = leg(end).role;
    if (role == LegRole::row || role == LegRole::tape) {
      add(Joint::flush_cap, {end}, "a row ends here: flush cap");
    } else {
      add(Joint::end_closure, {end}, "tubing ends here: end closure");
    }
  }

  // By bore; sizes of one bore, and tubing not sized yet, by name, so that no order of legs matters.
  bool larger(int a, int b) const {
    const Diameter one = inside_of(size(a), garden_, practice_), other = inside_of(size(b), garden_, practice_);
    return one != other ? one > other : size(a) > size(b);
  }

  // The largest tubing here is what others are led out of.
  int carrier() const {
    int best = main_.front();
    for (const int each : main_) best = larger(each, best) ? each : best;
    return best;
  }

  bool bends_freely(int index) const {
    const NominalSize* known = size_of(practice_, size(index));
    return known && known->least_bend <= practice_.bends_freely_within.value;
  }

  bool needs_elbow(int a, int b) const {
    return turn(a, b) >= practice_.elbow_from_degrees.value && !(bends_freely(a) && bends_freely(b));
  }

  void change_size(int a, int b) {
    if (size(a) == size(b)) return;
    const int large = larger(a, b) ? a : b, small = large == a ? b : a;
    add(Joint::straight, {large, small},
        fmt::format("the size changes from {} to {}: reducer", size(large), size(small)));
  }

  void join_two(int a, int b) {
    if (needs_elbow(a, b)) {
      add(Joint::elbow, {a, b},
          fmt::format("a turn of {:.0f} degrees, sharper than the tubing bends unaided: elbow", turn(a, b)));
      change_size(a, b);
      return;
    }
    if (size(a) != size(b)) {
      change_size(a, b);
    } else if (run(a).existing != run(b).existing) {
      add(Joint::straight, {a, b}, "new tubing goes on from tubing on the site: coupling");
    } else if (!(run(a).tubing == run(b).tubing)) {
      add(Joint::straight, {a, b}, "one kind of tubing goes on as another: coupling");
    } else {
      joint_.through = {a, b};
    }
  }

  // How well two legs make the run of a tee, least first: straight, of one size (which saves a reducer), and then
  // by name and by how straight, so that no order of legs matters. Angles count in whole hundredths of a degree: less
  // is rounding.
  using Rank = std::tuple<std::int64_t, bool, std::string, std::string, std::int64_t>;
  Rank rank(int a, int b) const {
    const std::int64_t bend = std::llround(turn(a, b) * 100);
    const bool straight = turn(a, b) < practice_.straight_within_degrees.value;
    return {straight ? 0 : bend, size(a) != size(b), std::min(size(a), size(b)), std::max(size(a), size(b)), bend};
  }

  // The best run comes first, the larger leg leading.
  std::vector<int> straightest_first(const std::vector<int>& legs) const {
    std::size_t first = 0, second = 1;
    Rank least = rank(legs[0], legs[1]);
    for (std::size_t i = 0; i < legs.size(); ++i) {
      for (std::size_t j = i + 1; j < legs.size(); ++j) {
        Rank here = rank(legs[i], legs[j]);
        if (here >= least) continue;
        least = std::move(here);
        first = i;
        second = j;
      }
    }
    std::vector<int> ordered{legs[first], legs[second]};
    if (larger(ordered[1], ordered[0])) std::swap(ordered[0], ordered[1]);
    for (std::size_t i = 0; i < legs.size(); ++i) {
      if (i != first && i != second) ordered.push_back(legs[i]);
    }
    return ordered;
  }

  void join_three() {
    const std::vector<int> legs = straightest_first(main_);
    if (on_site(legs)) return;
    add(Joint::tee, legs, "three lengths meet: tee");
    change_size(legs[0], legs[1]);
  }

  void join_many() {
    std::vector<int> old;
    for (const int each : main_) {
      if (run(each).existing) old.push_back(each);
    }
    if (old.size() >= 3) {
      const std::vector<int> line = straightest_first(old);
      for (const int each : main_) {
        if (!run(each).existing) add(Joint::tee, {line[0], line[1], each}, "new tubing leaves tubing on the site: tee");
      }
      return;
    }
    const std::vector<int> legs = straightest_first(main_);
    const bool alike = std::all_of(legs.begin(), legs.end(), [&](int each) { return size(each) == size(legs[0]); });
    if (legs.size() == 4 && alike && practice_.four_way.value == "cross") {
      add(Joint::cross, legs, "four lengths meet: cross");
      return;
    }
    const std::string rule = legs.size() > 4 ? fmt::format("{} lengths meet: a tee for each branch", legs.size())
                             : practice_.four_way.value == "cross"
                                 ? "lengths of unequal size meet: a tee for each branch"
                                 : "four lengths meet: two tees, by preference";
    for (std::size_t i = 2; i < legs.size(); ++i) add(Joint::tee, {legs[0], legs[1], legs[i]}, rule);
    change_size(legs[0], legs[1]);
  }

  const Garden& garden_;
  const Practice& practice_;
  int node_;
  std::vector<int> main_, small_, tape_;
  NodeJoint joint_;
};

}  // namespace

NodeJoint joint_at(const Garden& garden, const Practice& practice, int node, const std::vector<int>& legs,
                   bool is_source) {
  return NodeFitter(garden, practice, node).fit(legs, is_source);
}

}  // namespace teetally::garden

namespace teetally {

double turn_at(const Garden& garden, int node, int leg_a, int leg_b) {
  const auto at = [&](int index) { return garden.nodes[static_cast<std::size_t>(index)].at; };
  const Leg& a = garden.legs[static_cast<std::size_t>(leg_a)];
  const Leg& b = garden.legs[static_cast<std::size_t>(leg_b)];
  return garden::turn_degrees(at(garden::other_end(a, node)), at(node), at(garden::other_end(b, node)));
}

}  // namespace teetally
