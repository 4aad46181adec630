#pragma once
// `buy`, with whoever makes the certificate given from outside: so a test can give one that makes a false certificate.
#include "tool/certificate.h"

namespace teetally {

Answer buy_and_certify(Session& session, const MakeCertificate& make);

}  // namespace teetally
