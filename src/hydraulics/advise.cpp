#include <algorithm>
#include <set>

#include "hydraulics/changes.h"
#include "hydraulics/verdict.h"

namespace teetally {
namespace hydraulics {
namespace {

constexpr std::size_t kMostOffered = 4;
constexpr std::int64_t kMostOutlets = 5000;  // each change is a whole sizing; beyond this it would keep people waiting

bool too_many_outlets(const Garden& garden) {
  std::int64_t outlets = 0;
  for (const Run& run : garden.runs) outlets += run.emitters ? run.emitter_count : 0;
  return outlets > kMostOutlets;
}

std::vector<Advice> to_measure(const SiteSource& source) {
  if (source.flow) return {};
  Advice advice;
  advice.words =
      "fill a bucket with the tap fully open and nothing else running, and state its volume and the seconds it took";
  advice.edits.push_back({"design", "the source", source.place, false, "bucket: {volume: 5 gal, seconds: 60}"});
  return {advice};
}

struct Solved {
  bool sound = false;  // without errors
  SizedGarden sized;
  std::set<std::string> warnings;
};

Solved solve_site(const Site& site, const Practice& practice, UnitSystem units) {
  Solved out;
  Diagnostics found;
  Garden garden = lay_out(site, practice, found);
  if (found.has_errors()) return out;
  out.sized = size_garden(std::move(garden), practice, units, found);
  out.sound = !found.has_errors();
  for (const Diagnostic& diagnostic : found.in_order()) out.warnings.insert(diagnostic.message);
  return out;
}

class Adviser {
 public:
  Adviser(const Site& site, const SizedGarden& sized, int zone, const Practice& practice, UnitSystem units)
      : site_(site),
        sized_(sized),
        zone_(zone),
        practice_(practice),
        units_(units),
        before_(solve_site(site, practice, units).warnings) {}

  std::vector<Advice> advise() {
    const std::vector<Change> changes = changes_for(site_, sized_, zone_, practice_, units_);
    for (const Change& change : changes) consider(change);
    if (!works_.empty()) return std::move(works_);
    // No change does it alone: each together with running the zone in parts.
    for (const Change& first : changes) {
      if (!first.splits) split_after(first);
    }
    return std::move(works_.empty() ? better_ : works_);
  }

 private:
  void split_after(const Change& first) {
    Diagnostics unheard;
    const Garden garden = lay_out(first.site, practice_, unheard);
    if (unheard.has_errors()) return;
    split_found_ = false;
    for (int parts = 2; parts <= kMostParts && !split_found_; ++parts) {
      std::optional<Change> second = split_zone(first.site, garden, zone_, parts);
      if (!second) break;
      second->words = first.words + "; and " + second->words;
      // The zones of the second change hold whatever the first did to them.
      std::vector<Edit> edits = first.edits;
      edits.erase(std::remove_if(edits.begin(), edits.end(),
                                 [](const Edit& edit) { return edit.text.rfind("zones:", 0) == 0; }),
                  edits.end());
      edits.insert(edits.end(), second->edits.begin(), second->edits.end());
      second->edits = std::move(edits);
      second->regulator = first.regulator;
      consider(*second);
    }
    split_found_ = false;
  }

  // The zone itself and the parts it became, the worst of them; no other zone may fare worse than before.
  std::optional<const ZoneHydraulics*> judged(const SizedGarden& after) const {
    const int added = static_cast<int>(after.zones.size()) - static_cast<int>(sized_.zones.size());
    const ZoneHydraulics* worst = nullptr;
    for (int i = 0; i < static_cast<int>(after.zones.size()); ++i) {
      const ZoneHydraulics& zone = after.zones[i];
      if (i >= zone_ && i <= zone_ + added) {
        if (!worst || rank(zone.verdict) > rank(worst->verdict)) worst = &zone;
      } else if (rank(zone.verdict) > rank(sized_.zones[i < zone_ ? i : i - added].verdict)) {
        return std::nullopt;
      }
    }
    return worst;
  }

  void consider(const Change& change) {
    if (works_.size() >= kMostOffered || (change.splits && split_found_)) return;
    Practice practice = practice_;
    if (change.regulator)
      (sized_.zones[zone_].tape ? practice.regulator_tape : practice.regulator_drip).value = *change.regulator;
    const Solved after = solve_site(change.site, practice, units_);
    if (!after.sound) return;
    const auto worst = judged(after.sized);
    if (!worst || !*worst) return;
    const ZoneHydraulics& then = **worst;
    Advice advice{change.words, change.edits, then.verdict, then.words, {}};
    std::set_difference(after.warnings.begin(), after.warnings.end(), before_.begin(), before_.end(),
                        std::back_inserter(advice.warnings));
    if (then.verdict == Verdict::works) {
      works_.push_back(std::move(advice));
      split_found_ = split_found_ || change.splits;
    } else if (rank(then.verdict) < rank(sized_.zones[zone_].verdict) && better_.size() < kMostOffered) {
      better_.push_back(std::move(advice));
    }
  }

  const Site& site_;
  const SizedGarden& sized_;
  int zone_;
  const Practice& practice_;
  UnitSystem units_;
  std::set<std::string> before_;
  bool split_found_ = false;  // the fewest zones that do are enough
  std::vector<Advice> works_, better_;
};

}  // namespace
}  // namespace hydraulics

std::vector<Advice> advise(const Site& site, const SizedGarden& sized, int zone, const Practice& practice,
                           UnitSystem units) {
  using namespace hydraulics;
  const ZoneHydraulics& now = sized.zones[zone];
  if (now.verdict == Verdict::works) return {};
  if (now.verdict == Verdict::unknown) return to_measure(site.source);
  if (now.rated_m3_per_s <= 0 || too_many_outlets(sized.garden)) return {};
  return Adviser(site, sized, zone, practice, units).advise();
}

}  // namespace teetally
