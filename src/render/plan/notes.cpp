#include "render/plan/notes.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/page/symbols.h"
#include "render/plan/view.h"

namespace teetally {
namespace {

constexpr double kMarkSize = 12, kTextSize = 10.5, kLine = 13.5, kGutter = 16;
constexpr std::size_t kMostInOneColumn = 10;

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

double numbers_width(const std::vector<NotedPlan::Line>& lines) {
  double widest = 0;
  for (const NotedPlan::Line& line : lines) widest = std::max(widest, text_width(line.numbers, kTextSize));
  return widest;
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
  const std::size_t columns = lines.size() > kMostInOneColumn ? 2 : 1;
  const std::size_t each = (lines.size() + columns - 1) / columns;
  const double width = (kSheetWidth - 2 * kSheetMargin) / static_cast<double>(columns) - kGutter;
  for (std::size_t from = 0; from < lines.size(); from += each) {
    const double left = kSheetMargin + (from == 0 ? 0 : width + kGutter);
    double y = top + 18;
    for (std::size_t i = from; i < std::min(from + each, lines.size()); ++i) {
      const double indent = numbers_width(lines) + 8;
      block.elements += text_element({left, y}, lines[i].numbers, "font-weight=\"700\"");
      for (const std::string& words : wrap_text(lines[i].words, kTextSize, width - indent)) {
        block.elements += text_element({left + indent, y}, words, "");
        y += kLine;
      }
      y += 3;
    }
    block.bottom = std::max(block.bottom, y);
  }
  block.elements += "</g>\n";
  return block;
}

}  // namespace teetally
