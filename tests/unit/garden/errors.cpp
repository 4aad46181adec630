// Every complaint of laying out, each from a garden with one thing wrong.
#include "unit/garden/laying.h"

using namespace teetally;
using namespace teetally::testing;

namespace {

struct Wrong {
  std::string slug, text;
};

const std::string kTrunk = "lines: [{name: trunk, from: tap, walk: [east 30 ft]}]\n";
const std::string kPots = "containers: [{name: pots, at: [[4 ft, 2 ft]], emitter: {flow: 1 gph}, feed: trunk}]\n";

std::string lines(const std::string& more) {
  return "lines:\n  - {name: trunk, from: tap, walk: [east 30 ft]}\n" + more;
}

std::string bed(const std::string& size, const std::string& rest) {
  return kTrunk + "beds: [{name: b, corner: [5 ft, 2 ft], size: " + size + ", header: south, " + rest +
         ", emitter line: {size: 1/4 in, spacing: 12 in, flow: 0.5 gph}}]\n";
}

const Wrong kWrongs[] = {
    {"garden/beyond-the-line", bed("[4 ft, 8 ft]", "rows: {count: 3}, feed: 40 ft along trunk")},
    {"garden/crossing", lines("  - {name: a, from: 3 ft along trunk, walk: [north 3 ft, east 3 ft, south 9 ft]}\n") +
                            "containers: [{name: pots, at: [[1 ft, 2 ft]], emitter: {flow: 1 gph}, feed: trunk}]\n"},
    {"garden/nearest-to-what", lines("  - {name: a, from: nearest point of trunk, walk: [north 3 ft]}\n") + kPots},
    {"garden/no-length", lines("  - {name: a, from: 2 ft along trunk, walk: []}\n") + kPots},
    {"garden/no-room-for-valve",
     lines("  - {name: a, from: end of trunk, walk: [north 2 ft 3 in]}\n") +
         "beds: [{name: b, corner: [29 ft 6 in, 2 ft], size: [2 ft, 8 ft], rows: {count: 2}, header: south, "
         "feed: end of a, valve: yes, emitter line: {size: 1/4 in, spacing: 12 in, flow: 0.5 gph}}]\n"},
    {"garden/no-such-end", bed("[4 ft, 8 ft]", "rows: {count: 3}, feed: trunk, feed at: north end")},
    {"garden/no-zone-valve",
     kTrunk +
         "containers:\n"
         "  - {name: a, at: [[4 ft, 2 ft]], emitter: {flow: 1 gph}, feed: trunk}\n"
         "beds: [{name: b, corner: [5 ft, 2 ft], size: [4 ft, 8 ft], rows: {count: 2}, header: south, feed: trunk,\n"
         "  emitter line: {size: 1/4 in, spacing: 12 in, flow: 0.5 gph}}]\n"
         "zones: {one: [a], two: [b]}\n"},
    {"garden/not-connected", "lines: [{name: trunk, points: [[5 ft, 0], [9 ft, 0]]}]\n" + kPots},
    {"garden/outlet-on-line",
     kTrunk + "containers: [{name: a, at: [[4 ft, 0]], emitter: {flow: 1 gph}, feed: trunk}]\n"},
    {"garden/row-without-emitters", bed("[4 ft, 16 in]", "rows: {count: 3}, feed: trunk")},
    {"garden/rows-do-not-fit", bed("[1 ft, 8 ft]", "rows: {count: 2}, feed: trunk")},
    {"garden/rows-do-not-fit", bed("[4 ft, 6 in]", "rows: {count: 2}, feed: trunk")},
    {"garden/rows-do-not-fit", bed("[4 ft, 8 ft]", "rows: {count: 1000}, feed: trunk")},
    {"garden/same-place",
     kTrunk + "containers: [{name: a, at: [[4 ft, 2 ft], [4 ft, 2 ft]], emitter: {flow: 1 gph}, feed: trunk}]\n"},
    {"garden/tape-does-not-reach",
     kTrunk + "tape rows: [{name: t, start: [4 ft, 2 ft], length: 20 ft, direction: north, rows from: trunk,\n"
              "  tape: {size: 5/8 in, spacing: 12 in, flow: 0.3 gph}}]\n"},
    {"garden/too-far", "lines: [{name: trunk, from: tap, walk: [east 30 ft, north 9000 m, north 9000 m]}]\n" + kPots},
    {"garden/too-large", kTrunk + "sprays: [{name: s, feed: end of trunk, sprayer: {flow: 8 gph, pattern: mist},\n"
                                  "  bench: {corner: [40 ft, 0, 3 ft], size: [90 ft, 90 ft], spacing: 4 in}}]\n"},
    {"garden/too-many-meet", lines("  - {name: a, from: end of trunk, walk: [north 3 ft]}\n"
                                   "  - {name: b, from: end of trunk, walk: [south 3 ft]}\n"
                                   "  - {name: c, from: end of trunk, walk: [east 3 ft]}\n"
                                   "  - {name: d, from: end of trunk, walk: [up 3 ft]}\n") +
                                 kPots},
    {"garden/two-starts", lines("  - {name: a, from: tap, walk: [north 3 ft]}\n") + kPots},
    {"garden/unknown-size", "lines: [{name: trunk, from: tap, size: 5/16 in, walk: [east 30 ft]}]\n" + kPots},
    {"garden/zone-behind-zone", lines("  - {name: a, from: end of trunk, walk: [north 3 ft]}\n") +
                                    "containers:\n"
                                    "  - {name: x, at: [[4 ft, 2 ft]], emitter: {flow: 1 gph}, feed: trunk}\n"
                                    "  - {name: y, at: [[40 ft, 2 ft]], emitter: {flow: 1 gph}, feed: a}\n"
                                    "zones: {one: [trunk, x], two: [y]}\n"},
    {"garden/zone-leaves-often", lines("  - {name: a, from: 9 ft along trunk, walk: [north 3 ft]}\n"
                                       "  - {name: b, from: 19 ft along trunk, walk: [north 3 ft]}\n"
                                       "  - {name: c, from: end of trunk, walk: [north 3 ft]}\n") +
                                     "containers:\n"
                                     "  - {name: x, at: [[8 ft, 2 ft]], emitter: {flow: 1 gph}, feed: a}\n"
                                     "  - {name: y, at: [[18 ft, 2 ft]], emitter: {flow: 1 gph}, feed: b}\n"
                                     "  - {name: z, at: [[40 ft, 2 ft]], emitter: {flow: 1 gph}, feed: c}\n"
                                     "zones: {one: [x, y], two: [z]}\n"},
};

}  // namespace

BOOST_AUTO_TEST_CASE(one_thing_wrong_is_complained_of_at_its_place) {
  for (const Wrong& wrong : kWrongs) {
    const Laid laid = lay_out_text(wrong.text);
    BOOST_TEST_CONTEXT(wrong.text) {
      for (const Diagnostic& diagnostic : laid.diagnostics) {
        BOOST_TEST(diagnostic.slug == wrong.slug, to_text(diagnostic));
        BOOST_TEST(diagnostic.place.known());
      }
      BOOST_TEST(!laid.diagnostics.empty());
    }
  }
}
