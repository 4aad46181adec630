#pragma once
// Papers to act on, as HTML pages from mustache templates that a person may edit. A page stands by itself: it holds no
// script and loads nothing. Text from files is escaped, whatever the template does. A page prints nothing that is not
// in the values of its kind; docs/papers.md lists them.
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "teetally/render.h"

namespace teetally {

enum class Paper { order, cut_list };

// A person's own files in place of shipped ones, by name ("order.mustache", "style.css").
using OwnTemplates = std::map<std::string, Source>;

// The files pages are made of: a template for each kind of paper, and the style sheet they share.
std::vector<std::string> template_names();
std::string_view shipped_template(std::string_view name);  // one of those names

// What is wrong with a template: names that its page does not have, sections and tags that do not close, text printed
// unescaped (render/...). `name` is one of template_names(); errors carry their line.
void check_template(std::string_view name, const Source& source, Diagnostics& diagnostics);

// A page answers nothing when its template has errors; they are in the diagnostics.
std::string order_page(const OrderView& view, UnitSystem units, const OwnTemplates& own, Diagnostics& diagnostics);
std::string cut_list_page(const OrderView& view, UnitSystem units, const OwnTemplates& own, Diagnostics& diagnostics);

}  // namespace teetally
