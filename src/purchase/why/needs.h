#pragma once
// What one more or one fewer of each need costs, and its spares: other amounts, bought anew. Needing more never costs
// less, which answers many questions without a search.
#include "purchase/why/answers.h"

namespace teetally {

std::vector<NeedVerdict> need_verdicts(Answers& answers, Length step);
std::optional<Difference> cost_of_all_spares(Answers& answers);

}  // namespace teetally
