#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <stdexcept>

#include "teetally/quote/round.h"

namespace teetally {
namespace {

class Settling {
 public:
  Settling(const PoolResult& result, const PoolResult& now, const HandOut& out, const Round& round)
      : result_(result), now_(now), out_(out) {
    std::set<std::string> left(round.left.begin(), round.left.end());
    left.insert(round.left_late.begin(), round.left_late.end());
    const std::set<std::string> early(round.left.begin(), round.left.end());
    for (const PlotShare& share : result.plots) {
      RoundLine line;
      line.share = share.pays();
      line.has_left = left.contains(result.pool.plots[share.plot].name);
      left_early_.push_back(early.contains(result.pool.plots[share.plot].name));
      line_of_plot_[share.plot] = settled_.lines.size();
      settled_.lines.push_back(line);
    }
    settled_.total = result.purchase.total;
    settled_.not_bought.assign(now.unpaid.begin() + static_cast<std::ptrdiff_t>(result.unpaid.size()),
                               now.unpaid.end());
  }

  void leave() {
    settled_.saved = result_.purchase.total - now_.purchase.total;
    if (settled_.saved <= Money{}) settled_.saved = Money{};
    settled_.total = settled_.total - settled_.saved;
    std::vector<std::int64_t> leavers, others;
    for (std::size_t l = 0; l < settled_.lines.size(); ++l) {
      leavers.push_back(left_early_[l] ? settled_.lines[l].share.minor : 0);
      others.push_back(left_early_[l] ? 0 : settled_.lines[l].share.minor);
    }
    const std::int64_t owed = std::accumulate(leavers.begin(), leavers.end(), std::int64_t{0});
    const std::int64_t first = std::min(owed, settled_.saved.minor);
    split(first, leavers, &RoundLine::leaving);
    if (settled_.saved.minor > first) split(settled_.saved.minor - first, others, &RoundLine::leaving);
  }

  void deliver(const Delivery& delivery) {
    const auto [item, content] = item_of(delivery);
    std::vector<std::int64_t> used = uses(item);
    std::vector<std::int64_t> missed(used.size(), 0);
    if (!delivery.substituted) {
      const std::int64_t pieces = std::max<std::int64_t>(0, delivery.packs * content - stock(item));
      const std::int64_t most = std::accumulate(used.begin(), used.end(), std::int64_t{0});
      missed = most == 0 ? missed : apportion(std::min(pieces, most), used);
    }
    for (std::size_t l = 0; l < missed.size(); ++l) settled_.lines[l].pieces_short += missed[l];
    const auto any = [](const std::vector<std::int64_t>& parts) {
      return std::any_of(parts.begin(), parts.end(), [](std::int64_t part) { return part > 0; });
    };
    std::vector<std::int64_t> all;
    for (const RoundLine& line : settled_.lines) all.push_back(line.share.minor);
    const std::vector<std::int64_t>& weights = any(missed) ? missed : any(used) ? used : all;
    const std::int64_t amount = std::abs(delivery.change.minor);
    const std::vector<std::int64_t> parts = apportion(amount, weights);
    for (std::size_t l = 0; l < parts.size(); ++l) {
      settled_.lines[l].deliveries += Money{delivery.change.minor < 0 ? -parts[l] : parts[l]};
    }
    settled_.total += delivery.change;
  }

  Settled settled() {
    Money sum;
    for (const RoundLine& line : settled_.lines) sum += line.owes();
    if (sum != settled_.total) throw std::logic_error("what is owed does not add up to what the order costs");
    return std::move(settled_);
  }

 private:
  using ItemAt = std::pair<int, int>;

  void split(std::int64_t amount, const std::vector<std::int64_t>& weights, Money RoundLine::*part) {
    const std::vector<std::int64_t> parts = apportion(amount, weights);
    for (std::size_t l = 0; l < parts.size(); ++l) settled_.lines[l].*part = settled_.lines[l].*part - Money{parts[l]};
  }

  std::pair<ItemAt, std::int64_t> item_of(const Delivery& delivery) const {
    for (const SupplierOrder& order : now_.purchase.orders) {
      const Catalog& catalog = *now_.book.catalogs[order.catalog];
      if (catalog.id != delivery.supplier) continue;
      for (const OrderLine& line : order.lines) {
        if (line.bundle >= 0) continue;
        const Pack& pack = catalog.items[line.item].packs[line.pack];
        if (pack.sku == delivery.sku) {
          return {{order.catalog, line.item}, pack.length.tenths_mm > 0 ? pack.length.tenths_mm : pack.count};
        }
      }
    }
    return {{-1, -1}, 0};
  }

  // What each plot takes of an item; shared parts count for nobody.
  std::vector<std::int64_t> uses(const ItemAt& item) const {
    std::vector<std::int64_t> used(settled_.lines.size(), 0);
    for (const PlotPicks& plot : out_.sequence) {
      if (plot.line >= static_cast<int>(now_.plots.size())) continue;
      const std::size_t line = line_of_plot_.at(now_.plots[plot.line].plot);
      for (const Pick& pick : plot.picks) {
        if (ItemAt{pick.catalog, pick.item} == item) used[line] += pick.amount;
      }
    }
    return used;
  }

  std::int64_t stock(const ItemAt& item) const {
    std::int64_t sum = 0;
    for (const Pick& pick : out_.stock)
      sum += ItemAt{pick.catalog, pick.item} == item && pick.coil < 0 ? pick.amount : 0;
    return sum;
  }

  const PoolResult& result_;
  const PoolResult& now_;
  const HandOut& out_;
  std::vector<bool> left_early_;  // by line
  std::map<int, std::size_t> line_of_plot_;
  Settled settled_;
};

}  // namespace

namespace {

// Shared parts that only plots which left pay for are not bought either.
void leave_out_unpaid(PoolResult& now) {
  std::set<std::string> there;
  for (const PlotShare& share : now.plots) there.insert(now.pool.plots[share.plot].name);
  std::erase_if(now.shared, [&](const PlotShare& shared) {
    const std::vector<std::string>& payers = now.pool.plots[shared.plot].paid_by;
    const bool anybody = payers.empty() ? !there.empty()
                                        : std::any_of(payers.begin(), payers.end(),
                                                      [&](const std::string& payer) { return there.contains(payer); });
    if (!anybody) now.unpaid.push_back(shared.plot);
    return !anybody;
  });
}

}  // namespace

PoolResult without_left(const PoolResult& result, const Round& round, const BuyLimits& limits) {
  PoolResult now = result;
  if (round.left.empty()) return now;
  const std::set<std::string> left(round.left.begin(), round.left.end());
  std::erase_if(now.plots, [&](const PlotShare& share) { return left.contains(result.pool.plots[share.plot].name); });
  leave_out_unpaid(now);
  std::vector<std::int64_t> times(result.baskets.size(), 0);
  for (const auto* list : {&now.plots, &now.shared}) {
    for (const PlotShare& share : *list) ++times[share.basket];
  }
  now.book = book_for(result.book, result.baskets, times);
  std::map<std::string, int> number;  // needs keep their ids
  for (std::size_t n = 0; n < now.book.takeoff.needs.size(); ++n) {
    number[now.book.takeoff.needs[n].id] = static_cast<int>(n);
  }
  for (std::size_t b = 0; b < now.baskets.size(); ++b) {
    if (times[b] == 0) now.baskets[b].clear();
    for (Portion& portion : now.baskets[b]) portion.need = number.at(result.book.takeoff.needs[portion.need].id);
  }
  now.purchase = Purchase();
  now.purchase.outcome = Outcome::bought;
  if (!now.book.takeoff.needs.empty()) now.purchase = buy(now.book, limits);
  // What cannot be bought anew in time stays as it was: then nothing is saved.
  if (now.purchase.outcome != Outcome::bought || now.purchase.total > result.purchase.total) return result;
  return now;
}

Settled settle(const PoolResult& result, const PoolResult& now, const HandOut& out, const Round& round) {
  Settling settling(result, now, out, round);
  settling.leave();
  for (const Delivery& delivery : round.deliveries) settling.deliver(delivery);
  return settling.settled();
}

}  // namespace teetally
