#pragma once
// Buys anew for one question after another, remembers every answer, and does not search where an order already known
// keeps the question's rules and costs as little as any order can.
#include <map>
#include <string>
#include <vector>

#include "purchase/stopwatch.h"
#include "purchase/why_question.h"
#include "teetally/purchase/compare.h"

namespace teetally {

class Answers {
 public:
  Answers(const OfferBook& book, const BuyLimits& limits, const Purchase& best, double seconds);

  const OfferBook& book() const { return book_; }
  const Purchase& best() const { return best_; }
  Question question() const;  // the user's own limits, nothing else

  // The cheapest order as the question has it, by the prices and needs of the question; tokens are gone. No order
  // that answers it costs less than `at_least`.
  Purchase ask(const Question& question, Money at_least);

  int questions() const { return questions_; }
  int solved() const { return solved_; }

 private:
  Purchase answer(const Question& question, Money at_least);
  std::optional<Purchase> cheapest_known(const Variant& variant) const;
  void remember(const Purchase& purchase);

  const OfferBook& book_;
  const BuyLimits& limits_;
  const Purchase& best_;
  double seconds_;
  Stopwatch watch_;
  std::vector<Purchase> known_;  // by the book's own prices
  std::map<std::string, Purchase> answers_;
  int questions_ = 0, solved_ = 0;
};

}  // namespace teetally
