#pragma once
// Mustache templates: {{name}} prints a text escaped, {{{name}}} what the program drew, {{#name}}...{{/name}} repeats
// over a list or shows when there is something, {{^name}}...{{/name}} shows when there is nothing, {{! }} is a remark.
#include <string>
#include <string_view>
#include <vector>

#include "render/page/names.h"
#include "teetally/base.h"

namespace teetally {

inline constexpr std::string_view kStyleSheet = "style.css";

struct TemplateTag {
  char sign = '\0';  // '#', '^', '/', '{', '&', '!', '>', '=' or none
  std::string name;
  Place place;
};
std::vector<TemplateTag> template_tags(const Source& source, Diagnostics& diagnostics);

// Names that are not promised at their place, sections left open or closed without being opened, text from files
// printed as markup or markup as text, and tags that a page has no use for.
void check_names(const Source& source, const std::vector<PageName>& names, Diagnostics& diagnostics);

// `values` are like `names` (see unlike).
std::string fill_template(std::string_view text, const Json& values, const std::vector<PageName>& names);

// The page of this kind from its template, the person's own or the shipped one. `values` lack only the style.
std::string fill_paper(Paper paper, Json values, const OwnTemplates& own, Diagnostics& diagnostics);

const Json* member(const Json& json, const std::string& name);  // null where there is none

}  // namespace teetally
