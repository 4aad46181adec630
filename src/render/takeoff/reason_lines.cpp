#include "render/takeoff/reason_lines.h"

#include "render/phrases.h"

namespace teetally {

std::vector<ReasonLine> gathered(const Need& need) {
  std::vector<ReasonLine> lines;
  for (const Reason& reason : need.reasons) {
    bool found = false;
    for (ReasonLine& line : lines) {
      if (line.first->reason_class != reason.reason_class || line.first->element != reason.element ||
          line.first->rule != reason.rule) {
        continue;
      }
      line.amount += reason.amount;
      ++line.places;
      found = true;
      break;
    }
    if (!found) lines.push_back({&reason, reason.amount, 1});
  }
  return lines;
}

std::string reason_phrase(const ReasonLine& line) {
  const Reason& reason = *line.first;
  std::string text;
  text += class_prefix(reason);
  text += printable(reason.element);
  if (!reason.rule.empty()) text += (reason.element.empty() ? "" : ": ") + printable(reason.rule);
  if (line.places == 1 && !reason.where.empty()) text += " (" + printable(reason.where) + ")";
  if (line.places > 1) text += " (" + std::to_string(line.places) + " places)";
  return text;
}

}  // namespace teetally
