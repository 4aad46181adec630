#include "purchase/cut/mend.h"

#include <algorithm>

#include "purchase/cut/cutting.h"

namespace teetally {
namespace {

constexpr std::int64_t kSteps = 4'000;  // of a search for a cut
constexpr std::int64_t kFew = 4;        // lots of one pack that are tried before many
constexpr std::size_t kMostTries = 24;

class Mending {
 public:
  Mending(const PurchaseProblem& problem, const Plan& plan, const TimeLimit& limit)
      : problem_(problem), plan_(plan), limit_(limit) {
    placed_.assign(problem.suppliers.size(), false);
    for (std::size_t p = 0; p < problem.packs.size(); ++p) {
      if (plan.lots[p] > 0) placed_[problem.packs[p].supplier] = true;
    }
    for (std::size_t b = 0; b < problem.bundles.size(); ++b) {
      if (plan.bundles[b].count > 0) placed_[problem.bundles[b].supplier] = true;
    }
  }

  std::optional<Plan> run() {
    for (Cutting& cutting : cuttings_of(problem_, plan_)) {
      if (!mend(cutting)) return std::nullopt;
    }
    return std::move(plan_);
  }

 private:
  struct Coils {
    int pack = -1;
    std::size_t kind = 0;  // of coil
    double price = 0;      // of one lot more
    double each = 0;       // for each tenth of a millimetre
  };

  static bool can_cut(const Cutting& cutting) {
    std::int64_t spare = 0;  // without joins, of what serves anything here
    for (const CoilKind& coil : cutting.task.coils) spare += coil.length * coil.count;
    for (const PieceKind& piece : cutting.task.pieces) spare -= piece.length * piece.count;
    return spare >= 0 && cut(cutting.task, kSteps, Proving::no).cuttable == Cuttable::yes;
  }

  // What more coils there are, and what they cost at their present price.
  std::vector<Coils> offers(const Cutting& cutting, bool also_elsewhere) const {
    std::vector<Coils> result;
    for (std::size_t k = 0; k < cutting.terms.size(); ++k) {
      for (const CountTerm& term : cutting.terms[k]) {
        if (term.pack < 0) continue;
        const PackOffer& offer = problem_.packs[term.pack];
        const std::int64_t lots = plan_.lots[term.pack];
        if (lots >= offer.most || (!placed_[offer.supplier] && !also_elsewhere)) continue;
        const std::int64_t to = std::max(offer.prices.front().from, lots + 1);
        if (to > offer.most) continue;
        const auto price = static_cast<double>(*price_of_lots(offer, to) - price_of_lots(offer, lots).value_or(0));
        const auto length = static_cast<double>((to - lots) * offer.content);
        result.push_back({term.pack, k, price, price / length});
      }
    }
    return result;
  }

  // Answers how many lots were added: the fewest that may be, and up to `more`.
  std::int64_t add(Cutting& cutting, const Coils& coils, std::int64_t more) {
    const PackOffer& offer = problem_.packs[coils.pack];
    const std::int64_t before = plan_.lots[coils.pack];
    const std::int64_t to = std::min(offer.most, std::max(offer.prices.front().from, before + more));
    change(cutting, coils, to - before);
    return to - before;
  }
  void change(Cutting& cutting, const Coils& coils, std::int64_t lots) {
    plan_.lots[coils.pack] += lots;
    cutting.task.coils[coils.kind].count += lots * problem_.packs[coils.pack].packs_per_lot;
  }

  bool mend(Cutting& cutting) {
    if (can_cut(cutting)) return true;
    if (few_more(cutting)) return true;
    for (const bool also_elsewhere : {false, true}) {
      std::vector<Coils> coils = offers(cutting, also_elsewhere);
      std::sort(coils.begin(), coils.end(), [](const Coils& a, const Coils& b) { return a.each < b.each; });
      for (const Coils& each : coils) {
        if (many_more(cutting, each)) return true;
        if (limit_.over() && also_elsewhere) return false;
      }
    }
    return false;
  }

  // The cheapest few lots of one pack that are enough by themselves.
  bool few_more(Cutting& cutting) {
    struct Few {
      Coils coils;
      std::int64_t lots = 0;
      double price = 0;
    };
    std::vector<Few> tries;
    for (const Coils& coils : offers(cutting, false)) {
      for (std::int64_t lots = 1; lots <= kFew; ++lots) {
        tries.push_back({coils, lots, coils.price * static_cast<double>(lots)});
      }
    }
    std::stable_sort(tries.begin(), tries.end(), [](const Few& a, const Few& b) { return a.price < b.price; });
    std::vector<std::pair<std::size_t, std::int64_t>>
        failed;  // kind of coil and coils added: prices differ, coils do not
    for (std::size_t i = 0; i < tries.size() && failed.size() < kMostTries && !limit_.over(); ++i) {
      const std::int64_t added = add(cutting, tries[i].coils, tries[i].lots);
      const std::pair key{tries[i].coils.kind, added * problem_.packs[tries[i].coils.pack].packs_per_lot};
      const bool again = std::find(failed.begin(), failed.end(), key) != failed.end();
      if (!again && can_cut(cutting)) return true;
      if (!again) failed.push_back(key);
      change(cutting, tries[i].coils, -added);
    }
    return false;
  }

  // Twice as many again and again until it is enough, then back by halves. What does not help is taken away again.
  bool many_more(Cutting& cutting, const Coils& coils) {
    std::int64_t added = 0, too_few = 0;
    for (std::int64_t more = 1;; more *= 2) {
      const std::int64_t now = add(cutting, coils, more);
      added += now;
      if (now > 0 && can_cut(cutting)) break;
      too_few = added;
      if (now < more) {
        change(cutting, coils, -added);
        return false;
      }
    }
    const std::int64_t fewest = problem_.packs[coils.pack].prices.front().from - (plan_.lots[coils.pack] - added);
    while (added - too_few > 1 && added > fewest && !limit_.over()) {
      const std::int64_t half = std::max(fewest, too_few + (added - too_few) / 2);
      if (half >= added) break;
      change(cutting, coils, half - added);
      if (can_cut(cutting)) {
        added = half;
      } else {
        change(cutting, coils, added - half);
        too_few = half;
      }
    }
    return true;
  }

  const PurchaseProblem& problem_;
  Plan plan_;
  const TimeLimit& limit_;
  std::vector<bool> placed_;  // by supplier
};

}  // namespace

std::optional<Plan> mended(const PurchaseProblem& problem, const Plan& plan, const TimeLimit& limit) {
  return Mending(problem, plan, limit).run();
}

}  // namespace teetally
