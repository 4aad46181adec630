#include "purchase/cut/cutting.h"

#include <algorithm>
#include <map>
#include <numeric>

namespace teetally {
namespace {

constexpr int kMostNeeds = 64;  // that share coils: a bit each

bool allowed(const ServingOption& serving, const std::vector<int>& family) {
  return std::all_of(serving.conditions.begin(), serving.conditions.end(),
                     [&](const FamilyCondition& c) { return c.allowed[family[c.system]]; });
}

bool is_cut(const PurchaseProblem& problem, int need) {
  return problem.needs[need] > 0 && !problem.pieces.empty() && !problem.pieces[need].empty();
}

// Needs joined by products that serve several of them; by need, the first of its set, or -1.
std::vector<int> sets_of_needs(const PurchaseProblem& problem, const std::vector<int>& family) {
  std::vector<int> first(problem.needs.size(), -1);
  for (std::size_t n = 0; n < first.size(); ++n) {
    if (is_cut(problem, static_cast<int>(n))) first[n] = static_cast<int>(n);
  }
  std::vector<int> of_product(problem.products.size(), -1);
  for (const ServingOption& serving : problem.servings) {
    if (first[serving.need] < 0 || !allowed(serving, family)) continue;
    int& seen = of_product[serving.product];
    if (seen >= 0 && first[seen] != first[serving.need]) {
      const int from = std::max(first[seen], first[serving.need]), to = std::min(first[seen], first[serving.need]);
      std::replace(first.begin(), first.end(), from, to);
    }
    seen = serving.need;
  }
  return first;
}

class CuttingBuilder {
 public:
  CuttingBuilder(const PurchaseProblem& problem, const Plan& plan, std::vector<int> needs)
      : problem_(problem), plan_(plan) {
    cutting_.needs = std::move(needs);
    for (std::size_t i = 0; i < cutting_.needs.size() && i < kMostNeeds; ++i) bit_[cutting_.needs[i]] = i;
  }

  Cutting build() {
    add_servings();
    add_pieces();
    add_packs();
    add_bundles();
    add_site_coils();
    cutting_.task.least_joined = problem_.least_joined;
    for (const int join : cutting_.joins) cutting_.task.joins += plan_.joins[join];
    return std::move(cutting_);
  }

 private:
  void add_servings() {
    serves_.assign(problem_.products.size(), 0);
    std::map<int, int> when;
    for (const ServingOption& serving : problem_.servings) {
      const auto bit = bit_.find(serving.need);
      if (bit == bit_.end()) continue;
      for (const FamilyCondition& c : serving.conditions) {
        if (problem_.families[c.system] > 1) when[c.system] = plan_.family[c.system];
      }
      if (allowed(serving, plan_.family)) serves_[serving.product] |= std::uint64_t{1} << bit->second;
    }
    cutting_.when.assign(when.begin(), when.end());
  }

  void add_pieces() {
    std::map<std::pair<std::int64_t, std::pair<int, bool>>, std::vector<std::pair<int, int>>> kinds;
    for (const auto& [need, bit] : bit_) {
      for (std::size_t p = 0; p < problem_.pieces[need].size(); ++p) {
        const CutPiece& piece = problem_.pieces[need][p];
        if (piece.any_cut) continue;
        const std::pair<int, bool> sort{static_cast<int>(bit), piece.may_join && problem_.join_of_need[need] >= 0};
        kinds[{-piece.length, sort}].emplace_back(need, static_cast<int>(p));
        if (!sort.second) continue;
        const int join = problem_.join_of_need[need];
        if (std::count(cutting_.joins.begin(), cutting_.joins.end(), join) == 0) cutting_.joins.push_back(join);
      }
    }
    for (auto& [kind, names] : kinds) {
      cutting_.task.pieces.push_back(
          {-kind.first, kind.second.first, kind.second.second, static_cast<std::int64_t>(names.size())});
      cutting_.names.push_back(std::move(names));
    }
  }

  // Counts coils of the plan and notes what counts them; coils that serve nothing here are left out.
  void add_coils(int product, std::int64_t length, std::int64_t count, CountTerm term) {
    if (serves_[product] == 0) return;
    const std::size_t k = kind_of(length, serves_[product], -1);
    cutting_.terms[k].push_back(term);
    add_to(k, product, -1, count);
  }
  void add_to(std::size_t k, int product, int site_need, std::int64_t count) {
    if (count == 0) return;
    cutting_.task.coils[k].count += count;
    cutting_.sources[k].push_back({product, site_need, count});
  }
  std::size_t kind_of(std::int64_t length, std::uint64_t serves, int site_need) {
    const auto [found, is_new] =
        kinds_.try_emplace(std::pair{std::pair{length, site_need}, serves}, cutting_.task.coils.size());
    if (is_new) {
      cutting_.task.coils.push_back({length, serves, 0});
      cutting_.sources.emplace_back();
      cutting_.terms.emplace_back();
    }
    return found->second;
  }

  void add_packs() {
    for (std::size_t i = 0; i < problem_.packs.size(); ++i) {
      const PackOffer& offer = problem_.packs[i];
      CountTerm term;
      term.pack = static_cast<int>(i);
      term.each = offer.packs_per_lot;
      add_coils(offer.product, offer.content / offer.packs_per_lot, plan_.lots[i] * offer.packs_per_lot, term);
    }
  }

  void add_bundles() {
    for (std::size_t b = 0; b < problem_.bundles.size(); ++b) {
      for (std::size_t p = 0; p < problem_.bundles[b].parts.size(); ++p) {
        const BundlePart& part = problem_.bundles[b].parts[p];
        CountTerm term{-1, static_cast<int>(b), static_cast<int>(p), -1, -1, 1};
        add_coils(part.product, part.content, count_of(plan_, term), term);
        for (std::size_t c = 0; c < part.choices.size(); ++c) {
          if (part.choices[c].product < 0) continue;
          term.choice = static_cast<int>(c);
          add_coils(part.choices[c].product, part.content, count_of(plan_, term), term);
        }
      }
    }
  }

  void add_site_coils() {
    for (const auto& [need, bit] : bit_) {
      for (const std::int64_t length : problem_.site_coils[need]) {
        add_to(kind_of(length, std::uint64_t{1} << bit, need), -1, need, 1);
      }
    }
  }

  const PurchaseProblem& problem_;
  const Plan& plan_;
  Cutting cutting_;
  std::map<int, std::size_t> bit_;  // by need
  std::vector<std::uint64_t> serves_;
  std::map<std::pair<std::pair<std::int64_t, int>, std::uint64_t>, std::size_t> kinds_;
};

// Lays groups into coils one by one, taking coils and pieces from where they come in order.
class Laying {
 public:
  Laying(const PurchaseProblem& problem, const Cutting& cutting, std::vector<std::int64_t>& joins)
      : problem_(problem),
        cutting_(cutting),
        joins_(joins),
        named_(cutting.names.size(), 0),
        sources_(cutting.sources) {}

  bool lay(const CutGroup& group) {
    const auto parts = lay_group(cutting_.task, group);
    if (!parts) return false;
    std::vector<std::size_t> coils;
    for (const int kind : group.coils) coils.push_back(take_coil(static_cast<std::size_t>(kind)));
    std::vector<std::pair<int, int>> named(group.pieces.size(), {-1, -1});
    for (const CutPart& part : *parts) {
      const auto kind = static_cast<std::size_t>(group.pieces[static_cast<std::size_t>(part.piece)]);
      auto& name = named[static_cast<std::size_t>(part.piece)];
      if (name.first < 0) {
        name = cutting_.names[kind][named_[kind]++];
      } else {
        ++joins_[static_cast<std::size_t>(problem_.join_of_need[name.first])];
      }
      cut(coils[static_cast<std::size_t>(part.coil)], name.first, name.second, part.length);
    }
    return true;
  }

  void take_the_rest() {
    for (std::size_t kind = 0; kind < sources_.size(); ++kind) {
      while (!sources_[kind].empty()) take_coil(kind);
    }
  }

  // Totals go into what is left: coils that are begun first, the fullest of them last.
  bool lay_totals() {
    for (const int need : cutting_.needs) {
      for (std::size_t p = 0; p < problem_.pieces[need].size(); ++p) {
        const CutPiece& piece = problem_.pieces[need][p];
        if (piece.any_cut && !lay_total(need, static_cast<int>(p), piece.length)) return false;
      }
    }
    return true;
  }

  std::vector<LaidCoil> coils() && { return std::move(coils_); }

 private:
  std::size_t take_coil(std::size_t kind) {
    CoilSource& source = sources_[kind].front();
    coils_.push_back({source.product, source.site_need, cutting_.task.coils[kind].length, {}});
    room_.push_back(coils_.back().length);
    serves_.push_back(cutting_.task.coils[kind].serves);
    if (--source.count == 0) sources_[kind].erase(sources_[kind].begin());
    return coils_.size() - 1;
  }

  void cut(std::size_t coil, int need, int piece, std::int64_t length) {
    coils_[coil].cuts.push_back({need, piece, length});
    room_[coil] -= length;
  }

  bool lay_total(int need, int piece, std::int64_t length) {
    const auto bit = std::find(cutting_.needs.begin(), cutting_.needs.end(), need) - cutting_.needs.begin();
    while (length > 0) {
      std::size_t best = coils_.size();
      for (std::size_t c = 0; c < coils_.size(); ++c) {
        if (room_[c] == 0 || (serves_[c] >> bit & 1U) == 0) continue;
        const auto key = [&](std::size_t i) {
          const bool only = (serves_[i] & (serves_[i] - 1)) == 0;  // nobody else wants it
          return std::tuple{!only, coils_[i].cuts.empty(), -room_[i]};
        };
        if (best == coils_.size() || key(c) < key(best)) best = c;
      }
      if (best == coils_.size()) return false;
      const std::int64_t now = std::min(length, room_[best]);
      cut(best, need, piece, now);
      length -= now;
    }
    return true;
  }

  const PurchaseProblem& problem_;
  const Cutting& cutting_;
  std::vector<std::int64_t>& joins_;
  std::vector<std::size_t> named_;  // by kind of piece: so many have their names
  std::vector<std::vector<CoilSource>> sources_;
  std::vector<LaidCoil> coils_;
  std::vector<std::int64_t> room_;
  std::vector<std::uint64_t> serves_;
};

std::vector<CountTerm> scaled(std::vector<CountTerm> terms, std::int64_t worth) {
  for (CountTerm& term : terms) term.each *= worth;
  return terms;
}

void append(std::vector<CountTerm>& to, const std::vector<CountTerm>& terms) {
  to.insert(to.end(), terms.begin(), terms.end());
}

std::vector<CountTerm> join_terms(const Cutting& cutting) {
  std::vector<CountTerm> terms;
  for (const int join : cutting.joins) terms.push_back({-1, -1, -1, -1, join, 1});
  return terms;
}

}  // namespace

std::vector<Cutting> cuttings_of(const PurchaseProblem& problem, const Plan& plan) {
  std::map<int, std::vector<int>> sets;
  const std::vector<int> first = sets_of_needs(problem, plan.family);
  for (std::size_t n = 0; n < first.size(); ++n) {
    if (first[n] >= 0) sets[first[n]].push_back(static_cast<int>(n));
  }
  std::vector<Cutting> cuttings;
  for (auto& [head, needs] : sets) cuttings.push_back(CuttingBuilder(problem, plan, std::move(needs)).build());
  return cuttings;
}

std::optional<std::vector<LaidCoil>> lay_coils(const PurchaseProblem& problem, const Cutting& cutting,
                                               const std::vector<CutGroup>& groups, std::vector<std::int64_t>& joins) {
  Laying laying(problem, cutting, joins);
  for (const CutGroup& group : groups) {
    if (!laying.lay(group)) return std::nullopt;
  }
  laying.take_the_rest();
  if (!laying.lay_totals()) return std::nullopt;
  return std::move(laying).coils();
}

CutRule rule_against(const Cutting& cutting, const CutAnswer& answer) {
  CutRule rule;
  rule.when = cutting.when;
  if (answer.bound) {
    Reach reach;
    reach.least = answer.bound->least;
    for (std::size_t k = 0; k < cutting.terms.size(); ++k) {
      if (cutting.terms[k].empty()) reach.least -= answer.bound->worth[k] * cutting.task.coils[k].count;
      append(reach.terms, scaled(cutting.terms[k], answer.bound->worth[k]));
    }
    append(reach.terms, scaled(join_terms(cutting), answer.bound->join));
    rule.any_of.push_back(std::move(reach));
    return rule;
  }
  for (std::size_t k = 0; k < cutting.terms.size(); ++k) {
    if (!cutting.terms[k].empty()) rule.any_of.push_back({cutting.terms[k], cutting.task.coils[k].count + 1});
  }
  if (!cutting.joins.empty()) rule.any_of.push_back({join_terms(cutting), cutting.task.joins + 1});
  return rule;
}

}  // namespace teetally
