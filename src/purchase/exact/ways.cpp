#include "purchase/exact/ways.h"

#include <algorithm>
#include <cassert>
#include <map>
#include <optional>

#include "purchase/exact/contest.h"

namespace teetally {
namespace {

constexpr std::size_t kMostTried = 1'000'000, kMostKept = 100'000;  // of one choice, while listing

// A way while it is being put together; decisions follow the parents.
struct Partial {
  WatchedGoods goods{};
  std::int64_t other = 0, tie = 0;
  double linear = 0, value = 0;  // minor units; scaled, at the bound's prices
  std::int64_t state = 0;
  int parent = -1;
  std::int64_t amount = 0;
};

class Lister {
 public:
  Lister(const SettledCounts& settled, double window) : settled_(settled), contest_(settled), window_(window) {}

  // Goes through the choices in order.
  std::optional<Part> list(const PartChoices& of) {
    const std::vector<WayChoice>& choices = of.choices;
    const GroupChain* chain = of.chain ? &*of.chain : nullptr;
    steps_.assign(1, Partial{});
    std::vector<int> current{0};
    all_ = true;
    const double limit = of.least() + window_;
    for (std::size_t i = 0; i < choices.size(); ++i) {
      reached_.clear();
      count_ = 0;
      for (int index : current) extend(index, choices[i], of.ends[i + 1], chain, limit);
      current.clear();
      for (auto& [state, bucket] : reached_) {
        contest_.keep_best(bucket);
        for (const Partial& partial : bucket) {
          current.push_back(static_cast<int>(steps_.size()));
          steps_.push_back(partial);
        }
      }
      if (count_ > kMostTried || current.size() > kMostKept || settled_.limit.over()) return std::nullopt;
    }
    Part part;
    part.all = all_;
    for (int index : current) part.ways.push_back(way_of(index, choices));
    return part;
  }

 private:
  const PurchaseProblem& problem() const { return *settled_.model->problem; }

  const Measure& measure() const { return settled_.model->measure; }

  void spend(Partial& partial, const WayChoice& choice, std::int64_t goods) const {
    const SupplierState& state = settled_.states[choice.supplier];
    const int slot = settled_.slot[choice.supplier];
    const double amount = choice.pack >= 0 ? static_cast<double>(partial.amount) : -static_cast<double>(partial.amount);
    partial.tie += choice.pack >= 0 ? choice.tie * partial.amount : -choice.tie * partial.amount;
    if (slot >= 0) {
      partial.goods[slot] += goods;
    } else {
      partial.other += goods;
    }
    partial.linear += static_cast<double>(goods) * state.rate;
    partial.value += choice.scaled_tie * amount;
    const double rate = pack_rate(state, settled_.pressure[choice.supplier]);
    partial.value += goods >= 0 ? measure().goods(goods, rate) : -measure().goods_up(-goods, rate);
  }

  // Goods of one amount of a choice; nullopt where that amount is not on offer.
  std::optional<std::int64_t> goods_for(const WayChoice& choice, std::int64_t amount) const {
    if (amount == 0) return 0;
    if (choice.pack >= 0) return price_of_lots(problem().packs[choice.pack], amount);
    if (choice.out < 0) return std::nullopt;
    return -choice.credit * amount;
  }

  void extend(int index, const WayChoice& choice, const Table& ends, const GroupChain* chain, double limit) {
    const std::int64_t most = choice.pack >= 0 ? problem().packs[choice.pack].most : choice.count;
    const bool filler = choice.pack >= 0 && choice.offer == nullptr;
    for (std::int64_t amount = 0; amount <= most && count_ <= kMostTried; ++amount) {
      const std::optional<std::int64_t> goods = goods_for(choice, amount);
      if (!goods) continue;
      Partial partial = steps_[index];
      partial.parent = index;
      partial.amount = amount;
      spend(partial, choice, *goods);
      next_.assign(1, partial.state);
      assert(chain != nullptr || (choice.offer == nullptr && choice.kept == nullptr));
      if (choice.offer != nullptr) {
        chain->advance(partial.state, choice.offer->brings, amount, next_);
      } else if (choice.kept != nullptr) {
        chain->advance(partial.state, choice.kept->brings, choice.count - amount, next_);
      }
      for (std::int64_t state : next_) {
        if (partial.value + ends[state] > limit) {
          all_ = all_ && ends[state] >= kNever / 2;  // what can never be covered is no loss
          continue;
        }
        partial.state = state;
        reached_[state].push_back(partial);
        ++count_;
      }
      // Beyond the last price step more lots only cost more.
      if (choice.pack < 0 || amount < problem().packs[choice.pack].prices.back().from) continue;
      if (partial.value + ends.back() > limit) return;
      if (filler && partial.goods[settled_.slot[choice.supplier]] >= settled_.states[choice.supplier].from) return;
      if (amount > 0 && *goods == 0 && (filler || next_.front() == chain->full())) return;
    }
  }

  PartWay way_of(int index, const std::vector<WayChoice>& choices) const {
    PartWay way;
    way.goods = steps_[index].goods;
    way.other = steps_[index].other;
    way.tie = steps_[index].tie;
    way.linear = steps_[index].linear;
    for (std::size_t i = choices.size(); i-- > 0; index = steps_[index].parent) {
      const WayChoice& choice = choices[i];
      const std::int64_t amount = steps_[index].amount;
      if (amount > 0) way.decisions.push_back({choice.pack, choice.bundle, choice.part, choice.out, amount});
    }
    return way;
  }

  const SettledCounts& settled_;
  Contest contest_;
  double window_;
  bool all_ = true;
  std::map<std::int64_t, std::vector<Partial>> reached_;  // by state
  std::size_t count_ = 0;
  std::vector<Partial> steps_;
  std::vector<std::int64_t> next_;
};

std::vector<WayChoice> choices_of_group(const SettledCounts& settled, const NeedGroup& group) {
  std::vector<WayChoice> choices;
  for (const GroupColumn& column : group.columns) {
    const BundleColumn& c = settled.model->columns[column.column];
    const int count = settled.counts[column.column];
    if (count == 0) continue;
    for (const ColumnPart& part : column.parts) {
      const std::int64_t tie = part.may_go() ? tie_saved(*settled.model, c.bundle, part.part, part.choice) : 0;
      choices.push_back(
          {c.supplier, nullptr, &part, count, c.bundle, part.part, part.choice, -1, part.credit, tie, part.tie});
    }
  }
  for (std::size_t s = 0; s < group.offers.size(); ++s) {
    if (!settled.states[s].used) continue;
    for (const GroupOffer& offer : group.offers[s]) {
      const std::int64_t tie = tie_of_lot(*settled.model, offer.pack);
      choices.push_back({static_cast<int>(s), &offer, nullptr, 0, -1, -1, -1, offer.pack, 0, tie, offer.tie});
    }
  }
  return choices;
}

void price_group(const SettledCounts& settled, PartChoices& part) {
  const GroupChain& chain = *part.chain;
  const std::vector<WayChoice>& choices = part.choices;
  std::vector<Table>& ends = part.ends;
  ends.resize(choices.size() + 1);
  ends.back().assign(chain.full() + 1, kNever);
  ends.back().back() = 0;
  std::vector<std::int64_t> next;
  for (std::size_t i = choices.size(); i-- > 0;) {
    const WayChoice& choice = choices[i];
    const SupplierState& state = settled.states[choice.supplier];
    if (choice.offer != nullptr) {
      chain.offer_backward(*choice.offer, pack_rate(state, settled.pressure[choice.supplier]), ends[i + 1], ends[i], 0);
      continue;
    }
    ends[i].assign(chain.full() + 1, kNever);
    const double rate = pack_rate(state, settled.pressure[choice.supplier]);
    const double credit = settled.model->measure.goods_up(choice.credit, rate) + choice.scaled_tie;
    for (std::int64_t n = 0; n <= chain.full(); ++n) {
      for (int out = 0; out <= (choice.out >= 0 ? choice.count : 0); ++out) {
        chain.advance(n, choice.kept->brings, choice.count - out, next);
        for (std::int64_t m : next) ends[i][n] = std::min(ends[i][n], ends[i + 1][m] - credit * out);
      }
    }
  }
}

// Filler: packs that serve no group, at watched suppliers that need more goods.
std::vector<WayChoice> filler_of(const SettledCounts& settled, int supplier) {
  const PurchaseProblem& problem = *settled.model->problem;
  std::vector<bool> serves(problem.packs.size(), false);
  for (const NeedGroup& group : settled.model->groups) {
    for (const GroupOffer& offer : group.offers[supplier]) serves[offer.pack] = true;
  }
  std::vector<WayChoice> choices;
  for (std::size_t i = 0; i < problem.packs.size(); ++i) {
    if (problem.packs[i].supplier != supplier || serves[i]) continue;
    const std::int64_t tie = tie_of_lot(*settled.model, static_cast<int>(i));
    choices.push_back(
        {supplier, nullptr, nullptr, 0, -1, -1, -1, static_cast<int>(i), 0, tie, settled.model->measure.tie_down(tie)});
  }
  return choices;
}

}  // namespace

PartWay settled_start(const SettledCounts& settled) {
  PartWay way;
  const ExactModel& model = *settled.model;
  const auto spend = [&](int supplier, std::int64_t goods) {
    const int slot = settled.slot[supplier];
    if (slot >= 0) {
      way.goods[slot] += goods;
    } else {
      way.other += goods;
    }
    way.linear += static_cast<double>(goods) * settled.states[supplier].rate;
  };
  for (std::size_t c = 0; c < settled.counts.size(); ++c) {
    const BundleColumn& column = model.columns[c];
    if (settled.counts[c] > 0) spend(column.supplier, column.price * settled.counts[c]);
    way.tie += column.tie * settled.counts[c];
  }
  for (std::size_t s = 0; s < settled.states.size(); ++s) {
    if (!settled.states[s].used) continue;
    way.tie += settled.states[s].tie;
    way.linear += settled.states[s].fixed / model.measure.minor;
    if (settled.slot[s] < 0) way.other += static_cast<std::int64_t>(settled.states[s].fixed / model.measure.minor);
  }
  return way;
}

std::vector<PartChoices> choices_of_parts(const SettledCounts& settled) {
  const ExactModel& model = *settled.model;
  std::vector<PartChoices> parts;
  for (std::size_t g = 0; g < model.groups.size(); ++g) {
    parts.push_back({GroupChain(model, static_cast<int>(g)), choices_of_group(settled, model.groups[g]), {}});
  }
  for (std::size_t c = 0; c < settled.counts.size(); ++c) {
    const BundleColumn& column = model.columns[c];
    for (const auto& [p, out] : column.useless) {
      if (settled.counts[c] == 0) continue;
      const std::int64_t credit = -model.problem->bundles[column.bundle].parts[p].choices[out].extra;
      const std::int64_t tie = tie_saved(model, column.bundle, p, out);
      const WayChoice choice{
          column.supplier,          nullptr, nullptr, settled.counts[c], column.bundle, p, out, -1, credit, tie,
          model.measure.tie_up(tie)};
      parts.push_back({std::nullopt, {choice}, {}});
    }
  }
  for (int s : settled.watched) {
    if (settled.states[s].from > 0) parts.push_back({std::nullopt, filler_of(settled, s), {}});
  }
  return parts;
}

void price(const SettledCounts& settled, std::vector<PartChoices>& parts) {
  for (PartChoices& part : parts) {
    if (part.chain) {
      price_group(settled, part);
      continue;
    }
    part.ends.assign(part.choices.size() + 1, Table{0});  // filler may be none
    if (part.choices.empty() || part.choices.front().pack >= 0) continue;
    const WayChoice& out = part.choices.front();
    const double rate = pack_rate(settled.states[out.supplier], settled.pressure[out.supplier]);
    const double saved = settled.model->measure.goods_up(out.credit, rate) + out.scaled_tie;
    part.ends.front() = {-saved * out.count};
  }
}

std::optional<std::vector<Part>> list_ways(const SettledCounts& settled, const std::vector<PartChoices>& parts,
                                           double window) {
  Lister lister(settled, window);
  std::vector<Part> listed;
  for (const PartChoices& of : parts) {
    std::optional<Part> part = lister.list(of);
    if (!part) return std::nullopt;
    listed.push_back(std::move(*part));
  }
  return listed;
}

void add_to(const SettledCounts&, const Decision& decision, Plan& plan) {
  if (decision.pack >= 0) {
    plan.lots[decision.pack] += decision.amount;
  } else {
    plan.bundles[decision.bundle].changed[decision.part][decision.choice] += decision.amount;
  }
}

}  // namespace teetally
