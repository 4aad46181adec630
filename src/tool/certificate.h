#pragma once
// A certificate of an order just found, followed as anybody would before it is written. Whatever comes of it, the order
// stands by itself: it was re-priced and re-checked, so it is shown all the same.
#include <functional>
#include <optional>

#include "teetally/purchase/certify.h"
#include "teetally/render/verified.h"
#include "tool/pipeline.h"

namespace teetally {

// Who makes the certificate; a test makes a false one.
using MakeCertificate = std::function<Certificate(const Bought&, const BuyLimits&, const CertifyWishes&)>;
Certificate certificate_of(const Bought& bought, const BuyLimits& limits, const CertifyWishes& wishes);

struct CertificateKept {
  std::optional<WrittenCertificate> written;
  ExitCode code = ExitCode::done;  // how the command ends where one was asked for and none could be written
};
// None is asked for, or of no order: nothing is written and nothing is wrong. What is wrong is said as a warning.
CertificateKept keep_certificate(Session& session, const Bought& bought, const MakeCertificate& make);

}  // namespace teetally
