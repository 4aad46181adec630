#pragma once
// Seconds since it was made, for time limits only: no result depends on it but where a search stops.
#include <chrono>

namespace teetally {

class Stopwatch {
 public:
  double seconds() const { return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count(); }

 private:
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

class TimeLimit {
 public:
  TimeLimit(Stopwatch since, double seconds) : since_(since), seconds_(seconds) {}
  bool over() const { return since_.seconds() > seconds_; }
  TimeLimit share(double part) const { return {since_, seconds_ * part}; }

 private:
  Stopwatch since_;
  double seconds_;
};

}  // namespace teetally
