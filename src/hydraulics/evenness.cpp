#include "hydraulics/evenness.h"

#include <algorithm>
#include <cmath>

namespace teetally::hydraulics {

Evenness evenness_of(const std::vector<Share>& shares) {
  Evenness evenness;
  if (shares.empty()) return evenness;
  evenness.least = evenness.most = shares.front().part;
  double sum = 0, count = 0;
  for (const Share& share : shares) {
    evenness.least = std::min(evenness.least, share.part);
    evenness.most = std::max(evenness.most, share.part);
    sum += share.part * share.count;
    count += share.count;
  }
  evenness.mean = count > 0 ? sum / count : 0;
  evenness.variation = evenness.most > 0 ? (evenness.most - evenness.least) / evenness.most : 0;
  return evenness;
}

bool even_enough(const Evenness& evenness, bool all_compensating, double most_variation) {
  if (evenness.least <= 0 || evenness.variation > most_variation) return false;
  return !all_compensating || evenness.least >= 1 - 1e-9;
}

std::string uniformity_class(double percent) {
  if (percent >= 94) return "excellent";
  if (percent >= 81) return "good";
  if (percent >= 68) return "fair";
  if (percent >= 56) return "poor";
  return "unacceptable";
}

double emission_uniformity(double least_over_mean, double manufacturing_cv, double emitters_at_a_plant) {
  return 100 * (1 - 1.27 * manufacturing_cv / std::sqrt(emitters_at_a_plant)) * least_over_mean;
}

}  // namespace teetally::hydraulics
