#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>
#include <string_view>

#include "needs/rules.h"

namespace teetally {
namespace {

// Spares are kept of what joins and closes tubing. A head assembly has no spares, nor have outlets.
bool is_fitting(std::string_view kind) {
  static constexpr std::array<std::string_view, 8> kFittings = {
      "tee", "elbow", "cross", "reducer", "end closure", "flush cap", "barbed connector", "tape connector"};
  return std::find(kFittings.begin(), kFittings.end(), kind) != kFittings.end();
}

Reason spare_reason(std::string rule, std::int64_t amount) {
  Reason reason;
  reason.reason_class = ReasonClass::spare;
  reason.rule = std::move(rule);
  reason.amount = amount;
  return reason;
}

void spare_fittings(Worksheet& sheet) {
  const Setting<Percent>& share = sheet.practice.fitting_spares;
  if (share.value.ppm <= 0) return;
  bool has_spares = false;
  for (Need* need : sheet.tally.needs()) {
    if (!is_fitting(need->part.kind)) continue;
    const std::int64_t spares = (need->amount * share.value.ppm + 999'999) / 1'000'000;
    Tally::add(*need,
               spare_reason(fmt::format("spares: {} of {}, rounded up", to_string(share.value), need->amount), spares));
    has_spares = true;
  }
  if (has_spares) {
    sheet.assume(fmt::format("{} spare fittings of each kind, rounded up", to_string(share.value)), share.origin);
  }
}

bool is_supply(LegRole role) { return role == LegRole::supply || role == LegRole::riser || role == LegRole::header; }

void spare_couplings(Worksheet& sheet) {
  const Setting<std::int64_t>& spare = sheet.practice.spare_couplings;
  if (spare.value <= 0) return;
  std::set<int> systems;
  for (std::size_t leg = 0; leg < sheet.garden.legs.size(); ++leg) {
    const int index = static_cast<int>(leg);
    if (is_supply(sheet.garden.legs[leg].role) && !sheet.is_existing(index)) systems.insert(sheet.system_of(index));
  }
  systems.erase(-1);
  for (const int system : systems) {
    const TubingSystem& tubing = sheet.systems[static_cast<std::size_t>(system)];
    sheet.tally.add(sized_part("coupling", tubing.size), {system, system},
                    spare_reason(fmt::format("spare, to mend {} tubing", tubing.name), spare.value));
  }
  if (!systems.empty()) {
    sheet.assume(fmt::format("{} for each size of supply tubing", counted(spare.value, "spare coupling")),
                 spare.origin);
  }
}

void spare_hole_plugs(Worksheet& sheet) {
  const Setting<std::int64_t>& spare = sheet.practice.spare_hole_plugs;
  const std::int64_t hundreds = (sheet.holes + 99) / 100;
  if (spare.value <= 0 || hundreds == 0) return;
  sheet.tally.add(
      {"hole plug", {}}, {},
      spare_reason(fmt::format("spare, for holes in the wrong place: {} made", counted(sheet.holes, "hole")),
                   spare.value * hundreds));
  sheet.assume(fmt::format("{} for each started 100 holes", counted(spare.value, "spare hole plug")), spare.origin);
}

}  // namespace

void add_spares(Worksheet& sheet) {
  spare_fittings(sheet);
  spare_couplings(sheet);
  spare_hole_plugs(sheet);
}

}  // namespace teetally
