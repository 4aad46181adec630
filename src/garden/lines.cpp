// Lines are walked in the order in which they need one another.
#include <fmt/format.h>

#include <set>

#include "garden/draft.h"

namespace teetally::garden {

namespace {

constexpr Length kFarthest = metres(10000);

bool is_known(const Anchor& anchor, const Draft& draft) {
  switch (anchor.form) {
    case Anchor::Form::source:
    case Anchor::Form::at:
      return true;
    case Anchor::Form::named:
      return draft.points.count(anchor.name) > 0;
    default:
      return draft.lines.count(anchor.name) > 0;
  }
}

// A step may lead back to the line itself: to its start, or to a point it named.
bool is_own(const Anchor& anchor, const SupplyLine& line) {
  if (anchor.form != Anchor::Form::named) return anchor.name == line.name && anchor.form == Anchor::Form::start;
  for (const WalkStep& step : line.walk) {
    if (step.as == anchor.name) return true;
  }
  return false;
}

bool can_be_walked(const SupplyLine& line, const Draft& draft) {
  if (!is_known(line.from, draft)) return false;
  for (const WalkStep& step : line.walk) {
    if (step.to && !is_known(*step.to, draft) && !is_own(*step.to, line)) return false;
  }
  return true;
}

bool too_far(Point at) {
  const auto beyond = [](Length length) { return length > kFarthest || -length > kFarthest; };
  return beyond(at.east) || beyond(at.north) || beyond(at.up);
}

// Where the first step goes, if it says so by itself.
std::optional<Point> first_target(const SupplyLine& line, const Laying& laying) {
  if (line.walk.empty() || !line.walk[0].to) return std::nullopt;
  const Anchor& to = *line.walk[0].to;
  if (to.form == Anchor::Form::nearest || !is_known(to, laying.draft)) return std::nullopt;
  return resolve(to, std::nullopt, laying);
}

std::optional<Point> after_step(const WalkStep& step, Point here, const SupplyLine& line, const Laying& laying) {
  if (!step.to) return here + step.by;
  if (step.to->form == Anchor::Form::start && step.to->name == line.name) {
    return laying.draft.lines.at(line.name).at.front();
  }
  return resolve(*step.to, here, laying);
}

void walk(const SupplyLine& line, int run, const Laying& laying) {
  Draft& draft = laying.draft;
  const std::optional<Point> start = resolve(line.from, first_target(line, laying), laying);
  if (!start) return;
  Path path;
  path.run = run;
  extend(path, *start, LegRole::supply, line.place);
  draft.lines[line.name] = {path.at, run};
  for (const WalkStep& step : line.walk) {
    const std::optional<Point> next = after_step(step, path.at.back(), line, laying);
    if (!next) continue;
    if (too_far(*next)) {
      laying.diagnostics.error("garden/too-far", step.place, "this step leads more than 10 km from the origin").help =
          "check the units";
      break;
    }
    extend(path, *next, LegRole::supply, step.place);
    if (!step.as.empty()) draft.points[step.as] = *next;
  }
  draft.lines[line.name].at = path.at;
  if (path.at.size() < 2) {
    laying.diagnostics.error("garden/no-length", line.place, fmt::format("line {} has no length", quoted(line.name)))
        .help = "walk somewhere, or leave the line out";
    return;
  }
  draft.paths.push_back(std::move(path));
}

int add_line(const SupplyLine& line, const Laying& laying) {
  Draft& draft = laying.draft;
  check_size(line.size, line.place, laying);
  Run run;
  run.name = line.name;
  run.role = LegRole::supply;
  run.size = line.size;
  run.size_given = !line.size.empty();
  run.element = add_element(draft, "line", line.name, line.existing, line.place);
  run.tubing = plain_tubing(line.size, laying.practice);
  run.may_join = true;
  run.existing = line.existing;
  run.place = line.place;
  draft.garden.runs.push_back(std::move(run));
  return static_cast<int>(draft.garden.runs.size()) - 1;
}

}  // namespace

void draft_lines(const Laying& laying) {
  const std::vector<SupplyLine>& lines = laying.site.lines;
  for (const NamedPoint& point : laying.site.points) laying.draft.points[point.name] = point.at;
  std::vector<int> runs;
  for (const SupplyLine& line : lines) runs.push_back(add_line(line, laying));
  std::set<std::size_t> walked;
  // Circles were reported with the design; what they keep from being walked stays out.
  for (bool progress = true; progress;) {
    progress = false;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (walked.count(i) || !can_be_walked(lines[i], laying.draft)) continue;
      walk(lines[i], runs[i], laying);
      walked.insert(i);
      progress = true;
    }
  }
}

}  // namespace teetally::garden
