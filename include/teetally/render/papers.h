#pragma once
// Papers to act on, as self-contained HTML pages from mustache templates: an order for each supplier, what to carry to
// each place of the garden, the parts with their reasons, the plan. Pages hold no script and load nothing; text from
// files is escaped. The values a template may use are described in docs/papers.md.
#include <string>
#include <string_view>
#include <vector>

#include "teetally/render.h"
#include "teetally/render/plan.h"

namespace teetally {

struct Paper {
  std::string file;   // "order-fernhollow.html"
  std::string title;  // for the index
  std::string html;
};

// A template as its user named it, and its text.
struct PaperTemplate {
  std::string name;  // "order", "van-list", "parts", "plan", "index"
  Source source;
};

struct PapersSubject {
  OrderView view;
  const Site* site = nullptr;  // designs only; without it there are no plan and no places
};

// Every name a template uses must be among the values it gets: others are errors (render/unknown-name) with their line,
// and that paper is not made.
std::vector<Paper> make_papers(const PapersSubject& subject, const std::vector<PaperTemplate>& templates,
                               UnitSystem units, Diagnostics& diagnostics);

// A template against the values of its kind: unknown names (with the nearest known one) and tags left open.
void check_template(const PaperTemplate& one, Diagnostics& diagnostics);

}  // namespace teetally
