#pragma once
// The packs of an order as streams: each item's pieces come out of its packs one after another, so that never more than
// one pack of an item is open.
#include <cstdint>
#include <map>
#include <utility>
#include <vector>

#include "teetally/quote/hand_out.h"

namespace teetally {

class PackStreams {
 public:
  explicit PackStreams(const PoolResult& result);

  // So many pieces of an item, from as many packs as they take; asks for no more than there is.
  std::vector<Pick> take(std::pair<int, int> item, std::int64_t amount);
  std::int64_t left(std::pair<int, int> item) const;
  std::vector<std::pair<int, int>> items() const;  // catalog and item
  int open() const { return open_; }               // packs begun and not finished
  const std::vector<PackThere>& packs() const { return packs_; }

 private:
  struct Portioned {
    int pack = -1;  // index into packs_
    std::int64_t content = 0;
  };
  struct Stream {
    std::vector<Portioned> packs;
    std::size_t at = 0;
    std::int64_t taken = 0;  // of the pack at hand
    std::int64_t left = 0;
  };
  void add(std::pair<int, int> item, int pack, std::int64_t content);
  void add_line(const PoolResult& result, const OrderLine& line);
  void add_bundle(const PoolResult& result, const OrderLine& line, std::int64_t which, int pack);

  std::vector<PackThere> packs_;
  std::map<std::pair<int, int>, Stream> streams_;
  int open_ = 0;
};

}  // namespace teetally
