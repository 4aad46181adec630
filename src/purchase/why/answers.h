#pragma once
// Buys anew for one question after another, remembers every answer, and does not search where an order already known
// keeps the question's rules and costs as little as any order can.
#include <map>
#include <string>
#include <vector>

#include "purchase/why/question.h"
#include "teetally/base/stopwatch.h"
#include "teetally/purchase/buy_with.h"
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
  const std::vector<std::string>& rests_on() const { return rests_on_; }

 private:
  Purchase answer(const Question& question, Money at_least);
  std::optional<Purchase> none_cheaper(const Question& question);
  Purchase search(const Variant& variant, const std::string& engine, Beforehand known);
  void start_with(const Offer& bundle);
  double seconds_for_one() const;
  void note_ground(const Purchase& purchase);
  std::vector<std::string> engines_for(const Question& question) const;
  bool is_whole(const Question& question) const;

  const OfferBook& book_;
  const BuyLimits& limits_;
  const Purchase& best_;
  double seconds_;
  Stopwatch watch_;
  std::vector<Purchase> known_;  // by the prices and needs of their questions
  std::map<std::string, Purchase> answers_;
  std::vector<std::string> rests_on_;
  bool floating_;  // some answer so far rests on floating point
  bool handed_on_ = false;
  int questions_ = 0, solved_ = 0;
};

}  // namespace teetally
