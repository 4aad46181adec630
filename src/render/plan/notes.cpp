#include "render/plan/notes.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/page/symbols.h"
#include "render/plan/view.h"

namespace teetally {
namespace {

constexpr double kMarkSize = 12, kTextSize = 10.5, kLine = 13.5, kWords = 84;

std::string words_of(const Label& label) {
  std::string words;
  for (const std::string& line : label.lines) words += (words.empty() ? "" : " ") + line;
  return words;
}

// All that the notes tell about an element, but for its name.
std::string told_about(const ElementName& name, const std::vector<Label>& labels) {
  std::string words = name.high;
  if (!name.rows.empty()) words += (words.empty() ? "" : "; ") + name.rows;
  for (const Label& label : labels) {
    if (label.element == name.element) words += (words.empty() ? "" : "; ") + words_of(label);
  }
  return words;
}

}  // namespace

NotedPlan with_notes(const std::vector<Label>& labels, const std::vector<ElementName>& names) {
  NotedPlan noted;
  std::size_t from = 0;
  std::vector<std::string> alike;
  for (std::size_t i = 0; i < names.size(); ++i) {
    noted.labels.push_back({{fmt::format("({})", i + 1)},
                            kMarkSize,
                            names[i].spot,
                            4,
                            true,
                            180,
                            fmt::format("font-weight=\"700\" fill=\"{}\"", plan_ink::kRow)});
    alike.push_back(names[i].name);
    const std::string told = told_about(names[i], labels);
    if (i + 1 < names.size() && told_about(names[i + 1], labels) == told) continue;
    const bool many = i > from;
    noted.lines.push_back({many ? fmt::format("({}) to ({})", from + 1, i + 1) : fmt::format("({})", i + 1),
                           listed(alike) + (told.empty() ? "" : (many ? ", each: " : ": ") + told)});
    from = i + 1;
    alike.clear();
  }
  std::copy_if(labels.begin(), labels.end(), std::back_inserter(noted.labels), [&](const Label& label) {
    return std::none_of(names.begin(), names.end(),
                        [&](const ElementName& name) { return name.element == label.element; });
  });
  return noted;
}

NoteBlock note_block(const std::vector<NotedPlan::Line>& lines, double top) {
  if (lines.empty()) return {"", top};
  top += 24;
  NoteBlock block{fmt::format("<g font-size=\"{}\">\n", sheet_number(kTextSize)), top};
  block.elements += text_element({kSheetMargin, top}, "What the numbers in brackets stand for", "font-weight=\"700\"");
  double y = top + 18;
  for (const NotedPlan::Line& line : lines) {
    const double left = kSheetMargin + std::max(kWords, text_width(line.numbers, kTextSize) + 8);
    block.elements += text_element({kSheetMargin, y}, line.numbers, "font-weight=\"700\"");
    for (const std::string& words : wrap_text(line.words, kTextSize, kSheetWidth - kSheetMargin - left)) {
      block.elements += text_element({left, y}, words, "");
      y += kLine;
    }
    y += 3;
  }
  block.elements += "</g>\n";
  block.bottom = y;
  return block;
}

}  // namespace teetally
