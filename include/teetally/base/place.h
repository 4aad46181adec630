#pragma once
// A Place points into a file a person wrote: line and column count from 1, columns in characters (Unicode
// code points), not bytes. A default Place points nowhere and prints as nothing.
#include <memory>
#include <string>
#include <string_view>

namespace teetally {

struct SourceText {
  std::string name;  // as the user named it
  std::string text;  // whole file, without a byte-order mark
};
using Source = std::shared_ptr<const SourceText>;

struct Place {
  Source source;
  int line = 0;
  int column = 0;
  bool known() const { return source != nullptr && line > 0; }
};

// "garden.yaml:12:5", or "" when unknown.
std::string to_string(const Place& place);
// The text of the line the place is on, without its end; "" when unknown.
std::string_view line_text(const Place& place);

}  // namespace teetally
