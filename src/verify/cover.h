#pragma once
// How offers fill what a group still misses, state by state.
#include <vector>

#include "teetally/verify/parts.h"

namespace teetally {

// States count what is missing of each demand; the first is nothing at all. Tables hold the least cost of covering as
// much, kDearest when that cannot be.
class Covering {
 public:
  explicit Covering(const CoverGroup& group);

  Steps nothing_taken() const;
  // Lowers `after` to what so many units on top of `before` cost.
  void add(const Steps& before, Steps& after, unsigned dims, std::int64_t units, std::int64_t cost) const;
  // Every count that is on offer.
  void take_pack(const CoverOffer& offer, std::int64_t rate, const Steps& before, Steps& after) const;
  void take_content(const CoverOffer& offer, const StatedShare& share, const Steps& before, Steps& after) const;
  // The least where tables from both ends meet, with so many units between them.
  std::int64_t meet(const Steps& before, const Steps& after, unsigned dims, std::int64_t units) const;
  // Contents by count: the last count that differs from the ones beyond it.
  bool counted(const CoverOffer& offer, const StatedShare& share) const;
  std::int64_t last_count(const CoverOffer& offer, const StatedShare& share) const;
  // How many lots led from `before` to the state's cost in `after`, and from where.
  struct Found {
    std::int64_t lots = 0;
    std::size_t from = 0;
  };
  Found look_back(const CoverOffer& offer, std::int64_t rate, const StatedShare* share, const Steps& before,
                  const Steps& after, std::size_t state) const;

 private:
  template <typename Visit>
  void give(std::size_t state, unsigned dims, std::int64_t units, Visit visit) const;
  template <typename Visit>
  void give_from(std::size_t d, std::int64_t state, std::int64_t units, std::int64_t room_left,
                 const std::vector<std::int64_t>& room, Visit visit) const;
  void take_run(const CoverOffer& offer, std::int64_t first, std::int64_t start, std::int64_t each, const Steps& before,
                Steps& after) const;
  std::int64_t enough(const CoverOffer& offer) const;

  const CoverGroup& group_;
  std::size_t size_;
  std::int64_t total_ = 0;
  std::vector<std::int64_t> strides_;
};

// Whether anything on offer, at whatever price, meets the demands.
bool can_be_met(const CoverGroup& group);

}  // namespace teetally
