#pragma once
// The user's mistakes are values. Readers and checks add Diagnostics and go on; the tool stops between
// stages when any error is present. One formatter gives the text form and the JSON form of the same object.
// Every slug ("design/unknown-key") has an entry in docs/diagnostics.md.
#include <string>
#include <string_view>
#include <vector>

#include "teetally/base/json.h"
#include "teetally/base/place.h"

namespace teetally {

enum class Severity { error, warning };

struct DiagnosticNote {
  std::string text;
  Place place;  // may point nowhere
};

struct Diagnostic {
  Severity severity = Severity::error;
  std::string slug;                   // "stage/what", a stable name
  Place place;                        // may point nowhere (a command-line mistake)
  std::string message;                // what is wrong, with what was found and what was expected
  std::string help;                   // what to do: nearest spelling, known words; may be empty
  std::vector<DiagnosticNote> notes;  // the chain that led here
};

class Diagnostics {
 public:
  // Both answer the new entry, which stands until the next is added, so that help and notes can be filled in.
  Diagnostic& error(std::string slug, Place place, std::string message);
  Diagnostic& warning(std::string slug, Place place, std::string message);
  void add(Diagnostic diagnostic);
  bool has_errors() const;
  // All entries, repeats once, in the order of their places (file as first seen, line, column), then as added.
  std::vector<Diagnostic> in_order() const;

 private:
  std::vector<Diagnostic> entries_;
};

// file:line:col: error: message [slug], the line, a caret, help and notes; ends with a newline.
std::string to_text(const Diagnostic& diagnostic);
Json to_json(const Diagnostic& diagnostic);

}  // namespace teetally
