#pragma once
// Seconds since it was made, for time limits only.
#include <chrono>

namespace teetally {

class PoolStopwatch {
 public:
  double seconds() const { return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count(); }

 private:
  std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

}  // namespace teetally
