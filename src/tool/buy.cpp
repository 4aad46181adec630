#include "teetally/purchase/certify.h"
#include "teetally/render/verified.h"
#include "teetally/render/workbooks.h"
#include "tool/commands.h"
#include "tool/interrupt.h"
#include "tool/pipeline.h"
#include "tool/suppliers.h"
#include "tool/templates.h"

namespace teetally {
namespace {

std::string with_catalogs(const Session& session) {
  std::string text = " --catalogs";
  for (const std::string& path : session.request.catalogs) text += " " + path;
  return text;
}

std::vector<std::string> steps_after(const Session& session, const Bought& bought, bool works) {
  const std::string& file = session.request.arguments[0];
  if (!works) return {"teetally check " + file};
  if (bought.purchase.outcome != Outcome::bought) return {};
  std::vector<std::string> steps = {"teetally explain " + file + " N01" + with_catalogs(session),
                                    buy_words(session) + " --cut-list",
                                    buy_words(session) + " --format csv -o order.csv"};
  if (session.request.certificate) {
    steps.push_back("teetally verify " + *session.request.certificate + " " + file + with_catalogs(session));
  }
  return steps;
}

// The certificate asked for, written, and what it shows when it is followed as anybody would.
std::optional<WrittenCertificate> write_certificate(Session& session, const Bought& bought) {
  if (!session.request.certificate || bought.purchase.outcome != Outcome::bought) return std::nullopt;
  CertifyWishes wishes;
  wishes.seconds = session.request.limits.seconds;
  wishes.stop = session.request.limits.stop;
  Certificate certificate =
      timed(session, "certify", [&] { return certify(bought.book, session.request.limits, bought.purchase, wishes); });
  std::vector<const Catalog*> catalogs;
  for (const auto& catalog : bought.book.catalogs) {
    catalogs.push_back(catalog.get());
    certificate.contents.push_back(content_of(*catalog));
  }
  Diagnostics wrong;
  const Verified verified = timed(session, "verify", [&] { return verify(certificate, catalogs, wrong); });
  if (wrong.has_errors()) throw std::logic_error("a certificate is refused: " + wrong.in_order().front().message);
  write_file(*session.request.certificate, certificate_text(certificate, catalogs));
  return WrittenCertificate{*session.request.certificate, verified, catalogs.front()->currency};
}

}  // namespace

Answer run_buy(Session& session) {
  const auto own = templates_wanted(session);
  if (!own) return stopped(session);
  const StopOnInterrupt watch(session.request.limits);
  const auto bought = buy_all(session, session.request.arguments[0], session.request.near_misses);
  if (!bought) return stopped(session);
  note_stop(session, bought->purchase);
  const auto certificate = write_certificate(session, *bought);
  const OrderView view{bought->book, bought->purchase, bought->sized ? &*bought->sized : nullptr};
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
  const bool works = view.sized == nullptr || view.sized->verdict != Verdict::will_not_work;
  const bool answered = works && bought->purchase.outcome == Outcome::bought;
  if (session.request.cut_list && bought->purchase.outcome == Outcome::bought) {
    const ExitCode code = answered ? ExitCode::done : ExitCode::no_answer;
    if (session.request.format == Format::xlsx) {
      return {code, cut_list_workbook(view, bought->units, session.request.today)};
    }
    const std::string cuts = in_form(
        session, [&] { return cut_list_text(view, page); }, [&] { return cut_list_document(view, bought->units); },
        [&] { return cut_list_csv(view, bought->units); },
        [&] { return cut_list_page(view, bought->units, *own, session.diagnostics); });
    return {code, cuts};
  }
  if (bought->purchase.outcome != Outcome::bought) show_instead(session);
  if (session.request.format == Format::xlsx) {
    return {answered ? ExitCode::done : ExitCode::no_answer,
            order_workbook(view, bought->units, session.request.today)};
  }
  const std::string output = in_form(
      session,
      [&] { return order_text(view, page) + why() + certified() + next_steps(steps_after(session, *bought, works)); },
      document, [&] { return order_csv(view, bought->units); },
      [&] { return order_page(view, bought->units, *own, session.diagnostics); });
  return {answered ? ExitCode::done : ExitCode::no_answer, output};
}

}  // namespace teetally
