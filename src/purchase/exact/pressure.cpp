#include "purchase/exact/pressure.h"

#include <algorithm>
#include <cmath>

namespace teetally {
namespace {

constexpr int kThirds = 7, kMostRounds = 12, kMostHalvings = 4;

class Climb {
 public:
  Climb(const ExactModel& model, Bound& bound, SearchNode& node, double enough)
      : bound_(bound), node_(node), enough_(enough), minor_(model.measure.minor) {
    const std::size_t columns = model.columns.size();
    for (std::size_t s = 0; s < model.suppliers.size(); ++s) {
      const std::vector<int>& values = node.domains[columns + s];
      if (values.size() != 1 || model.suppliers[s][values.front()].from == 0) continue;
      suppliers_.push_back(static_cast<int>(s));
      rates_.push_back(model.suppliers[s][values.front()].rate);
    }
    now_ = bound_.evaluate(node_);
  }

  double value() const { return now_; }
  bool done() const { return now_ > enough_; }
  std::size_t count() const { return suppliers_.size(); }

  // Along one supplier: a search by thirds.
  void along(std::size_t i) {
    const double start = node_.pressure[suppliers_[i]], rate = rates_[i];
    double chosen = start;
    const auto look = [&](double pressure) {
      const double value = value_at(i, pressure);
      if (value > now_) now_ = value, chosen = pressure;
      return value;
    };
    const double before = now_;
    if (start > 0 || look(rate / 64) > before) {
      double low = 0, high = rate;
      for (int k = 0; k < kThirds && !done(); ++k) {
        const double a = low + (high - low) / 3, b = high - (high - low) / 3;
        if (look(a) >= look(b)) {
          high = b;
        } else {
          low = a;
        }
      }
    }
    bound_.set_pressure(node_, suppliers_[i], chosen);
  }

  // Along all of them: from the best of the corners, steps up the slope (Polyak's, towards `enough`).
  void together() {
    try_point(rates_);
    for (int round = 0; round < kMostRounds && !done(); ++round) {
      const Table slope = slope_here();
      double length = 0;
      for (double part : slope) length += part * part;
      if (length == 0 || !step_up(slope, (std::min(enough_, now_ * 1.1 + minor_) - now_) / length)) return;
    }
  }

 private:
  double value_at(std::size_t i, double pressure) {
    bound_.set_pressure(node_, suppliers_[i], pressure);
    return bound_.evaluate(node_);
  }

  Table here() const {
    Table point;
    for (int s : suppliers_) point.push_back(node_.pressure[s]);
    return point;
  }

  void go(const Table& point) {
    for (std::size_t i = 0; i < point.size(); ++i) bound_.set_pressure(node_, suppliers_[i], point[i]);
  }

  bool try_point(const Table& point) {
    const Table before = here();
    go(point);
    const double value = bound_.evaluate(node_);
    if (value > now_) {
      now_ = value;
      return true;
    }
    go(before);
    return false;
  }

  Table slope_here() {
    Table slope;
    for (std::size_t i = 0; i < suppliers_.size(); ++i) {
      const double start = node_.pressure[suppliers_[i]], little = rates_[i] / 512;
      const double to = start + little <= rates_[i] ? start + little : start - little;
      double part = (value_at(i, to) - now_) / (to - start);
      if (start == 0) part = std::max(part, 0.0);
      slope.push_back(part);
      bound_.set_pressure(node_, suppliers_[i], start);
    }
    return slope;
  }

  bool step_up(const Table& slope, double step) {
    const Table start = here();
    for (int halving = 0; halving < kMostHalvings; ++halving, step /= 3) {
      Table point = start;
      for (std::size_t i = 0; i < point.size(); ++i) point[i] = std::clamp(point[i] + step * slope[i], 0.0, rates_[i]);
      if (try_point(point)) return true;
    }
    return false;
  }

  Bound& bound_;
  SearchNode& node_;
  double enough_, minor_, now_ = 0;
  std::vector<int> suppliers_;
  Table rates_;
};

}  // namespace

double raise_by_pressure(const ExactModel& model, Bound& bound, SearchNode& node, double enough, bool thorough) {
  Climb climb(model, bound, node, enough);
  for (int round = 0; round < (thorough ? 3 : 1); ++round) {
    for (std::size_t i = 0; i < climb.count() && !climb.done(); ++i) climb.along(i);
    if (thorough && climb.count() > 1 && !climb.done()) climb.together();
  }
  node.bound = std::max(node.bound, climb.value());
  return climb.value();
}

}  // namespace teetally
