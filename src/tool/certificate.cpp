#include "tool/certificate.h"

#include <stdexcept>

#include "tool/suppliers.h"

namespace teetally {
namespace {

CertificateKept not_kept(Session& session, ExitCode code, const std::string& why) {
  session.diagnostics
      .warning("tool/no-certificate", {},
               "no certificate was written to " + quoted(printable(*session.request.certificate)) + ": " + why)
      .help = code == ExitCode::our_bug
                  ? "the order stands without it: it was priced and checked anew. This is a bug in "
                    "teetally: please report it with the files and the command"
                  : "the order stands without it; name another file";
  return {std::nullopt, code};
}

CertificateKept make_and_write(Session& session, const Bought& bought, const MakeCertificate& make) {
  const Request& request = session.request;
  CertifyWishes wishes;
  wishes.seconds = request.limits.seconds;
  wishes.stop = request.limits.stop;
  Certificate certificate = timed(session, "certify", [&] { return make(bought, request.limits, wishes); });
  std::vector<const Catalog*> catalogs;
  for (const auto& catalog : bought.book.catalogs) {
    catalogs.push_back(catalog.get());
    certificate.contents.push_back(content_of(*catalog));
  }
  Diagnostics wrong;
  const Verified verified = timed(session, "verify", [&] { return verify(certificate, catalogs, wrong); });
  if (wrong.has_errors()) throw std::logic_error("what was found is refused: " + wrong.in_order().front().message);
  write_file(*request.certificate, certificate_text(certificate, catalogs));
  return {WrittenCertificate{*request.certificate, verified, catalogs.front()->currency}, ExitCode::done};
}

}  // namespace

Certificate certificate_of(const Bought& bought, const BuyLimits& limits, const CertifyWishes& wishes) {
  return certify(bought.book, limits, bought.purchase, wishes);
}

CertificateKept keep_certificate(Session& session, const Bought& bought, const MakeCertificate& make) {
  if (!session.request.certificate || bought.purchase.outcome != Outcome::bought) return {};
  try {
    return make_and_write(session, bought, make);
  } catch (const std::logic_error& defect) {
    return not_kept(session, ExitCode::our_bug, defect.what());
  } catch (const WorldFailure& failure) {
    return not_kept(session, ExitCode::world_failed, failure.what());
  }
}

}  // namespace teetally
