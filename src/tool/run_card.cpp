#include "teetally/render/run_card.h"

#include "tool/commands.h"
#include "tool/pipeline.h"
#include "tool/templates.h"

namespace teetally {

Answer run_run_card(Session& session) {
  const auto own = templates_wanted(session);
  if (!own) return stopped(session);
  const std::string& file = session.request.arguments[0];
  const auto worked = work_out(session, file);
  if (!worked) return stopped(session);
  const RunCard card = timed(session, "run card", [&] {
    return run_card(worked->site, worked->sized, worked->practice, worked->units, session.diagnostics);
  });
  if (session.diagnostics.has_errors()) return stopped(session);
  const Page page{session.width, worked->units};
  const bool works = card.verdict != Verdict::will_not_work && !card.zones.empty();
  const std::string output = in_form(
      session, [&] { return run_card_text(card, page); }, [&] { return run_card_document(card, worked->units); },
      [&] { return run_card_csv(card, worked->units); },
      [&] { return run_card_page(card, worked->units, *own, session.diagnostics); });
  return {works ? ExitCode::done : ExitCode::no_answer, output};
}

}  // namespace teetally
