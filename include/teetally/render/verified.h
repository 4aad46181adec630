#pragma once
// What following a certificate showed, and what a certificate that was just written will show.
#include "teetally/render.h"
#include "teetally/verify.h"

namespace teetally {

struct VerifiedView {
  const Verified& verified;
  Currency currency;
  bool needs_checked = false;                   // needs and what serves them were worked out anew
  std::string needs_from;                       // the file they came from
  std::vector<std::string> changed_catalogs{};  // suppliers whose catalog is not that of the certificate
};
std::string verified_text(const VerifiedView& view, const Page& page);
Json verified_document(const VerifiedView& view);  // "teetally/verified"

struct WrittenCertificate {
  std::string file;
  Verified verified;
  Currency currency;
};
std::string written_text(const WrittenCertificate& written, const Page& page);
Json written_document(const WrittenCertificate& written);

}  // namespace teetally
