#include "teetally/purchase/compare.h"

#include "teetally/render/workbooks.h"
#include "tool/commands.h"
#include "tool/interrupt.h"
#include "tool/pipeline.h"
#include "tool/templates.h"

namespace teetally {
namespace {

constexpr int kPlans = 10;
constexpr Length kFoot{3048}, kMetre{10'000};

}  // namespace

Comparison compare_all(Session& session, const Bought& bought, bool deep) {
  CompareWishes wishes;
  wishes.seconds = session.request.limits.seconds;
  wishes.step = bought.units == UnitSystem::metric ? kMetre : kFoot;
  wishes.close_gaps = wishes.lines = wishes.needs = deep;
  wishes.plans = deep ? kPlans : 0;
  Comparison comparison =
      timed(session, "compare", [&] { return compare(bought.book, session.request.limits, bought.purchase, wishes); });
  note_size(session,
            counted(comparison.questions, "question") + ", " + std::to_string(comparison.solved) + " searched");
  return comparison;
}

Answer run_compare(Session& session) {
  const std::string& file = session.request.arguments[0];
  const auto own = templates_wanted(session);
  if (!own) return stopped(session);
  const StopOnInterrupt watch(session.request.limits);
  const auto bought = buy_all(session, file, false);
  if (!bought) return stopped(session);
  note_stop(session, bought->purchase);
  const Comparison comparison = compare_all(session, *bought, session.request.deep);
  const CompareView view{bought->book, comparison};
  const Page page{session.width, bought->units};
  const bool works = !bought->sized || bought->sized->verdict != Verdict::will_not_work;
  const bool answered = works && bought->purchase.outcome == Outcome::bought;
  const ExitCode code = answered ? ExitCode::done : ExitCode::no_answer;
  if (bought->purchase.outcome != Outcome::bought) show_instead(session);
  if (session.request.format == Format::xlsx) {
    return {code, comparison_workbook(view, bought->units, session.request.today)};
  }
  const std::string output = in_form(
      session,
      [&] { return compare_text(view, page) + next_steps({works ? buy_words(session) : "teetally check " + file}); },
      [&] { return compare_document(view, bought->units); }, [&] { return compare_csv(view, bought->units); },
      [&] { return comparison_page(view, bought->units, *own, session.diagnostics); });
  return {code, output};
}

}  // namespace teetally
