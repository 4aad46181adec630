#include "tool/commands.h"
#include "tool/pipeline.h"

namespace teetally {

Answer run_takeoff(Session& session) {
  const std::string& file = session.request.arguments[0];
  const auto listed = list_needs(session, file);
  if (!listed) return stopped(session);
  const SizedGarden* sized = listed->sized ? &*listed->sized : nullptr;
  const Page page{session.width, listed->units};
  const bool works = sized == nullptr || sized->verdict != Verdict::will_not_work;
  const std::string output = in_form(
      session,
      [&] {
        return takeoff_text(listed->takeoff, sized, page) +
               next_steps({works ? "teetally buy " + file + " --catalogs FOLDER" : "teetally check " + file});
      },
      [&] { return takeoff_document(listed->takeoff, sized, listed->units); },
      [&] { return takeoff_csv(listed->takeoff, listed->units); });
  return {works ? ExitCode::done : ExitCode::no_answer, output};
}

}  // namespace teetally
