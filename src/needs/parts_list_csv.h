#pragma once
// A parts list in CSV as the tree that the same list has in YAML, so that one reader checks both: the header
// row gives the keys, every further row is a part, empty cells are absent. A header cell may state a unit for
// bare numbers ("length (ft)"); a cell with "|" between words is a list. Kind null when the file is too damaged
// to have rows; `diagnostics` holds this file's entries only.
#include "teetally/base.h"

namespace teetally {

YamlNode csv_as_tree(const Source& source, const Vocabulary& vocabulary, Diagnostics& diagnostics);

}  // namespace teetally
