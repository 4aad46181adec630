#pragma once
// What the template of a page may name. The same list checks templates, fills them, and is what docs/papers.md tells.
#include <string>
#include <string_view>
#include <vector>

#include "teetally/render/papers.h"

namespace teetally {

struct PageName {
  enum class Kind {
    text,    // {{name}}, always escaped; empty counts as nothing
    markup,  // {{{name}}}, made by the program
    list,    // {{#name}}...{{/name}}; a list of plain texts has no names inside and prints them with {{.}}
  };
  std::string name;
  Kind kind = Kind::text;
  std::vector<PageName> inside;
};

const std::vector<PageName>& names_of(Paper paper);
std::optional<Paper> paper_of(std::string_view template_name);  // "order.mustache"; nothing for the style sheet
std::string template_of(Paper paper);

// How `values` differ from the names promised, in words; empty when they are alike. For tests.
std::vector<std::string> unlike(const Json& values, const std::vector<PageName>& names);

}  // namespace teetally
