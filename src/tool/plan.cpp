#include "teetally/render/plan.h"

#include "tool/commands.h"
#include "tool/pipeline.h"
#include "tool/templates.h"

namespace teetally {

Answer run_plan(Session& session) {
  const auto own = templates_wanted(session);
  if (!own) return stopped(session);
  auto listed = list_needs(session, session.request.arguments[0]);
  if (!listed) return stopped(session);
  if (!listed->sized || !listed->site) {
    session.diagnostics.error("tool/not-a-design", {}, "a parts list has no garden to draw; a design is expected")
        .help = "its first line should be 'teetally: design 1'";
    return stopped(session);
  }
  const bool works = listed->sized->verdict != Verdict::will_not_work;
  const PlanSubject subject{*listed->site, *listed->sized, listed->takeoff};
  const PlanLayer layer = session.request.layer;
  return {works ? ExitCode::done : ExitCode::no_answer,
          session.request.format == Format::html ? plan_page(subject, layer, listed->units, *own, session.diagnostics)
                                                 : plan_svg(subject, layer, listed->units)};
}

}  // namespace teetally
