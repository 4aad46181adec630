#include "tool/commands.h"

namespace teetally {

Answer run_version(Session&) { return {ExitCode::done, "teetally " TEETALLY_VERSION "\n"}; }

}  // namespace teetally
