#pragma once
// Seconds since it was made, for time limits only: no result depends on it but where a search stops.
#include <atomic>
#include <chrono>

namespace teetally {

class Stopwatch {
 public:
  double seconds() const { return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count(); }

 private:
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

// Set from anywhere, also from a signal, to end a search with what it has; nullptr: nobody will.
using StopFlag = const std::atomic<bool>*;
inline bool is_set(StopFlag stop) { return stop != nullptr && stop->load(std::memory_order_relaxed); }

class TimeLimit {
 public:
  TimeLimit(Stopwatch since, double seconds, StopFlag stop = nullptr) : since_(since), seconds_(seconds), stop_(stop) {}
  bool over() const { return is_set(stop_) || since_.seconds() > seconds_; }
  // Zero once it is over.
  double left() const { return over() ? 0 : seconds_ - since_.seconds(); }
  TimeLimit share(double part) const { return {since_, seconds_ * part, stop_}; }

 private:
  Stopwatch since_;
  double seconds_;
  StopFlag stop_;
};

}  // namespace teetally
