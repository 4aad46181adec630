#include "hydraulics/head_order.h"

#include <algorithm>
#include <optional>

namespace teetally::hydraulics {
namespace {

const char* const kHoseBreaker = "hose connection vacuum breaker";

const OwnedPart* owned_breaker(const Garden& garden) {
  const auto at = std::find_if(garden.existing.begin(), garden.existing.end(),
                               [](const OwnedPart& owned) { return owned.part.kind == "backflow preventer"; });
  return at == garden.existing.end() ? nullptr : &*at;
}

const DeviceLimits* limits_of(const std::string& type) {
  const std::vector<DeviceLimits>& all = device_limits();
  const auto at = std::find_if(all.begin(), all.end(), [&](const DeviceLimits& limits) { return limits.type == type; });
  return at == all.end() ? nullptr : &*at;
}

void check_valves(const Garden& garden, const DeviceLimits& limits, const Place& place, Diagnostics& diagnostics) {
  if (limits.valve_may_follow) return;
  for (const Device& device : garden.devices) {
    if (device.part.kind != "shut-off valve" && device.part.kind != "zone valve") continue;
    const std::string whose = device.element >= 0 ? garden.elements[device.element].name : "the garden";
    Diagnostic& warning =
        diagnostics.warning("hydraulics/valve-after-breaker", place,
                            "a " + limits.type + " must not stay under pressure for more than 12 hours, and " + whose +
                                " has a valve after it (" + limits.source + ")");
    warning.help = "shut the water off before the device only, or use one made for constant pressure";
    warning.notes.push_back({"the valve", device.place});
    return;
  }
}

// Of every outlet and both ends of every row; nothing when there are none.
std::optional<Length> highest_outlet(const Garden& garden) {
  std::optional<Length> highest;
  const auto consider = [&](int node) {
    const Length up = garden.nodes[node].at.up;
    highest = highest ? std::max(*highest, up) : up;
  };
  for (const Device& device : garden.devices) {
    if (device.outlet && device.node >= 0) consider(device.node);
  }
  for (const Leg& leg : garden.legs) {
    if (leg.run < 0 || !garden.runs[leg.run].emitters) continue;
    consider(leg.from);
    consider(leg.to);
  }
  return highest;
}

void check_height(const Garden& garden, const DeviceLimits& limits, const Place& place, UnitSystem units,
                  Diagnostics& diagnostics) {
  const std::optional<Length> top = highest_outlet(garden);
  if (!top) return;
  const Length rise = *top - garden.source.up;
  std::string wants;
  if (limits.least_above > Length{0} && -rise < limits.least_above) {
    wants = "must sit at least " + to_text(limits.least_above, units) + " above";
  } else if (limits.most_below > Length{0} && rise > limits.most_below) {
    wants = "may be at most " + to_text(limits.most_below, units) + " below";
  } else {
    return;
  }
  const std::string found = rise >= Length{0} ? to_text(rise, units) + " below" : to_text(-rise, units) + " above";
  diagnostics
      .warning("hydraulics/breaker-height", place,
               "a " + limits.type + " " + wants + " the highest outlet; at the tap it is " + found + " (" +
                   limits.source + ")")
      .help = "mount it higher, lower the highest outlet, or use another kind of device; the water supplier decides";
}

void check_chemicals(const Garden& garden, const DeviceLimits& limits, const Place& place, Diagnostics& diagnostics) {
  if (!garden.source.injector || limits.for_chemicals) return;
  diagnostics
      .warning("hydraulics/injector-needs-more", place,
               "something is injected behind a " + limits.type +
                   "; only a reduced-pressure device is accepted there (Uniform Plumbing Code 2018, 603.5.6)")
      .help = "use a reduced-pressure device, or do without the injector";
}

}  // namespace

// ASSE is the American Society of Sanitary Engineering, whose product standards state these limits. The heights of the
// pressure vacuum breaker are those of the state landscape irrigation rules as the city of Paris, Texas, prints them.
const std::vector<DeviceLimits>& device_limits() {
  static const std::vector<DeviceLimits> kLimits = {
      {kHoseBreaker, false, {}, feet(10), false, "ASSE 1011"},
      {"atmospheric vacuum breaker", false, inches(6), {}, false, "ASSE 1001"},
      {"pressure vacuum breaker", true, inches(12), {}, false, "city of Paris, Texas"},
      {"spill-resistant vacuum breaker", true, inches(12), {}, false, "ASSE 1056"},
      {"double check", true, {}, {}, false, "city of Paris, Texas: only without health hazard"},
      {"reduced pressure", true, {}, {}, true, "ASSE 1013"},
  };
  return kLimits;
}

std::string existing_breaker(const Garden& garden) {
  const OwnedPart* owned = owned_breaker(garden);
  if (!owned) return "";
  const auto type = owned->part.attributes.find("type");
  return type == owned->part.attributes.end() || type->second.words.empty() ? std::string(kHoseBreaker)
                                                                            : type->second.words.front();
}

void check_head_order(const Garden& garden, UnitSystem units, Diagnostics& diagnostics) {
  const OwnedPart* owned = owned_breaker(garden);
  const std::string type = existing_breaker(garden);
  const DeviceLimits* limits = limits_of(type.empty() && !garden.source.injector ? std::string(kHoseBreaker) : type);
  if (!limits) return;
  const Place place = owned ? owned->place : garden.source.place;
  check_height(garden, *limits, place, units, diagnostics);
  if (!owned) return;
  check_valves(garden, *limits, place, diagnostics);
  check_chemicals(garden, *limits, place, diagnostics);
}

}  // namespace teetally::hydraulics
