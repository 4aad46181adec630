#include <fmt/format.h>

#include <algorithm>

#include "render/page/symbols.h"
#include "render/phrases.h"
#include "render/plan/drawing.h"
#include "render/plan/key.h"
#include "teetally/render/plan.h"

namespace teetally {
namespace {

constexpr double kTitleSize = 20, kWordsSize = 11.5;

struct TitleBlock {
  std::string elements;
  double bottom = 0;
};

TitleBlock title_block(const PlanSubject& subject) {
  TitleBlock block;
  const std::string& name = subject.sized.garden.name;
  double y = 40;
  for (const std::string& line : wrap_text(name.empty() ? "Garden" : name, kTitleSize, 680)) {
    block.elements += text_element({kSheetMargin, y}, line, "font-size=\"20\" font-weight=\"700\"");
    y += 24;
  }
  for (const std::string& line : wrap_text(verdict_sentence(subject.sized), kWordsSize, 680)) {
    block.elements +=
        text_element({kSheetMargin, y}, line, fmt::format("font-size=\"11.5\" fill=\"{}\"", plan_ink::kQuiet));
    y += 15;
  }
  block.bottom = std::max(y, 72.0);
  return block;
}

std::string foot(const PlanDrawing& drawing, double top) {
  std::string out = fmt::format("<g font-size=\"10\" fill=\"{}\">\n", plan_ink::kQuiet);
  if (const std::string left_out = without_room_words(drawing); !left_out.empty()) {
    out += text_element({kSheetMargin, top}, left_out, "");
    top += 14;
  }
  out +=
      text_element({kSheetMargin, top},
                   "An estimate from what was measured. Before digging have buried services located; local codes and "
                   "licensed practice come first.",
                   "");
  return out + "</g>\n";
}

}  // namespace

std::string plan_svg(const PlanSubject& subject, PlanLayer layer, UnitSystem units) {
  const PlanNumbers numbers(subject);
  const TitleBlock title = title_block(subject);
  const PlanDrawing drawing = draw_plan(subject, numbers, layer, units, title.bottom + 8);
  const PlanKey key = plan_key(subject, numbers, drawing.parts, layer, units, drawing.bottom + 8);
  const NoteBlock notes = note_block(drawing.notes, key.bottom);
  const double height = notes.bottom + (drawing.labels.without_room.empty() ? 30 : 44);
  const std::string name = escape_markup(subject.sized.garden.name);
  std::string out = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 800 {0}\" width=\"800\" height=\"{0}\" role=\"img\" "
      "font-family=\"Helvetica, Arial, sans-serif\" fill=\"{1}\">\n<title>Plan: {2}</title>\n<desc>{3}</desc>\n",
      sheet_number(height), plan_ink::kInk, name, escape_markup(plan_description(subject)));
  out += fmt::format("<rect width=\"800\" height=\"{}\" fill=\"{}\"/>\n", sheet_number(height), plan_ink::kPaper);
  out += title.elements + north_arrow({kSheetWidth - kSheetMargin - 14, 34}) + drawing.elements;
  out += key.elements + notes.elements + foot(drawing, notes.bottom + 18);
  return out + "</svg>\n";
}

}  // namespace teetally
