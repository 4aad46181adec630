#include <fmt/format.h>

#include "needs/rules.h"

namespace teetally {

void check_elements(const Worksheet& sheet, Diagnostics& diagnostics) {
  for (std::size_t i = 0; i < sheet.garden.elements.size(); ++i) {
    const Element& element = sheet.garden.elements[i];
    if (element.existing || element.kind == "source" || sheet.served.contains(static_cast<int>(i))) continue;
    diagnostics
        .error("needs/element-without-part", element.place,
               fmt::format("{} yields no part: expected at least one length of tubing or one device", element.name))
        .help = "give it a length, rows or outlets; take it out of the design; or mark it 'existing: yes'";
  }
}

}  // namespace teetally
