#pragma once
// Where a round stands, in words.
#include "teetally/render/round.h"

namespace teetally {

const Plot& plot_of_line(const LedgerView& view, std::size_t line);
std::string line_note(const RoundLine& line);
std::string round_words(const LedgerView& view);
std::string left_words(const LedgerView& view);  // what leaving changed; empty where nobody left
std::string after_round(RoundState state);       // what to do next

}  // namespace teetally
