#pragma once
// Phrases that several outputs share, safe for a terminal.
#include <string>
#include <string_view>

#include "teetally/render.h"

namespace teetally {

std::string part_phrase(const PartSpec& part, UnitSystem units);  // "tee, size 1/2 in"
std::string title_line(std::string_view name, std::string_view otherwise);
std::string heading(std::string_view text);  // "\nText\n"
// "Works: ..." in one sentence; "WILL NOT WORK: ..." so that it cannot be overlooked.
std::string verdict_sentence(const SizedGarden& sized);
std::string verdict_sentence(Verdict verdict, std::string_view words);
std::string flow_phrase(double m3_per_s, UnitSystem units);
std::string pressure_phrase(double pa, UnitSystem units);
std::string size_phrase(std::string_view size);  // "-" when not sized

// An amount of pieces or tenths of a millimetre of what `by_length` says.
std::string amount_phrase(bool by_length, std::int64_t amount, UnitSystem units);

std::string cautions_text(const std::vector<std::string>& cautions, const Page& page);  // a section, or nothing

// Sum of the reasons of one class.
std::int64_t sum_of(const Need& need, ReasonClass reason_class);
// "waste: " before reasons that are not of the design; nothing where the rule says so itself.
std::string class_prefix(const Reason& reason);

}  // namespace teetally
