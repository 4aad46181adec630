#pragma once
// Ctrl-C while searching: the first one stops the search, which then answers the best it has; the second one ends the
// program at once, unless it comes within 0.2 s: a wrapper that hands signals on makes two of one. Everywhere else
// Ctrl-C ends it at once, as ever; files are written whole or not at all.
#include "teetally/purchase.h"
#include "tool/session.h"

namespace teetally {

// As long as it lives, the first interrupt sets the limits' stop flag.
class StopOnInterrupt {
 public:
  explicit StopOnInterrupt(BuyLimits& limits);
  ~StopOnInterrupt();
  StopOnInterrupt(const StopOnInterrupt&) = delete;
  StopOnInterrupt& operator=(const StopOnInterrupt&) = delete;

 private:
  BuyLimits& limits_;
};

bool interrupted();
// Says that the search was stopped, and how far the order found may be from the cheapest (warning tool/stopped).
void note_stop(Session& session, const Purchase& purchase);

}  // namespace teetally
