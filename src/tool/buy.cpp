#include "tool/buy.h"

#include "teetally/render/workbooks.h"
#include "tool/commands.h"
#include "tool/interrupt.h"
#include "tool/templates.h"

namespace teetally {
namespace {

std::string with_catalogs(const Session& session) {
  std::string text = " --catalogs";
  for (const std::string& path : session.request.catalogs) text += " " + path;
  return text;
}

std::vector<std::string> steps_after(const Session& session, const Bought& bought, bool works,
                                     const CertificateKept& certificate) {
  const std::string& file = session.request.arguments[0];
  if (!works) return {"teetally check " + file};
  if (bought.purchase.outcome != Outcome::bought) return {};
  std::vector<std::string> steps = {"teetally explain " + file + " N01" + with_catalogs(session),
                                    buy_words(session) + " --cut-list",
                                    buy_words(session) + " --format csv -o order.csv"};
  if (certificate.written) {
    steps.push_back("teetally verify " + certificate.written->file + " " + file + with_catalogs(session));
  }
  return steps;
}

std::string cuts_in_form(const Session& session, const Bought& bought, const OrderView& view, const OwnTemplates& own,
                         Diagnostics& diagnostics) {
  if (session.request.format == Format::xlsx) return cut_list_workbook(view, bought.units, session.request.today);
  return in_form(
      session,
      [&] {
        return cut_list_text(view, {session.width, bought.units});
      },
      [&] { return cut_list_document(view, bought.units); }, [&] { return cut_list_csv(view, bought.units); },
      [&] { return cut_list_page(view, bought.units, own, diagnostics); });
}

// Nothing bought ends as that does; an order without the certificate asked for ends as that did.
ExitCode end_of(const Bought& bought, bool works, const CertificateKept& certificate) {
  return works && bought.purchase.outcome == Outcome::bought ? certificate.code : ExitCode::no_answer;
}

}  // namespace

Answer run_buy(Session& session) { return buy_and_certify(session, certificate_of); }

Answer buy_and_certify(Session& session, const MakeCertificate& make) {
  const auto own = templates_wanted(session);
  if (!own) return stopped(session);
  const StopOnInterrupt watch(session.request.limits);
  const auto bought = buy_all(session, session.request.arguments[0], session.request.near_misses);
  if (!bought) return stopped(session);
  note_stop(session, bought->purchase);
  const CertificateKept kept = keep_certificate(session, *bought, make);
  const auto& certificate = kept.written;
  const OrderView view{bought->book, bought->purchase, bought->sized ? &*bought->sized : nullptr};
  const bool works = view.sized == nullptr || view.sized->verdict != Verdict::will_not_work;
  const ExitCode code = end_of(*bought, works, kept);
  if (session.request.cut_list && bought->purchase.outcome == Outcome::bought) {
    return {code, cuts_in_form(session, *bought, view, *own, session.diagnostics)};
  }
  if (bought->purchase.outcome != Outcome::bought) show_instead(session);
  if (session.request.format == Format::xlsx) {
    return {code, order_workbook(view, bought->units, session.request.today)};
  }
  const Page page{session.width, bought->units};
  std::optional<Comparison> others;
  if (session.request.why) others = compare_all(session, *bought, false);
  const auto why = [&] { return others ? why_text({bought->book, *others}, page) : std::string(); };
  const auto certified = [&] { return certificate ? written_text(*certificate, page) : std::string(); };
  const auto document = [&] {
    Json json = order_document(view, bought->units);
    if (others) json.set("why", compare_document({bought->book, *others}, bought->units));
    if (certificate) json.set("certificate", written_document(*certificate));
    return json;
  };
  const auto text = [&] {
    return order_text(view, page) + why() + certified() + next_steps(steps_after(session, *bought, works, kept));
  };
  return {code, in_form(
                    session, text, document, [&] { return order_csv(view, bought->units); },
                    [&] { return order_page(view, bought->units, *own, session.diagnostics); })};
}

}  // namespace teetally
