#include "teetally/verify.h"

#include "teetally/purchase/certify.h"
#include "teetally/render/verified.h"
#include "tool/commands.h"
#include "tool/pipeline.h"
#include "tool/suppliers.h"

namespace teetally {
namespace {

// The limits a certificate speaks of.
BuyLimits limits_of(const OrderQuestion& question) {
  BuyLimits limits;
  limits.only_suppliers = question.only;
  limits.avoid_suppliers = question.avoid;
  if (question.most_suppliers) limits.most_suppliers = static_cast<int>(*question.most_suppliers);
  limits.no_bundles = question.no_bundles;
  limits.take_bundle = question.take_bundle;
  return limits;
}

// The first thing that differs, in words.
std::string difference(const OrderQuestion& stated, const OrderQuestion& found) {
  if (stated.needs.size() != found.needs.size()) {
    return counted(static_cast<std::int64_t>(stated.needs.size()), "need") + " stated, " +
           std::to_string(found.needs.size()) + " found";
  }
  for (std::size_t n = 0; n < found.needs.size(); ++n) {
    if (stated.needs[n] == found.needs[n]) continue;
    return "stated is " + quoted(printable(stated.needs[n].id)) + " with an amount of " +
           std::to_string(stated.needs[n].amount) + ", found is " + quoted(printable(found.needs[n].id)) + " with " +
           std::to_string(found.needs[n].amount);
  }
  return "the needs are the same, but not which items serve them";
}

// Works out needs and offers from the file and compares. False when the pipeline has to stop.
bool needs_are_those(Session& session, const std::string& path, const CertificateFile& file) {
  auto listed = list_needs(session, path);
  if (!listed) return false;
  std::vector<Catalog> catalogs;
  for (const Catalog* catalog : file.catalogs) catalogs.push_back(*catalog);
  const OfferBook book =
      find_offers(std::move(listed->takeoff), std::move(catalogs), listed->vocabulary, {}, listed->units);
  const OrderQuestion& stated = file.certificate.question;
  const OrderQuestion found = question_of(book, limits_of(stated));
  if (found == stated) return true;
  session.diagnostics
      .error("verify/other-needs", {},
             "the certificate is not about " + quoted(printable(path)) + ": " + difference(stated, found))
      .help = "name the file, its parameters and its practice file as they were when the certificate was made";
  return false;
}

// Suppliers whose catalog is not, byte by byte, the one that the certificate was made from. All that is shown holds for
// the catalogs given, so this is told and nothing is refused.
std::vector<std::string> changed_catalogs(const CertificateFile& file, Diagnostics& diagnostics) {
  std::vector<std::string> changed;
  for (std::size_t s = 0; s < file.certificate.contents.size(); ++s) {
    const std::string& stated = file.certificate.contents[s];
    if (stated == "-" || stated == content_of(*file.catalogs[s])) continue;
    changed.push_back(file.catalogs[s]->id);
    diagnostics
        .warning("verify/changed-catalog", file.certificate.contents_place,
                 "the catalog of " + quoted(printable(changed.back())) +
                     " is not the one that the certificate was made from")
        .help = "what is shown holds for the catalogs as given; for those of the day, name these";
  }
  return changed;
}

}  // namespace

Answer run_verify(Session& session) {
  const auto vocabulary = read_vocabulary(session);
  if (!vocabulary) return stopped(session);
  const auto catalogs = catalogs_of(session, *vocabulary);
  if (!catalogs) return stopped(session);
  const std::vector<std::string>& arguments = session.request.arguments;
  const Source source = read_input(arguments[0], session.diagnostics);
  if (!source) return stopped(session);
  const auto file =
      timed(session, "certificate", [&] { return read_certificate(source, *catalogs, session.diagnostics); });
  if (!file) return stopped(session);
  const std::vector<std::string> changed = changed_catalogs(*file, session.diagnostics);
  const bool anew = arguments.size() > 1;
  if (anew && !needs_are_those(session, arguments[1], *file)) return stopped(session);
  const Verified verified =
      timed(session, "verify", [&] { return verify(file->certificate, file->catalogs, session.diagnostics); });
  if (session.diagnostics.has_errors()) return stopped(session);
  const VerifiedView view{verified, catalogs->front().currency, anew, anew ? arguments[1] : std::string(), changed};
  const Page page{session.width, session.request.units.value_or(UnitSystem::us)};
  const auto text = [&] { return verified_text(view, page); };
  return {ExitCode::done, in_form(
                              session, text, [&] { return verified_document(view); }, text)};
}

}  // namespace teetally
