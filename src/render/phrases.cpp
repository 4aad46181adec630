#include "render/phrases.h"

#include <cmath>

namespace teetally {

std::string part_phrase(const PartSpec& part, UnitSystem units) { return printable(to_text(part, units)); }

std::string title_line(std::string_view name, std::string_view otherwise) {
  return printable(name.empty() ? otherwise : name) + "\n";
}

std::string heading(std::string_view text) { return "\n" + std::string(text) + "\n"; }

std::string verdict_sentence(const SizedGarden& sized) { return verdict_sentence(sized.verdict, sized.words); }

std::string verdict_sentence(Verdict verdict, std::string_view words) {
  const std::string word = to_text(verdict);
  std::string text = printable(words);
  if (text.rfind(word, 0) != 0) text = text.empty() ? word : word + ": " + text;
  if (verdict == Verdict::will_not_work) {
    for (std::size_t i = 0; i < word.size(); ++i) {
      if (text[i] >= 'a' && text[i] <= 'z') text[i] = static_cast<char>(text[i] - 'a' + 'A');
    }
  } else if (text[0] >= 'a' && text[0] <= 'z') {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  }
  return text + (text.back() == '.' ? "" : ".");
}

std::string flow_phrase(double m3_per_s, UnitSystem units) { return to_text(flow_from_m3_per_s(m3_per_s), units); }

std::string pressure_phrase(double pa, UnitSystem units) {
  return to_text(Pressure{static_cast<std::int64_t>(std::llround(pa))}, units);
}

std::string size_phrase(std::string_view size) { return size.empty() ? "-" : printable(size); }

std::string amount_phrase(bool by_length, std::int64_t amount, UnitSystem units) {
  return by_length ? to_text(Length{amount}, units) : std::to_string(amount);
}

std::int64_t sum_of(const Need& need, ReasonClass reason_class) {
  std::int64_t sum = 0;
  for (const Reason& reason : need.reasons) {
    if (reason.reason_class == reason_class) sum += reason.amount;
  }
  return sum;
}

std::string class_prefix(const Reason& reason) {
  const std::string word = to_text(reason.reason_class);
  if (reason.reason_class == ReasonClass::design || reason.rule.rfind(word, 0) == 0) return {};
  return word + ": ";
}

}  // namespace teetally
