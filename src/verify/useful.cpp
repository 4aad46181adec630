#include "verify/useful.h"

#include <algorithm>
#include <map>
#include <set>

namespace teetally {
namespace {

constexpr std::int64_t kWord = 64;
constexpr std::int64_t kLongest = 20'000'000;  // 2 km; longer coils are not looked into

// The pieces of some needs together.
struct Pieces {
  std::map<std::int64_t, std::int64_t> whole;  // length, how many
  std::int64_t joined = 0;                     // may be cut anyhow
  bool any = false;
};

// Sums of lengths up to `most`, one bit each.
class Sums {
 public:
  explicit Sums(std::int64_t most) : most_(most), words_(static_cast<std::size_t>(most / kWord) + 1, 0) {
    words_[0] = 1;
  }

  void take(std::int64_t length, std::int64_t count) {
    for (std::int64_t step = 1; count > 0; step *= 2) {
      const std::int64_t now = std::min(step, count);
      if (now <= most_ / length) add(length * now);
      count -= now;
    }
  }
  std::int64_t largest() const {
    for (std::int64_t sum = most_; sum > 0; --sum) {
      if ((words_[static_cast<std::size_t>(sum / kWord)] >> (sum % kWord) & 1U) != 0) return sum;
    }
    return 0;
  }

 private:
  void add(std::int64_t more) {
    const auto by = static_cast<std::size_t>(more / kWord);
    const auto bits = static_cast<unsigned>(more % kWord);
    for (std::size_t i = words_.size(); i-- > by;) {
      std::uint64_t word = words_[i - by] << bits;
      if (bits > 0 && i > by) word |= words_[i - by - 1] >> (kWord - bits);
      words_[i] |= word;
    }
  }
  std::int64_t most_;
  std::vector<std::uint64_t> words_;
};

class Usefulness {
 public:
  explicit Usefulness(const Market& market) : market_(market) {
    for (const StatedServing& serving : market.question.servings) {
      needs_of_[{serving.supplier, serving.item}].insert(serving.need);
    }
  }

  std::int64_t of(int supplier, int item, std::int64_t coil) {
    const auto found = needs_of_.find({supplier, item});
    return found == needs_of_.end() ? coil : of(found->second, coil);
  }

  // Of any number of a coil's length, all pieces of these needs considered.
  std::int64_t of(const std::set<int>& needs, std::int64_t coil) {
    const auto [entry, is_new] = known_.emplace(std::pair(needs, coil), coil);
    if (is_new) entry->second = find(pieces_of(needs), coil);
    return entry->second;
  }

 private:
  Pieces pieces_of(const std::set<int>& needs) const {
    Pieces pieces;
    for (const int n : needs) {
      const StatedNeed& need = market_.question.needs[static_cast<std::size_t>(n)];
      if (need.amount <= 0) continue;
      pieces.any = pieces.any || need.whole.empty();
      pieces.joined += need.joined;
      for (const std::int64_t length : need.whole) pieces.whole[length] += 1;
    }
    return pieces;
  }

  // The pieces that fill the coil best, and what may be joined in the rest of it.
  static std::int64_t find(const Pieces& pieces, std::int64_t coil) {
    if (pieces.any || pieces.joined >= coil || coil > kLongest) return coil;
    Sums sums(coil);
    for (const auto& [length, count] : pieces.whole) {
      if (length <= coil) sums.take(length, count);
    }
    return std::min(coil, sums.largest() + pieces.joined);
  }

  const Market& market_;
  std::map<std::pair<int, int>, std::set<int>> needs_of_;
  std::map<std::pair<std::set<int>, std::int64_t>, std::int64_t> known_;
};

std::int64_t asked_of_bought(const StatedNeed& need, int n, Usefulness& usefulness) {
  if (need.amount <= 0 || need.whole.empty()) return need.amount;
  std::int64_t asked = need.joined;
  for (const std::int64_t length : need.whole) asked += length;
  for (const std::int64_t coil : need.site) asked -= usefulness.of({n}, coil);
  return std::max(need.amount, asked);
}

}  // namespace

void note_useful(Market& market) {
  Usefulness usefulness(market);
  for (MarketPack& at : market.packs) {
    const Item& item = market.catalog(at.supplier).items[static_cast<std::size_t>(at.item)];
    const Pack& pack = item.packs[static_cast<std::size_t>(at.pack)];
    at.useful = pack.length.tenths_mm > 0 ? usefulness.of(at.supplier, at.item, pack.length.tenths_mm) : pack.count;
  }
  for (std::size_t b = 0; b < market.bundles.size(); ++b) {
    MarketBundle& at = market.bundles[b];
    for (const BundleContent& content : market.bundle(b).contents) {
      const auto note = [&](int item) {
        at.useful.push_back(content.length.tenths_mm > 0 ? usefulness.of(at.supplier, item, content.length.tenths_mm)
                                                         : content.count);
      };
      note(content.item);
      for (const Swap& swap : content.swaps) note(swap.item);
    }
  }
  for (std::size_t n = 0; n < market.question.needs.size(); ++n) {
    market.asked.push_back(asked_of_bought(market.question.needs[n], static_cast<int>(n), usefulness));
  }
}

}  // namespace teetally
