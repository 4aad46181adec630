// Splits the market into cases until every one is shown to cost what the order costs, the least certain first.
#include <algorithm>
#include <cmath>
#include <queue>

#include "purchase/certify/prices.h"
#include "teetally/base/stopwatch.h"

namespace teetally {
namespace {

constexpr int kFirstRounds = 600, kRounds = 120, kTrialRounds = 20;
constexpr std::size_t kTried = 4;
constexpr std::int64_t kFineSteps = 1'000'000;
constexpr std::int64_t kMostInSteps = 50'000'000'000'000'000;

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
  Split split;
  int lower = -1, upper = -1;  // nodes, once split
  bool shut = false;           // nothing is in it, whatever prices are
};

std::int64_t steps_for(std::int64_t cost) {
  std::int64_t steps = kFineSteps;
  while (steps > 1 && cost > kMostInSteps / steps) steps /= 10;
  return steps;
}

class CaseSearch {
 public:
  CaseSearch(const Market& market, std::int64_t cost, const CertifyWishes& wishes)
      : market_(market),
        cost_(cost),
        steps_(steps_for(cost)),
        wishes_(wishes),
        limit_({}, wishes.seconds, wishes.stop) {}

  CertifySearch run() {
    Node root;
    root.spans = all_cases(market_);
    root.guess = first_guess(market_);
    look_at(root, kFirstRounds);
    add(std::move(root));
    while (!open_.empty() && leaves_ < wishes_.most_cases && !limit_.over()) {
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

  int add(Node node) {
    const int at = static_cast<int>(nodes_.size());
    if (!done(node)) open_.push({-node.bound, at});
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
    made.bound = node.bound;
    Span& span = made.spans.of(split.by)[split.which];
    (lower ? span.to : span.from) = lower ? split.at - 1 : split.at;
    return made;
  }

  void divide(int at) {
    const std::vector<Split> splits = candidates(nodes_[static_cast<std::size_t>(at)]);
    if (splits.empty()) return;
    Split chosen = splits.front();
    double best = -1;
    for (std::size_t i = 0; splits.size() > 1 && i < std::min(kTried, splits.size()); ++i) {
      const double score = try_out(nodes_[static_cast<std::size_t>(at)], splits[i]);
      if (score > best) best = score, chosen = splits[i];
    }
    nodes_[static_cast<std::size_t>(at)].split = chosen;
    --leaves_;
    for (const bool lower : {true, false}) {
      Node made = side(nodes_[static_cast<std::size_t>(at)], chosen, lower);
      look_at(made, kRounds);
      const int child = add(std::move(made));
      (lower ? nodes_[static_cast<std::size_t>(at)].lower : nodes_[static_cast<std::size_t>(at)].upper) = child;
    }
    nodes_[static_cast<std::size_t>(at)].undecided = {};
  }

  double try_out(const Node& node, const Split& split) const {
    const double gap = static_cast<double>(enough() - node.bound) + 1;
    double score = 1;
    for (const bool lower : {true, false}) {
      Node made = side(node, split, lower);
      look_at(made, kTrialRounds);
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
  std::int64_t cost_, steps_;
  CertifyWishes wishes_;
  TimeLimit limit_;
  std::vector<Node> nodes_;
  std::priority_queue<std::pair<std::int64_t, int>> open_;
  std::size_t leaves_ = 0;
  std::int64_t least_ = 0;
};

}  // namespace

CertifySearch find_cases(const Market& market, std::int64_t cost, const CertifyWishes& wishes) {
  return CaseSearch(market, cost, wishes).run();
}

}  // namespace teetally
