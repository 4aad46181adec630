#include "tool/units_of_file.h"

#include "teetally/base/units_written.h"

namespace teetally {

UnitSystem units_of_file(const Source& source) {
  Diagnostics ignored;  // whoever reads the file for its content reports what is wrong with it
  return units_written(read_yaml(source, ignored));
}

}  // namespace teetally
