#include "hydraulics/zone_network.h"

#include <algorithm>
#include <cmath>

namespace teetally::hydraulics {
namespace {

constexpr double kShortest = 1e-3;  // m; shorter legs count as this long

class Builder {
 public:
  Builder(const Garden& garden, int zone, const std::vector<double>& insides, const std::vector<double>& losses,
          const Settings& settings)
      : garden_(garden), zone_(zone), insides_(insides), losses_(losses), settings_(settings) {
    built_.network.law = settings.law;
    built_.node_of.assign(garden.nodes.size(), -1);
    built_.links_of_leg.assign(garden.legs.size(), {0, 0});
  }

  ZoneNetwork build() {
    reach();
    for (const int leg : reached_legs_) {
      if (!has_emitters(leg)) add_plain(leg);
    }
    for (std::size_t run = 0; run < garden_.runs.size(); ++run) {
      if (garden_.runs[run].emitters) add_row(static_cast<int>(run));
    }
    for (std::size_t device = 0; device < garden_.devices.size(); ++device) add_device(static_cast<int>(device));
    std::sort(built_.unreached.begin(), built_.unreached.end());
    built_.unreached.erase(std::unique(built_.unreached.begin(), built_.unreached.end()), built_.unreached.end());
    return std::move(built_);
  }

 private:
  bool has_emitters(int leg) const {
    const int run = garden_.legs[leg].run;
    return run >= 0 && garden_.runs[run].emitters.has_value();
  }

  bool open(int element) const { return element >= 0 && garden_.elements[element].zone == zone_; }

  int add_node(double elevation) {
    built_.network.nodes.push_back({elevation, 0, std::nullopt});
    return static_cast<int>(built_.network.nodes.size()) - 1;
  }

  int node_at(int garden_node) {
    int& node = built_.node_of[garden_node];
    if (node < 0) node = add_node(in_metres(garden_.nodes[garden_node].at.up));
    return node;
  }

  // Breadth first from the head, so that legs come nearest first.
  void reach() {
    const int head = garden_.zones[zone_].head_node;
    if (head < 0) return;
    std::vector<std::vector<int>> legs_at(garden_.nodes.size());
    for (std::size_t leg = 0; leg < garden_.legs.size(); ++leg) {
      legs_at[garden_.legs[leg].from].push_back(static_cast<int>(leg));
      legs_at[garden_.legs[leg].to].push_back(static_cast<int>(leg));
    }
    built_.head = node_at(head);
    std::vector<int> queue{head};
    std::vector<bool> leg_seen(garden_.legs.size(), false);
    for (std::size_t i = 0; i < queue.size(); ++i) {
      for (const int leg : legs_at[queue[i]]) {
        if (leg_seen[leg]) continue;
        leg_seen[leg] = true;
        reached_legs_.push_back(leg);
        const int other = garden_.legs[leg].from == queue[i] ? garden_.legs[leg].to : garden_.legs[leg].from;
        if (built_.node_of[other] < 0) {
          node_at(other);
          queue.push_back(other);
        }
      }
    }
    legs_of_run_.resize(garden_.runs.size());
    for (std::size_t leg = 0; leg < garden_.legs.size(); ++leg) {
      if (garden_.legs[leg].run >= 0) legs_of_run_[garden_.legs[leg].run].push_back(static_cast<int>(leg));
    }
  }

  void add_link(int from, int to, int leg, double length, double k) {
    const double inside = insides_[leg];
    built_.network.links.push_back({from, to, std::max(length, kShortest), inside, quadratic_factor(k, inside)});
  }

  void add_plain(int leg) {
    built_.links_of_leg[leg] = {static_cast<int>(built_.network.links.size()), 1};
    add_link(node_at(garden_.legs[leg].from), node_at(garden_.legs[leg].to), leg, in_metres(garden_.legs[leg].length),
             losses_[leg]);
  }

  void add_outlet(int node, const EmitterLaw& law, const Spot& spot) {
    const double pa_per_m = settings_.water.pa_per_m();
    Outlet outlet;
    outlet.rated = in_m3_per_s(law.rated) * spot.count;
    outlet.rated_at = std::max(static_cast<double>(law.rated_at.pa), 1.0) / pa_per_m;
    outlet.exponent = law.exponent;
    outlet.compensating = law.compensating;
    outlet.least = static_cast<double>(law.least.pa) / pa_per_m;
    built_.network.outlets.push_back({node, outlet});
    built_.spots.push_back(spot);
  }

  void add_row(int run_index) {
    const Run& run = garden_.runs[run_index];
    if (legs_of_run_.empty() || legs_of_run_[run_index].empty()) return missing(run.element);
    double total = 0;
    for (const int leg : legs_of_run_[run_index]) total += in_metres(garden_.legs[leg].length);
    const std::vector<double> places = emitter_places(run, total);
    double start = 0;
    std::size_t next = 0;
    for (const int leg : legs_of_run_[run_index]) {
      const double length = in_metres(garden_.legs[leg].length);
      const bool last = leg == legs_of_run_[run_index].back();
      if (built_.node_of[garden_.legs[leg].from] < 0) return missing(run.element);
      next = add_row_leg(leg, run_index, start, last ? total + 1 : start + length, places, next);
      start += length;
    }
  }

  // One link from emitter to emitter, and one to the leg's end. Answers the first emitter beyond the leg.
  std::size_t add_row_leg(int leg, int run_index, double start, double until, const std::vector<double>& places,
                          std::size_t next) {
    const Leg& tubing = garden_.legs[leg];
    const double length = std::max(in_metres(tubing.length), kShortest);
    const double low = in_metres(garden_.nodes[tubing.from].at.up), high = in_metres(garden_.nodes[tubing.to].at.up);
    const int first_link = static_cast<int>(built_.network.links.size());
    const int end = node_at(tubing.to);
    int at_node = node_at(tubing.from);
    double at = 0, k = losses_[leg];
    const Run& run = garden_.runs[run_index];
    for (; next < places.size() && places[next] <= until; ++next) {
      const double along = std::clamp(places[next] - start, 0.0, length);
      int node = at_node;
      if (along >= length - kShortest) {
        node = end;
      } else if (along > at + kShortest) {
        node = add_node(low + (high - low) * along / length);
      }
      if (node != at_node) {
        add_link(at_node, node, leg, along - at, k);
        k = 0, at = along, at_node = node;
      }
      if (open(run.element)) add_outlet(node, *run.emitters, {run_index, -1, run.element, 1, places[next]});
    }
    if (at_node != end) add_link(at_node, end, leg, length - at, k);
    built_.links_of_leg[leg] = {first_link, static_cast<int>(built_.network.links.size()) - first_link};
    return next;
  }

  void add_device(int index) {
    const Device& device = garden_.devices[index];
    if (!device.outlet || !open(device.element)) return;
    if (device.node < 0 || built_.node_of[device.node] < 0) return missing(device.element);
    add_outlet(built_.node_of[device.node], *device.outlet,
               {-1, index, device.element, static_cast<double>(device.count), 0});
  }

  void missing(int element) {
    if (open(element)) built_.unreached.push_back(element);
  }

  const Garden& garden_;
  int zone_;
  const std::vector<double>& insides_;
  const std::vector<double>& losses_;
  const Settings& settings_;
  std::vector<int> reached_legs_;
  std::vector<std::vector<int>> legs_of_run_;
  ZoneNetwork built_;
};

// Undoes an earlier hold or feed.
void release(ZoneNetwork& zone) {
  Network& network = zone.network;
  network.nodes[zone.head].held_head.reset();
  if (network.nodes.back().held_head) {
    network.nodes.pop_back();
    network.links.pop_back();
  }
}

}  // namespace

ZoneNetwork network_of(const Garden& garden, int zone, const std::vector<double>& insides,
                       const std::vector<double>& losses, const Settings& settings) {
  return Builder(garden, zone, insides, losses, settings).build();
}

std::vector<double> emitter_places(const Run& run, double run_length) {
  std::vector<double> places;
  const double spacing = in_metres(run.emitter_spacing);
  const double count = static_cast<double>(run.emitter_count);
  for (std::int64_t i = 1; i <= run.emitter_count; ++i) {
    const double k = static_cast<double>(i);
    if (spacing > 0 && count * spacing <= run_length + 1e-6) {
      places.push_back(k * spacing);  // the first a full spacing from the start
    } else if (spacing > 0 && (count - 1) * spacing <= run_length + 1e-6) {
      places.push_back((k - 1) * spacing);  // the first at the start
    } else {
      places.push_back(run_length * k / count);
    }
  }
  return places;
}

void hold(ZoneNetwork& zone, double head) {
  release(zone);
  NetworkNode& node = zone.network.nodes[zone.head];
  node.held_head = node.elevation + head;
}

void feed(ZoneNetwork& zone, double head, double quadratic) {
  release(zone);
  const double elevation = zone.network.nodes[zone.head].elevation;
  zone.network.nodes.push_back({elevation, 0, elevation + head});
  zone.network.links.push_back({static_cast<int>(zone.network.nodes.size()) - 1, zone.head, 0, 1, quadratic});
}

}  // namespace teetally::hydraulics
