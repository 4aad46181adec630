#pragma once
// Which form a file of this stage has, by the ending of its name: ".csv" in any case is CSV, all else is YAML.
#include "teetally/base.h"

namespace teetally {

bool is_csv(const Source& source);

}  // namespace teetally
