// The head assembly, from the tap outward: what shares the water out (timer or tap splitter), backflow
// preventer, filter, pressure regulator, tubing adapter. The filter always comes before the regulator.
#include "needs/head.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "needs/rules.h"

namespace teetally {
namespace {

constexpr const char* kRule = "rule of the head assembly";

// The thread that the parts of the head are bought with: the tap's, where that is one that garden parts
// are made for, else hose thread with an adapter between.
std::string head_thread(const Worksheet& sheet) {
  if (sheet.garden.source.thread.empty()) return "3/4 in hose";
  const std::string tap = word_value(sheet.garden.source.thread).words.front();
  const bool is_garden_thread = tap.find("hose") != std::string::npos || tap.find("bsp") != std::string::npos;
  return is_garden_thread ? tap : "3/4 in hose";
}

class Head {
 public:
  explicit Head(Worksheet& sheet) : sheet_(sheet), thread_(head_thread(sheet)), heads_(find_heads(sheet)) {}

  void assemble() {
    if (heads_.empty()) return;
    share_out();
    adapt_thread();
    for (const HeadStart& head : heads_) {
      prevent_backflow(head);
      filter(head);
      regulate(head);
      start_tubing(head);
    }
  }

 private:
  const SiteSource& source() const { return sheet_.garden.source; }
  PartSpec threaded(const char* kind) const { return {kind, {{"thread", word_value(thread_)}}}; }

  void ask(const PartSpec& part, std::string rule, std::string where, const std::vector<int>& systems = {},
           int element = -1) {
    Reason reason = design_reason(std::move(rule), std::move(where), 1, source().place);
    if (element >= 0) {
      sheet_.ask(part, systems, element, std::move(reason));
    } else {
      reason.element = source().name;
      sheet_.tally.add(part, systems, std::move(reason));
    }
  }

  void share_out() {
    const auto starts = static_cast<std::int64_t>(heads_.size());
    const std::string at_tap = fmt::format("at the {}", source().name);
    const bool has_splitter = std::any_of(sheet_.garden.existing.begin(), sheet_.garden.existing.end(),
                                          [](const OwnedPart& owned) { return owned.part.kind == "tap splitter"; });
    if (source().timer) {
      PartSpec timer = threaded("timer");
      timer.attributes["outlets"] = number_value(Dimension::count, starts);
      ask(timer, fmt::format("timer for {}", counted(starts, "start of tubing", "starts of tubing")), at_tap);
    }
    if (has_splitter || (starts > 1 && !source().timer)) {
      PartSpec splitter = threaded("tap splitter");
      const std::int64_t outlets = source().timer ? 1 : starts;
      splitter.attributes["outlets"] = number_value(Dimension::count, outlets);
      ask(splitter,
          starts > 1 && !source().timer ? fmt::format("{} starts of tubing at one tap", starts)
                                        : "stays at the tap and keeps an outlet for a hose",
          at_tap);
    }
  }

  void adapt_thread() {
    if (source().thread.empty()) {
      sheet_.assume(fmt::format("the tap's thread is {}: the design does not say", thread_), kRule);
    } else if (word_value(source().thread) != word_value(thread_)) {
      PartSpec adapter{"thread adapter", {{"from", word_value(source().thread)}, {"to", word_value(thread_)}}};
      ask(adapter, fmt::format("the tap is {}, the head assembly {}", source().thread, thread_),
          fmt::format("at the {}", source().name));
    }
  }

  void prevent_backflow(const HeadStart& head) {
    const std::string type = source().injector ? "reduced pressure" : "hose connection vacuum breaker";
    PartSpec part = threaded("backflow preventer");
    part.attributes["type"] = word_value(type);
    ask(part,
        source().injector ? "chemical injection: only a reduced-pressure device will do"
                          : "keeps garden water out of drinking water",
        head.where);
  }

  void filter(const HeadStart& head) {
    const Setting<std::int64_t>& mesh =
        has_tape(head) ? sheet_.practice.filter_mesh_tape : sheet_.practice.filter_mesh_drip;
    const Flow flow = demand(head);
    PartSpec part = threaded("filter");
    part.attributes["mesh"] = number_value(Dimension::count, mesh.value);
    if (flow.nl_per_h > 0) part.attributes["flow"] = number_value(Dimension::flow, flow.nl_per_h);
    ask(part,
        flow.nl_per_h > 0 ? fmt::format("filter for {}, before the regulator", to_text(flow, sheet_.units))
                          : "filter, before the regulator",
        head.where);
    sheet_.assume(fmt::format("filters of {} mesh or finer for {}", mesh.value, has_tape(head) ? "tape" : "drip"),
                  mesh.origin);
  }

  void regulate(const HeadStart& head) {
    const Pressure wanted = regulator(head);
    if (wanted.pa <= 0) return;
    note_shared_regulator(head, wanted);
    if (source().static_pressure && *source().static_pressure <= wanted) {
      sheet_.assume(
          fmt::format("no pressure regulator {}: the tap's {} is no more than the {} it would hold", head.where,
                      to_text(*source().static_pressure, sheet_.units), to_text(wanted, sheet_.units)),
          kRule);
      return;
    }
    PartSpec part = threaded("pressure regulator");
    part.attributes["pressure"] = number_value(Dimension::pressure, wanted.pa);
    const Flow flow = demand(head);
    if (flow.nl_per_h > 0) part.attributes["flow"] = number_value(Dimension::flow, flow.nl_per_h);
    ask(part, fmt::format("holds {}", to_text(wanted, sheet_.units)), head.where);
    for (const Setting<Pressure>* usual : {&sheet_.practice.regulator_drip, &sheet_.practice.regulator_tape}) {
      if (usual->value != wanted) continue;
      const char* what = usual == &sheet_.practice.regulator_tape ? "tape" : "drip";
      sheet_.assume(fmt::format("regulators hold {} for {}", to_text(wanted, sheet_.units), what), usual->origin);
      return;
    }
  }

  void start_tubing(const HeadStart& head) {
    const Leg& leg = sheet_.garden.legs[static_cast<std::size_t>(head.leg)];
    if (sheet_.is_existing(head.leg)) return;
    PartSpec part = threaded("tubing adapter");
    part.attributes["size"] = word_value(sheet_.size_of(head.leg));
    ask(part, "tubing starts at the head assembly", head.where, {sheet_.system_of(head.leg)}, leg.element);
  }

  // Zones that share a head run one after another, so the largest demand counts; of a zone with several heads only
  // what flows through this one.
  Flow demand(const HeadStart& head) const {
    double most = 0;
    for (const ZoneHydraulics& zone : sheet_.sized.zones) {
      if (serves(head, zone)) most = std::max(most, zone.demand_m3_per_s);
    }
    const auto leg = static_cast<std::size_t>(head.leg);
    if (is_one_of_several(head) && leg < sheet_.sized.leg_flow_m3_per_s.size()) {
      most = std::min(most, std::abs(sheet_.sized.leg_flow_m3_per_s[leg]));
    }
    return snapped(flow_from_m3_per_s(most));
  }

  bool is_one_of_several(const HeadStart& head) const {
    return std::any_of(head.zones.begin(), head.zones.end(), [&](int zone) {
      return std::count_if(heads_.begin(), heads_.end(), [&](const HeadStart& other) {
               return std::find(other.zones.begin(), other.zones.end(), zone) != other.zones.end();
             }) > 1;
    });
  }

  // The lowest of the pressures wanted: no outlet behind a shared regulator may get too much.
  Pressure regulator(const HeadStart& head) const {
    Pressure least;
    for (const ZoneHydraulics& zone : sheet_.sized.zones) {
      if (!serves(head, zone) || zone.regulator.pa <= 0) continue;
      if (least.pa == 0 || zone.regulator < least) least = zone.regulator;
    }
    return least;
  }

  void note_shared_regulator(const HeadStart& head, Pressure chosen) {
    for (const ZoneHydraulics& zone : sheet_.sized.zones) {
      if (!serves(head, zone) || zone.regulator.pa <= 0 || zone.regulator == chosen) continue;
      sheet_.cautions.push_back(fmt::format(
          "Pressure: zone {} wants {}, but shares its start of tubing with a zone that takes no more than {}.",
          quoted(sheet_.garden.zones[static_cast<std::size_t>(zone.zone)].name), to_text(zone.regulator, sheet_.units),
          to_text(chosen, sheet_.units)));
    }
  }

  bool has_tape(const HeadStart& head) const {
    return std::any_of(sheet_.sized.zones.begin(), sheet_.sized.zones.end(),
                       [&](const ZoneHydraulics& zone) { return serves(head, zone) && zone.tape; });
  }

  static bool serves(const HeadStart& head, const ZoneHydraulics& zone) {
    return std::find(head.zones.begin(), head.zones.end(), zone.zone) != head.zones.end();
  }

  // A solved flow differs from the sum of rated flows in its last digits; a filter rated for exactly that sum
  // must still do. So a flow within a hundred-thousandth of a whole tenth of a gph or l/h is that.
  static Flow snapped(Flow flow) {
    constexpr std::int64_t kGph = 3'785'411'784;
    constexpr std::int64_t kLitre = 1'000'000'000;
    for (const std::int64_t unit : {kGph, kLitre}) {
      const std::int64_t tenths = (flow.nl_per_h * 10 + unit / 2) / unit;
      const std::int64_t whole = (tenths * unit + 5) / 10;
      if (std::abs(flow.nl_per_h - whole) <= flow.nl_per_h / 100'000) return {whole};
    }
    return flow;
  }

  Worksheet& sheet_;
  std::string thread_;
  std::vector<HeadStart> heads_;
};

}  // namespace

void assemble_heads(Worksheet& sheet) { Head(sheet).assemble(); }

}  // namespace teetally
