#include "teetally/render/by_place.h"
#include "tool/commands.h"
#include "tool/pipeline.h"
#include "tool/templates.h"

namespace teetally {
namespace {

std::string part_by_part(Session& session, const Listed& listed, const OwnTemplates& own, bool works) {
  const std::string& file = session.request.arguments[0];
  const SizedGarden* sized = listed.sized ? &*listed.sized : nullptr;
  const Page page{session.width, listed.units};
  return in_form(
      session,
      [&] {
        return takeoff_text(listed.takeoff, sized, page) +
               next_steps({works ? "teetally buy " + file + " --catalogs FOLDER" : "teetally check " + file});
      },
      [&] { return takeoff_document(listed.takeoff, sized, listed.units); },
      [&] { return takeoff_csv(listed.takeoff, listed.units); },
      [&] { return parts_page(listed.takeoff, sized, listed.units, own, session.diagnostics); });
}

std::string place_by_place(Session& session, const Listed& listed, const OwnTemplates& own) {
  const Page page{session.width, listed.units};
  return in_form(
      session, [&] { return by_place_text(listed.takeoff, page); },
      [&] { return by_place_document(listed.takeoff, listed.units); },
      [&] { return by_place_csv(listed.takeoff, listed.units); },
      [&] { return van_list_page(listed.takeoff, listed.units, own, session.diagnostics); });
}

}  // namespace

Answer run_takeoff(Session& session) {
  const auto own = templates_wanted(session);
  if (!own) return stopped(session);
  const auto listed = list_needs(session, session.request.arguments[0]);
  if (!listed) return stopped(session);
  const bool works = !listed->sized || listed->sized->verdict != Verdict::will_not_work;
  const std::string output =
      session.request.by_place ? place_by_place(session, *listed, *own) : part_by_part(session, *listed, *own, works);
  return {works ? ExitCode::done : ExitCode::no_answer, output};
}

}  // namespace teetally
