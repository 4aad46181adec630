#pragma once
// Mustache templates: {{name}} prints a value escaped, {{{name}}} as it is, {{#name}}...{{/name}} repeats over a list
// or shows when there is something, {{^name}}...{{/name}} shows when there is nothing.
#include <string>
#include <string_view>
#include <vector>

#include "teetally/base.h"

namespace teetally {

struct TemplateTag {
  char sign = '\0';  // '#', '^', '/', '{', '&', '!', '>' or none
  std::string name;
  Place place;
};
std::vector<TemplateTag> template_tags(const Source& source, Diagnostics& diagnostics);

// Names that `values` does not hold at their place, sections that are left open or closed without being opened, and
// partials, which a self-contained page has no use for.
void check_names(const Source& source, const Json& values, Diagnostics& diagnostics);

std::string fill_template(std::string_view text, const Json& values);

}  // namespace teetally
