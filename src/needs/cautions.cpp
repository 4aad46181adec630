#include <algorithm>
#include <string_view>

#include "needs/rules.h"

namespace teetally {
namespace {

bool needs_kind(Worksheet& sheet, std::string_view kind) {
  const auto needs = sheet.tally.needs();
  return std::any_of(needs.begin(), needs.end(), [&](const Need* need) { return need->part.kind == kind; });
}

bool needs_hose_breaker(Worksheet& sheet) {
  const auto needs = sheet.tally.needs();
  return std::any_of(needs.begin(), needs.end(), [](const Need* need) {
    const auto type = need->part.attributes.find("type");
    return need->part.kind == "backflow preventer" && type != need->part.attributes.end() &&
           type->second.words == std::vector<std::string>{"hose connection vacuum breaker"};
  });
}

// BSP threads (ISO 7, ISO 228) are hardly met in the US, so rules and numbers of there do not help.
bool is_outside_us(const Garden& garden) { return garden.source.thread.find("BSP") != std::string::npos; }

bool has_supply(const Garden& garden) {
  return std::any_of(garden.legs.begin(), garden.legs.end(),
                     [](const Leg& leg) { return leg.role == LegRole::supply; });
}

}  // namespace

void add_cautions(Worksheet& sheet) {
  std::vector<std::string>& say = sheet.cautions;
  const bool abroad = is_outside_us(sheet.garden);
  if (needs_kind(sheet, "backflow preventer")) {
    say.push_back(
        "Backflow: the kind of device, its height, permits and tests are set locally, and some work is for licensed "
        "people only. Ask the water supplier before buying.");
  }
  if (needs_hose_breaker(sheet)) {
    const std::string hours =
        "A hose connection vacuum breaker is not to be under pressure for more than 12 hours on end (ASSE 1011";
    const std::string keep = "). Keep the timer or tap that shuts off before it, never after it. ";
    if (abroad) {
      say.push_back(hours + ", a US standard" + keep + "Where you are, another device may be asked for.");
    } else {
      say.push_back(hours + keep +
                    "The City of Durham, NC, has it replaced about yearly, and does not allow it for permanent "
                    "irrigation.");
    }
    if (needs_kind(sheet, "shut-off valve") || needs_kind(sheet, "zone valve")) {
      say.push_back(
          std::string("This design has valves after the hose connection vacuum breaker, where ") +
          (abroad ? "the City of Durham in the US says" : "the City of Durham, NC, says") +
          " never to fit one: leave them open while the tap is on, or use a device made for constant pressure.");
    }
  }
  if (sheet.garden.source.timer && needs_kind(sheet, "zone valve")) {
    say.push_back(
        "Zone valves are worked by hand or by a controller of their own: a timer at the tap only turns on and off what "
        "is "
        "behind it as a whole.");
  }
  if (sheet.garden.source.injector) {
    say.push_back(std::string("Chemical injection: the Uniform Plumbing Code") + (abroad ? " of the US" : "") +
                  " (2018, 603.5.6) accepts only a reduced-pressure device; it is "
                  "tested yearly in many places.");
  }
  if (!sheet.garden.source.static_pressure) {
    say.push_back(
        "Pressure: the design states no static pressure. Measure it; above 80 psi (5.5 bar) have it reduced first.");
  }
  if (needs_kind(sheet, "pressure regulator")) {
    say.push_back("Pressure: a regulator that fails lets full pressure onto the tubing. Look at it each season.");
  }
  if (needs_kind(sheet, "hold-down") && has_supply(sheet.garden)) {
    say.push_back(std::string("Digging or staking: have buried services marked first (") +
                  (abroad ? "ask your water, power and gas suppliers" : "811 in the US") +
                  ", some working days ahead); private lines are not marked.");
    say.push_back("Tripping: where a line crosses a path, bury or cover it.");
  }
  if (needs_kind(sheet, "filter") || needs_kind(sheet, "timer")) {
    say.push_back("Frost: before the first one, shut off, open the ends, drain, and take the head assembly indoors.");
  }
  say.push_back("These amounts are estimates from the measurements given. Check them on site.");
}

}  // namespace teetally
