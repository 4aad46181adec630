// Splits the market into cases until every one is shown to cost what the order costs, the least certain first.
#include <algorithm>
#include <cmath>
#include <queue>

#include "purchase/certify/prices.h"
#include "purchase/certify/sweep.h"
#include "teetally/base/stopwatch.h"

namespace teetally {
namespace {

constexpr int kFirstRounds = 600, kRounds = 120, kTrialRounds = 20;
constexpr std::size_t kTried = 4;
constexpr std::int64_t kFineSteps = 1'000'000;
constexpr int kSweptRounds = 60, kFirstSweeps = 8, kSweeps = 30, kLaterSweeps = 12;
constexpr std::size_t kLookedAt = 6;
constexpr double kShortShare = 0.15, kLongShare = 0.5;
constexpr std::size_t kFewCases = 100;
constexpr std::int64_t kMostInSteps = 2'000'000'000;  // short numbers, and room for prices by count
constexpr std::int64_t kMostNumbers = 1'500'000;      // in prices: some megabytes
constexpr std::int64_t kWorthNarrowing = 30;          // one value in so many has to go

struct Split {
  Splits by = Splits::goods;
  std::size_t which = 0;
  std::int64_t at = 0;
  double score = 0;
};

struct Node {
  CaseSpans spans;
  PriceGuess guess;
  std::int64_t bound = 0;
  Undecided undecided;
  std::vector<PriceSplit> narrowed;  // by these, in turn
  std::optional<PriceSplit> listed;  // prices by count
  Split split;
  int lower = -1, upper = -1;  // nodes, once split
  bool shut = false;           // nothing is in it, whatever prices are
};

std::int64_t numbers_in(const PriceSplit& prices) {
  std::int64_t count = 0;
  for (const auto& list : prices.shares) {
    for (const StatedShare& share : list) count += 1 + static_cast<std::int64_t>(share.values.size());
  }
  for (const auto& needs : prices.calls) {
    for (const auto& values : needs) count += static_cast<std::int64_t>(values.size());
  }
  return count;
}

std::int64_t open_values(const OpenCase& open) {
  std::int64_t count = 0;
  for (const Span& span : open.bundle_spans()) count += std::min<std::int64_t>(span.to - span.from, 1'000);
  return count;
}

std::int64_t steps_for(std::int64_t cost) {
  std::int64_t steps = kFineSteps;
  while (steps > 1 && cost > kMostInSteps / steps) steps /= 10;
  return steps;
}

class CaseSearch {
 public:
  CaseSearch(const Market& market, std::int64_t cost, const CertifyWishes& wishes, bool by_counts)
      : market_(market),
        by_counts_(by_counts),
        cost_(cost),
        steps_(steps_for(cost)),
        wishes_(wishes),
        limit_({}, wishes.seconds, wishes.stop) {}

  CertifySearch run() {
    Node root;
    root.spans = all_cases(market_);
    root.guess = first_guess(market_);
    begin(root);
    add(std::move(root));
    while (!open_.empty() && leaves_ < wishes_.most_cases && numbers_ < kMostNumbers && !limit_.over()) {
      const int at = open_.top().second;
      open_.pop();
      divide(at);
    }
    return write();
  }

 private:
  std::int64_t enough() const { return (cost_ - 1) * steps_; }
  bool done(const Node& node) const { return node.shut || node.bound > enough(); }

  void look_at(Node& node, int rounds) const {
    const OpenCase open(market_, node.spans, cost_);
    node.shut = open.closed();
    if (node.shut) return;
    Climbed climbed = climb(market_, open, node.guess, steps_, enough(), rounds);
    node.guess = std::move(climbed.guess);
    node.bound = climbed.bound;
    node.undecided = std::move(climbed.undecided);
  }

  void begin(Node& root) const {
    if (!by_counts_) {
      look_at(root, kFirstRounds);
      return;
    }
    const bool wide = !can_sweep(OpenCase(market_, root.spans, cost_));
    look_at(root, wide ? kFirstRounds : kSweptRounds);
    if (done(root)) return;
    root.listed = rounded(root.guess, steps_);
    narrow(root, OpenCase(market_, root.spans, cost_));
    if (!sweep_at(root, kSweeps, kFirstSweeps) && !wide) look_at(root, kFirstRounds);
  }

  // Whether much was left out.
  bool narrow(Node& node, const OpenCase& open) const {
    CaseSpans spans = node.spans;
    const auto left_out = static_cast<std::int64_t>(CaseParts(open, *node.listed, steps_).narrow(spans, enough()));
    if (left_out == 0 || left_out * kWorthNarrowing < open_values(open)) return false;
    node.narrowed.push_back(*node.listed);
    node.spans = std::move(spans);
    return true;
  }

  // Raises the bound by prices for each count, and leaves out what they show to be too dear, in turn. False when they
  // are not of use here.
  bool sweep_at(Node& node, int rounds, int first = 0) const {
    for (bool again = true; again && !limit_.over();) {
      const OpenCase open(market_, node.spans, cost_);
      node.shut = open.closed();
      if (node.shut) return true;
      if (!can_sweep(open) || !node.listed) return false;
      Swept swept =
          sweep(open, listed_prices(open, *node.listed, steps_), steps_, enough(), first > 0 ? first : rounds);
      first = 0;
      node.listed = std::move(swept.prices);
      node.bound = std::max(node.bound, swept.bound);
      if (done(node)) return true;
      again = narrow(node, open);
    }
    return true;
  }

  int add(Node node) {
    const int at = static_cast<int>(nodes_.size());
    if (!done(node)) open_.push({-node.bound, at});
    for (const PriceSplit& prices : node.narrowed) numbers_ += numbers_in(prices);
    if (node.listed && done(node)) numbers_ += numbers_in(*node.listed);
    nodes_.push_back(std::move(node));
    ++leaves_;
    return at;
  }

  std::vector<Split> candidates(const Node& node) const {
    std::vector<Split> splits;
    for (std::size_t k = 0; k < node.spans.families.size(); ++k) {
      const Span& span = node.spans.families[k];
      if (span.from < span.to) splits.push_back({Splits::family, k, (span.from + span.to + 1) / 2, 1e9});
    }
    if (!splits.empty()) {
      splits.resize(1);
      return splits;
    }
    const OpenCase open(market_, node.spans, cost_);
    for (std::size_t s = 0; s < node.spans.goods.size(); ++s) add_goods_split(node, open.stretches()[s], s, splits);
    for (std::size_t b = 0; b < node.spans.bundles.size(); ++b) {
      add_count_split(Splits::bundle, b, node.spans.bundles[b], node.undecided.bundles[b],
                      node.undecided.bundle_spread[b], 1, splits);
    }
    for (std::size_t p = 0; p < node.spans.packs.size(); ++p) {
      add_count_split(Splits::pack, p, node.spans.packs[p], node.undecided.packs[p], node.undecided.pack_spread[p], 0.1,
                      splits);
    }
    if (splits.empty()) add_last_resorts(node, open, splits);
    std::stable_sort(splits.begin(), splits.end(), [](const Split& a, const Split& b) { return a.score > b.score; });
    return splits;
  }

  // Nothing wavers, and still the case is open: parts what the cheapest parts agree on from all else.
  static void add_last_resorts(const Node& node, const OpenCase& open, std::vector<Split>& splits) {
    const auto apart = [&](Splits by, std::size_t which, const Span& span, std::int64_t value, double score) {
      const std::int64_t at = value > span.from ? value : value + 1;
      if (at > span.from && at <= span.to) splits.push_back({by, which, at, score});
    };
    for (std::size_t p = 0; p < node.spans.packs.size(); ++p) {
      const auto count = static_cast<std::int64_t>(std::llround(node.undecided.packs[p]));
      if (count > 0) apart(Splits::pack, p, node.spans.packs[p], count, 1);
    }
    for (std::size_t b = 0; b < node.spans.bundles.size(); ++b) {
      const auto count = static_cast<std::int64_t>(std::llround(node.undecided.bundles[b]));
      apart(Splits::bundle, b, node.spans.bundles[b], count, count > 0 ? 2 : 0.5);
    }
    // Around the very goods bought, where what roundings may take away is all that is missing.
    for (std::size_t s = 0; s < node.spans.goods.size(); ++s) {
      const std::int64_t goods = node.undecided.bought.empty() ? -1 : node.undecided.bought[s];
      if (goods > 0 && stretch_of(open.stretches()[s], goods) != nullptr) {
        apart(Splits::goods, s, node.spans.goods[s], goods, 1.8);
      }
    }
  }

  static const GoodsStretch* stretch_of(const std::vector<GoodsStretch>& stretches, std::int64_t goods) {
    for (const GoodsStretch& stretch : stretches) {
      if (stretch.from <= goods && goods <= stretch.to) return &stretch;
    }
    return nullptr;
  }

  // At the threshold between the goods values that the orders waver between, where they do so most.
  static void add_goods_split(const Node& node, const std::vector<GoodsStretch>& stretches, std::size_t s,
                              std::vector<Split>& splits) {
    const auto& seen = node.undecided.goods[s];
    const Span& span = node.spans.goods[s];
    double below = 0;
    Split best{Splits::goods, s, 0, 0};
    for (std::size_t i = 0; i + 1 < seen.size(); ++i) {
      below += seen[i].second;
      const double score = 4 * std::min(below, 1 - below);
      const GoodsStretch* stretch = stretch_of(stretches, seen[i + 1].first);
      const std::int64_t at = seen[i].first < 0 ? 0 : stretch == nullptr ? span.from : stretch->from;
      if (at <= span.from || at <= seen[i].first || at > span.to || score <= best.score) continue;
      best.at = at;
      best.score = score;
    }
    if (best.score > 0.02) splits.push_back(best);
  }

  static void add_count_split(Splits by, std::size_t which, const Span& span, double mean, double spread, double weight,
                              std::vector<Split>& splits) {
    if (span.from >= span.to || spread < 1e-3) return;
    const std::int64_t at = std::clamp(static_cast<std::int64_t>(std::floor(mean)) + 1, span.from + 1, span.to);
    splits.push_back({by, which, at, weight * std::min(1.0, spread)});
  }

  Node side(const Node& node, const Split& split, bool lower) const {
    Node made;
    made.spans = node.spans;
    made.guess = node.guess;
    made.listed = node.listed;
    made.bound = node.bound;
    Span& span = made.spans.of(split.by)[split.which];
    (lower ? span.to : span.from) = lower ? split.at - 1 : split.at;
    return made;
  }

  // By counts and states while any is open, then by what climbs leave undecided.
  std::vector<Split> splits_of(Node& node) const {
    const bool families = std::any_of(node.spans.families.begin(), node.spans.families.end(),
                                      [](const Span& span) { return span.from < span.to; });
    if (node.listed && !families) {
      std::vector<Split> splits;
      const OpenCase open(market_, node.spans, cost_);
      for (const Wavering& one : wavering(open, *node.listed, steps_, enough())) {
        splits.push_back({one.by, one.which, one.at, one.spread});
      }
      if (!splits.empty()) return splits;
      take_rates(node, open);
      node.listed.reset();
      look_at(node, kRounds);
    }
    return candidates(node);
  }

  // Climbs go on from the rates of the states that orders have come to be in.
  void take_rates(Node& node, const OpenCase& open) const {
    for (std::size_t s = 0; s < node.guess.rates.size(); ++s) {
      const std::vector<OpenState> states = open_states(open, s, *node.listed, steps_);
      if (states.empty() || states.back().state < 0) continue;
      node.guess.rates[s] = static_cast<double>(states.back().rate) / static_cast<double>(steps_);
    }
  }

  // `sweeps`: none for a glance.
  void look_into(Node& node, int sweeps, int rounds) const {
    if (!node.listed) {
      look_at(node, rounds);
    } else if (sweeps > 0) {
      if (sweep_at(node, sweeps)) return;
      node.listed.reset();
      look_at(node, rounds);
    } else {
      const OpenCase open(market_, node.spans, cost_);
      node.shut = open.closed();
      if (node.shut) return;
      const Swept swept = sweep(open, listed_prices(open, *node.listed, steps_), steps_, enough(), 1);
      node.bound = std::max(node.bound, swept.bound);
    }
  }

  void divide(int at) {
    const std::vector<Split> splits = splits_of(nodes_[static_cast<std::size_t>(at)]);
    if (splits.empty()) return;
    Split chosen = splits.front();
    double best = -1;
    const std::size_t tried = nodes_[static_cast<std::size_t>(at)].listed ? kLookedAt : kTried;
    for (std::size_t i = 0; splits.size() > 1 && i < std::min(tried, splits.size()); ++i) {
      const double score = try_out(nodes_[static_cast<std::size_t>(at)], splits[i]);
      if (score > best) best = score, chosen = splits[i];
    }
    nodes_[static_cast<std::size_t>(at)].split = chosen;
    --leaves_;
    for (const bool lower : {true, false}) {
      Node made = side(nodes_[static_cast<std::size_t>(at)], chosen, lower);
      look_into(made, kLaterSweeps, kRounds);
      const int child = add(std::move(made));
      (lower ? nodes_[static_cast<std::size_t>(at)].lower : nodes_[static_cast<std::size_t>(at)].upper) = child;
    }
    nodes_[static_cast<std::size_t>(at)].undecided = {};
    nodes_[static_cast<std::size_t>(at)].listed.reset();
  }

  double try_out(const Node& node, const Split& split) const {
    const double gap = static_cast<double>(enough() - node.bound) + 1;
    double score = 1;
    for (const bool lower : {true, false}) {
      Node made = side(node, split, lower);
      look_into(made, 0, kTrialRounds);
      const double gain = done(made) ? gap : static_cast<double>(made.bound - node.bound);
      score *= std::clamp(gain / gap, 1e-3, 1.0);
    }
    return score;
  }

  CertifySearch write() {
    CertifySearch found;
    found.bound.steps = steps_;
    least_ = cost_ * steps_;
    write_node(0, found.bound);
    found.cases = leaves_;
    const std::int64_t least = least_ <= 0 ? 0 : (least_ + steps_ - 1) / steps_;
    found.bound.at_least = std::min(cost_, least);
    return found;
  }

  // Prices written for an earlier case often do for the next one.
  int prices_for(const Node& node, StatedBound& bound) {
    if (node.shut && !bound.prices.empty()) return static_cast<int>(bound.prices.size()) - 1;
    const OpenCase open(market_, node.spans, cost_);
    if (node.listed) {
      bound.prices.push_back(*node.listed);
      return note_bound(open.bound(*node.listed, steps_), static_cast<int>(bound.prices.size()) - 1);
    }
    for (std::size_t back = 0; !node.shut && back < std::min<std::size_t>(3, bound.prices.size()); ++back) {
      const std::size_t i = bound.prices.size() - 1 - back;
      const std::int64_t reached = open.bound(bound.prices[i], steps_);
      if (reached > enough() || reached >= node.bound) return note_bound(reached, static_cast<int>(i));
    }
    bound.prices.push_back(rounded(node.guess, steps_));
    const int last = static_cast<int>(bound.prices.size()) - 1;
    return node.shut ? last : note_bound(open.bound(bound.prices.back(), steps_), last);
  }

  int note_bound(std::int64_t reached, int prices) {
    if (reached <= enough()) least_ = std::min(least_, reached);
    return prices;
  }

  void write_node(int at, StatedBound& bound) {
    const Node& node = nodes_[static_cast<std::size_t>(at)];
    for (const PriceSplit& prices : node.narrowed) {
      bound.prices.push_back(prices);
      StatedCase narrowed;
      narrowed.prices = static_cast<int>(bound.prices.size()) - 1;
      narrowed.narrow = true;
      bound.cases.push_back(std::move(narrowed));
    }
    StatedCase made;
    if (node.lower < 0) {
      made.prices = prices_for(node, bound);
      bound.cases.push_back(std::move(made));
      return;
    }
    made.by = node.split.by;
    made.which = static_cast<int>(node.split.which);
    made.at = node.split.at;
    bound.cases.push_back(std::move(made));
    write_node(node.lower, bound);
    write_node(node.upper, bound);
  }

  const Market& market_;
  bool by_counts_;
  std::int64_t cost_, steps_;
  CertifyWishes wishes_;
  TimeLimit limit_;
  std::vector<Node> nodes_;
  std::priority_queue<std::pair<std::int64_t, int>> open_;
  std::size_t leaves_ = 0;
  std::int64_t numbers_ = 0;  // in prices so far
  std::int64_t least_ = 0;
};

}  // namespace

// Climbs alone are quick where little couples the needs; prices by count come next, then climbs for as long as they
// may.
CertifySearch find_cases(const Market& market, std::int64_t cost, const CertifyWishes& wishes) {
  const TimeLimit limit({}, wishes.seconds, wishes.stop);
  CertifySearch best;
  const auto search = [&](double seconds, std::size_t cases, bool by_counts) {
    CertifyWishes part = wishes;
    part.seconds = std::min(seconds, limit.left());
    part.most_cases = std::min(cases, wishes.most_cases);
    CertifySearch found = CaseSearch(market, cost, part, by_counts).run();
    if (best.cases == 0 || found.bound.at_least > best.bound.at_least) best = std::move(found);
    return best.bound.at_least >= cost || limit.over();
  };
  if (search(kShortShare * wishes.seconds, kFewCases, false)) return best;
  if (search(kLongShare * wishes.seconds, wishes.most_cases, true)) return best;
  search(wishes.seconds, wishes.most_cases, false);
  return best;
}

}  // namespace teetally
