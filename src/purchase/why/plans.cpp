#include "purchase/why/plans.h"

#include <algorithm>
#include <set>

#include "purchase/build_problem.h"

namespace teetally {
namespace {

// What makes an order different: its suppliers (bundle -1) and its bundles, as catalog and bundle.
using Mark = std::pair<int, int>;
using Marks = std::set<Mark>;

constexpr int kMostAsked = 20;  // questions for each order wanted

Marks marks_of(const OfferBook& book, const Purchase& purchase) {
  Marks marks;
  for (const SupplierOrder& order : purchase.orders) {
    if (is_free(*book.catalogs[order.catalog])) continue;
    marks.insert({order.catalog, -1});
    for (const OrderLine& line : order.lines) {
      if (line.bundle >= 0) marks.insert({order.catalog, line.bundle});
    }
  }
  return marks;
}

struct Branch {
  Marks without;
  Purchase purchase;
};

class Search {
 public:
  explicit Search(Answers& answers) : answers_(answers) {}

  DifferentPlans run(int most) {
    open_.push_back({{}, answers_.best()});
    std::vector<Marks> found;
    std::vector<Purchase> plans;
    while (!open_.empty() && static_cast<int>(plans.size()) < most) {
      const auto cheapest = std::min_element(open_.begin(), open_.end(), [](const Branch& a, const Branch& b) {
        return a.purchase.total < b.purchase.total;
      });
      const Branch branch = std::move(*cheapest);
      open_.erase(cheapest);
      const Marks marks = marks_of(answers_.book(), branch.purchase);
      const auto like = std::find_if(found.begin(), found.end(), [&](const Marks& other) {
        return std::includes(marks.begin(), marks.end(), other.begin(), other.end());
      });
      const Marks in_turn = like == found.end() ? marks : *like;
      if (like == found.end()) {
        found.push_back(marks);
        plans.push_back(branch.purchase);
      }
      if (static_cast<int>(plans.size()) == most) return {std::move(plans), PlansEnd::enough};
      if (asked_ > most * kMostAsked) return {std::move(plans), PlansEnd::many_alike};
      for (const Mark& mark : in_turn) add(branch, mark);
    }
    return {std::move(plans), left_open_ ? PlansEnd::out_of_time : PlansEnd::no_other};
  }

 private:
  void add(const Branch& from, const Mark& mark) {
    Marks without = from.without;
    without.insert(mark);
    if (!seen_.insert(without).second) return;
    Question question = answers_.question();
    for (const auto& [catalog, bundle] : without) {
      if (bundle < 0) {
        question.limits.avoid_suppliers.push_back(answers_.book().catalogs[catalog]->id);
      } else {
        question.barred.push_back({catalog, -1, -1, bundle});
      }
    }
    ++asked_;
    Purchase purchase = answers_.ask(question, from.purchase.proof.lower_bound);
    left_open_ = left_open_ || purchase.outcome == Outcome::out_of_time;
    if (purchase.outcome == Outcome::bought) open_.push_back({std::move(without), std::move(purchase)});
  }

  Answers& answers_;
  std::vector<Branch> open_;
  std::set<Marks> seen_;
  int asked_ = 0;
  bool left_open_ = false;  // a question has no answer
};

}  // namespace

DifferentPlans different_plans(Answers& answers, int most) { return Search(answers).run(most); }

}  // namespace teetally
