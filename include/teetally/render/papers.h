#pragma once
// Papers to act on, as HTML pages from mustache templates that a person may edit. A page stands by itself: it holds no
// script and loads nothing. Text from files is escaped, whatever the template does. A page prints nothing that is not
// in the values of its kind; docs/papers.md lists them.
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "teetally/hydraulics/run_card.h"
#include "teetally/quote.h"
#include "teetally/render.h"
#include "teetally/render/plan.h"

namespace teetally {

enum class Paper {
  order,
  comparison,
  cut_list,
  parts,
  van_list,
  plan,
  run_card,
  quote,
  internal_quote,
  pool,
  picks,
  packing,
  statements,
  round,
};

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
std::string comparison_page(const CompareView& view, UnitSystem units, const OwnTemplates& own,
                            Diagnostics& diagnostics);
std::string cut_list_page(const OrderView& view, UnitSystem units, const OwnTemplates& own, Diagnostics& diagnostics);
// `sized` is absent for parts lists.
std::string parts_page(const Takeoff& takeoff, const SizedGarden* sized, UnitSystem units, const OwnTemplates& own,
                       Diagnostics& diagnostics);
std::string van_list_page(const Takeoff& takeoff, UnitSystem units, const OwnTemplates& own, Diagnostics& diagnostics);
std::string plan_page(const PlanSubject& subject, PlanLayer layer, UnitSystem units, const OwnTemplates& own,
                      Diagnostics& diagnostics);
std::string run_card_page(const RunCard& card, UnitSystem units, const OwnTemplates& own, Diagnostics& diagnostics);
// No cost, supplier or profit can be on it: there is none in a customer's copy.
std::string quote_page(const CustomerCopy& copy, const OwnTemplates& own, Diagnostics& diagnostics);
std::string internal_quote_page(const Quote& quote, const OwnTemplates& own, Diagnostics& diagnostics);

}  // namespace teetally
