#include "teetally/render/plan.h"

#include "tool/commands.h"
#include "tool/pipeline.h"

namespace teetally {

Answer run_plan(Session& session) {
  auto listed = list_needs(session, session.request.arguments[0]);
  if (!listed) return stopped(session);
  if (!listed->sized || !listed->site) {
    session.diagnostics.error("tool/not-a-design", {}, "a parts list has no garden to draw; a design is expected")
        .help = "its first line should be 'teetally: design 1'";
    return stopped(session);
  }
  const bool works = listed->sized->verdict != Verdict::will_not_work;
  return {works ? ExitCode::done : ExitCode::no_answer,
          plan_svg({*listed->site, *listed->sized, listed->takeoff}, session.request.layer, listed->units)};
}

}  // namespace teetally
