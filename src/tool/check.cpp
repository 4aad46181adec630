#include "tool/commands.h"
#include "tool/pipeline.h"

namespace teetally {

namespace {

using AdviceByZone = std::vector<std::vector<Advice>>;

AdviceByZone advice_on(const Worked& worked) {
  AdviceByZone advice;
  for (std::size_t i = 0; i < worked.sized.zones.size(); ++i) {
    advice.push_back(advise(worked.site, worked.sized, static_cast<int>(i), worked.practice, worked.units));
  }
  return advice;
}

std::vector<std::string> what_next(Verdict verdict, bool advised, const std::string& file) {
  if (verdict == Verdict::works) return {"teetally takeoff " + file};
  if (advised) return {"edit " + file + ", then check it again"};
  const std::string advise = "teetally check " + file + " --advise";
  if (verdict == Verdict::tight) return {advise, "teetally takeoff " + file};
  return {advise};
}

}  // namespace

Answer run_check(Session& session) {
  const std::string& file = session.request.arguments[0];
  const auto worked = work_out(session, file);
  if (!worked) return stopped(session);
  const SizedGarden& sized = worked->sized;
  AdviceByZone advice;
  if (session.request.advise) advice = timed(session, "advice", [&] { return advice_on(*worked); });
  const CheckView view{sized, session.request.advise ? &advice : nullptr, session.request.rows};
  const Page page{session.width, worked->units};
  const std::string output = in_form(
      session,
      [&] { return check_text(view, page) + next_steps(what_next(sized.verdict, session.request.advise, file)); },
      [&] { return check_document(view, worked->units); }, [&] { return check_csv(sized, worked->units); });
  return {sized.verdict == Verdict::will_not_work ? ExitCode::no_answer : ExitCode::done, output};
}

}  // namespace teetally
