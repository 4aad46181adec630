// What must not change the fittings of a garden: its scale, its place, the order and names of its elements, a
// straight leg walked in two steps, the direction in which a line was walked.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <map>
#include <optional>

#include "property/garden_random.h"

using namespace teetally;
using namespace teetally::testing;

namespace {

constexpr std::uint32_t kGardens = 1200;

using Counts = std::map<std::string, std::int64_t>;

// Fittings by joint and by the sizes they join, with devices and pieces; nothing for gardens with complaints.
std::optional<Counts> counts_of(const Site& site) {
  Diagnostics diagnostics;
  const Garden garden = lay_out(site, shipped_practice(), diagnostics);
  if (!diagnostics.in_order().empty()) return std::nullopt;
  Counts counts;
  for (const Fitting& fitting : garden.fittings) {
    std::vector<std::string> sizes;
    for (const int leg : fitting.legs) sizes.push_back(garden.legs[static_cast<std::size_t>(leg)].size);
    if (fitting.joint == Joint::tee) std::sort(sizes.begin(), sizes.begin() + 2);
    if (fitting.joint == Joint::elbow || fitting.joint == Joint::cross) std::sort(sizes.begin(), sizes.end());
    std::string key = to_text(fitting.joint);
    for (const std::string& size : sizes) key += " " + size;
    ++counts[key];
  }
  counts["devices"] = static_cast<std::int64_t>(garden.devices.size());
  counts["pieces"] = static_cast<std::int64_t>(garden.pieces.size());
  return counts;
}

std::string text_of(const Counts& counts) {
  std::string text;
  for (const auto& [key, number] : counts) text += key + ": " + std::to_string(number) + "\n";
  return text;
}

std::string complaints_of(const Site& site) {
  Diagnostics diagnostics;
  lay_out(site, shipped_practice(), diagnostics);
  std::string text;
  for (const Diagnostic& diagnostic : diagnostics.in_order()) text += to_text(diagnostic);
  return text;
}

struct InOrder {
  std::uint32_t seed;
  Site site;
  Counts counts;
};

// The random gardens that nothing is wrong with; many cross themselves and are left out.
const std::vector<InOrder>& gardens_in_order() {
  static const std::vector<InOrder> gardens = [] {
    std::vector<InOrder> found;
    for (std::uint32_t seed = 1; seed <= kGardens; ++seed) {
      Site site = random_site(seed);
      if (auto counts = counts_of(site)) found.push_back({seed, std::move(site), std::move(*counts)});
    }
    return found;
  }();
  return gardens;
}

// Checks that a change of a site leaves its counts alone.
template <typename Change>
void check_unchanged(Change change) {
  BOOST_TEST(gardens_in_order().size() > 200u);
  for (const InOrder& garden : gardens_in_order()) {
    Site changed = garden.site;
    Random random(garden.seed);
    change(changed, random);
    const std::optional<Counts> after = counts_of(changed);
    BOOST_REQUIRE_MESSAGE(
        after, "garden " << garden.seed << " is in order, the changed one is not: " << complaints_of(changed));
    BOOST_TEST(text_of(garden.counts) == text_of(*after), "garden " << garden.seed << "\n"
                                                                    << text_of(garden.counts) << "became\n"
                                                                    << text_of(*after));
  }
}

}  // namespace

BOOST_AUTO_TEST_CASE(scale) {
  for (const std::int64_t by : {2, 3, 10}) {
    check_unchanged([&](Site& site, Random&) {
      change_points(site, [&](Point& point) { point = {point.east * by, point.north * by, point.up * by}; });
      for (Bed& bed : site.beds) {
        bed.east_west = bed.east_west * by;
        bed.north_south = bed.north_south * by;
        bed.height = bed.height * by;
      }
    });
  }
}

BOOST_AUTO_TEST_CASE(place) {
  check_unchanged([](Site& site, Random& random) {
    const Point by{Length{pick(random, -1'000'000, 1'000'000)}, Length{pick(random, -1'000'000, 1'000'000)},
                   Length{pick(random, -10'000, 10'000)}};
    change_points(site, [&](Point& point) { point = plus(point, by); });
  });
}

BOOST_AUTO_TEST_CASE(order_and_names) {
  check_unchanged([](Site& site, Random& random) {
    const auto shuffle = [&](auto& elements) {
      for (std::size_t i = elements.size(); i > 1; --i) {
        std::swap(elements[i - 1],
                  elements[static_cast<std::size_t>(pick(random, 0, static_cast<std::int64_t>(i) - 1))]);
      }
      for (auto& element : elements) element.name = "renamed " + std::to_string(random()) + " " + element.name;
    };
    shuffle(site.lines);
    shuffle(site.beds);
    shuffle(site.containers);
  });
}

BOOST_AUTO_TEST_CASE(a_leg_in_two_steps) {
  check_unchanged([](Site& site, Random& random) {
    for (SupplyLine& line : site.lines) {
      const std::vector<Point> points = corners(line);
      const auto leg = static_cast<std::size_t>(pick(random, 0, static_cast<std::int64_t>(points.size()) - 2));
      std::vector<Point> split = points;
      const Point a = points[leg], b = points[leg + 1];
      const Point middle{Length{(a.east.tenths_mm + b.east.tenths_mm) / 2},
                         Length{(a.north.tenths_mm + b.north.tenths_mm) / 2},
                         Length{(a.up.tenths_mm + b.up.tenths_mm) / 2}};
      split.insert(split.begin() + static_cast<std::ptrdiff_t>(leg) + 1, middle);
      line = line_through(line.name, split, line.size);
    }
  });
}

BOOST_AUTO_TEST_CASE(a_walk_the_other_way) {
  check_unchanged([](Site& site, Random& random) {
    for (std::size_t i = 1; i < site.lines.size(); ++i) {
      if (pick(random, 0, 1) == 0) continue;
      std::vector<Point> points = corners(site.lines[i]);
      std::reverse(points.begin(), points.end());
      site.lines[i] = line_through(site.lines[i].name, points, site.lines[i].size);
    }
  });
}

// Every end of plain tubing is closed, and fittings account for all ends of legs but those that run through.
BOOST_AUTO_TEST_CASE(every_end_of_a_piece_is_held_by_something) {
  for (const InOrder& in_order : gardens_in_order()) {
    Diagnostics diagnostics;
    const Garden garden = lay_out(in_order.site, shipped_practice(), diagnostics);
    std::vector<int> held(garden.nodes.size(), 0);
    for (const Fitting& fitting : garden.fittings) ++held[static_cast<std::size_t>(fitting.node)];
    for (const Device& device : garden.devices) ++held[static_cast<std::size_t>(device.node)];
    for (const Piece& piece : garden.pieces) {
      std::map<int, int> touched;
      for (const int leg : piece.legs) {
        ++touched[garden.legs[static_cast<std::size_t>(leg)].from];
        ++touched[garden.legs[static_cast<std::size_t>(leg)].to];
      }
      for (const auto& [node, times] : touched) {
        BOOST_TEST((times % 2 == 0 || held[static_cast<std::size_t>(node)] > 0),
                   "garden " << in_order.seed << " " << piece.where);
      }
    }
  }
}
