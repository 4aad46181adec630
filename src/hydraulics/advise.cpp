#include <algorithm>

#include "hydraulics/changes.h"
#include "hydraulics/sizing.h"
#include "hydraulics/tubing.h"
#include "hydraulics/verdict.h"
#include "hydraulics/zone_report.h"

namespace teetally {
namespace hydraulics {
namespace {

constexpr std::size_t kMostOffered = 4;
constexpr std::int64_t kMostOutlets = 5000;  // each change is a whole sizing; beyond this it would keep people waiting

struct Tried {
  Verdict verdict = Verdict::will_not_work;
  std::string words;
};

// The changed garden sized and judged anew: the zone itself and the zones that were added, the worst of them.
Tried judged(const Change& change, int zone, std::size_t zones_before, Practice practice, UnitSystem units) {
  if (change.regulator) practice.regulator_drip.value = practice.regulator_tape.value = *change.regulator;
  const Settings settings = settings_of(practice);
  Garden garden = change.garden;
  Diagnostics unheard;
  choose_sizes(garden, practice, settings, unheard);
  const std::vector<double> insides = insides_of_legs(garden, practice), losses = fitting_losses(garden);
  Tried worst{Verdict::works, ""};
  for (std::size_t i = 0; i < garden.zones.size(); ++i) {
    const int at = static_cast<int>(i);
    if (at != zone && i < zones_before) continue;
    const ZoneFlow flow = flow_of(garden, at, insides, losses, settings);
    const ZoneHydraulics report = zone_report(garden, at, flow, insides, settings, units);
    if (worst.words.empty() || rank(report.verdict) > rank(worst.verdict)) worst = {report.verdict, report.words};
  }
  return worst;
}

bool too_many_outlets(const Garden& garden) {
  std::int64_t outlets = 0;
  for (const Run& run : garden.runs) outlets += run.emitters ? run.emitter_count : 0;
  return outlets > kMostOutlets;
}

std::vector<Advice> to_measure(const SiteSource& source) {
  std::vector<Advice> advice;
  if (!source.flow) {
    advice.push_back(
        {"fill a bucket with the tap fully open and nothing else running, and state its volume and the seconds it took",
         "source: bucket: {volume: 5 gal, seconds: 60}", Verdict::unknown, ""});
  }
  return advice;
}

class Adviser {
 public:
  Adviser(const Garden& laid_out, const SizedGarden& sized, int zone, const Practice& practice, UnitSystem units)
      : laid_out_(laid_out), sized_(sized), zone_(zone), practice_(practice), units_(units) {}

  std::vector<Advice> advise() {
    const std::vector<Change> changes = changes_for(laid_out_, sized_.garden, zone_, practice_, units_);
    for (const Change& change : changes) consider(change);
    if (!works_.empty()) return std::move(works_);
    // No change does it alone: each together with running the zone in parts.
    for (const Change& first : changes) {
      if (splits(first)) continue;
      for (Change& second : changes_for(first.garden, sized_.garden, zone_, practice_, units_)) {
        if (!splits(second)) continue;
        second.words = first.words + "; and " + second.words;
        second.edit = first.edit + "; " + second.edit;
        second.regulator = first.regulator;
        if (consider(second)) break;  // the fewest zones that do are enough
      }
      split_found_ = false;
    }
    return std::move(works_.empty() ? better_ : works_);
  }

 private:
  bool splits(const Change& change) const { return change.garden.zones.size() > laid_out_.zones.size(); }

  // True when the zone works with it.
  bool consider(const Change& change) {
    if (works_.size() >= kMostOffered || (splits(change) && split_found_)) return false;
    const Tried tried = judged(change, zone_, laid_out_.zones.size(), practice_, units_);
    Advice advice{change.words, change.edit, tried.verdict, tried.words};
    if (tried.verdict == Verdict::works) {
      works_.push_back(std::move(advice));
      split_found_ = split_found_ || splits(change);
      return true;
    }
    if (rank(tried.verdict) < rank(sized_.zones[zone_].verdict) && better_.size() < kMostOffered)
      better_.push_back(std::move(advice));
    return false;
  }

  const Garden& laid_out_;
  const SizedGarden& sized_;
  int zone_;
  const Practice& practice_;
  UnitSystem units_;
  bool split_found_ = false;
  std::vector<Advice> works_, better_;
};

}  // namespace
}  // namespace hydraulics

std::vector<Advice> advise(const Garden& laid_out, const SizedGarden& sized, int zone, const Practice& practice,
                           UnitSystem units) {
  using namespace hydraulics;
  const ZoneHydraulics& now = sized.zones[zone];
  if (now.verdict == Verdict::works) return {};
  if (now.verdict == Verdict::unknown) return to_measure(laid_out.source);
  if (now.rated_m3_per_s <= 0 || too_many_outlets(laid_out)) return {};
  return Adviser(laid_out, sized, zone, practice, units).advise();
}

}  // namespace teetally
