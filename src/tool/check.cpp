#include "tool/commands.h"
#include "tool/pipeline.h"

namespace teetally {

Answer run_check(Session& session) {
  const std::string& file = session.request.arguments[0];
  const auto worked = work_out(session, file);
  if (!worked) return stopped(session);
  const SizedGarden& sized = worked->sized;
  const Page page{session.width, worked->units};
  const bool works = sized.verdict != Verdict::will_not_work;
  const std::string output = in_form(
      session,
      [&] {
        return check_text(sized, page) +
               next_steps({works ? "teetally takeoff " + file : "edit " + file + ", then check it again"});
      },
      [&] { return check_document(sized, worked->units); }, [&] { return check_csv(sized, worked->units); });
  return {works ? ExitCode::done : ExitCode::no_answer, output};
}

}  // namespace teetally
