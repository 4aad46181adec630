#pragma once
// How evenly outlets give, each measured against its own rated flow.
// - flow variation: (most - least) / most. A published design rule keeps it within 20 % in a subunit.
// - emission uniformity: 100 (1 - 1.27 Cv / sqrt(n)) least / mean, Cv the emitters' manufacturing variation, n
//   emitters at a plant (Karmeli and Keller 1974: the maker's part times the pressure's part).
#include <string>
#include <vector>

namespace teetally::hydraulics {

struct Share {
  double part = 0;   // flow over rated flow
  double count = 1;  // outlets alike
};

struct Evenness {
  double least = 0, most = 0, mean = 0;  // of the parts
  double variation = 0;                  // 0 to 1
};
Evenness evenness_of(const std::vector<Share>& shares);

// Every outlet gives water, within the wanted variation, and compensating ones their rated flow.
bool even_enough(const Evenness& evenness, bool all_compensating, double most_variation);

// "excellent" from 94 %, "good" from 81, "fair" from 68, "poor" from 56, "unacceptable": field-evaluation classes as
// commonly quoted from ASAE EP458, whose text was not at hand; between the quoted ranges the lower class holds.
std::string uniformity_class(double percent);

double emission_uniformity(double least_over_mean, double manufacturing_cv, double emitters_at_a_plant);  // percent

}  // namespace teetally::hydraulics
