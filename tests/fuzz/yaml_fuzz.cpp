// libFuzzer: any bytes through the YAML reader, the part reader and the vocabulary reader. Promises: no crash, no
// undefined behaviour, every complaint has a place, and the report is clean UTF-8.
#include <cstdint>
#include <cstdlib>

#include "teetally/base.h"

namespace teetally {
namespace {

void promise(bool holds) {
  if (!holds) std::abort();
}

void read_parts(const YamlNode& node, const Vocabulary& vocabulary, Diagnostics& diagnostics) {
  static const BareUnits bare{"ft", "gph", "psi", "gal"};
  if (node.kind == YamlNode::Kind::mapping) {
    Fields fields(node, "base", "a part", bare, diagnostics);
    if (const auto part = read_part(fields, vocabulary, bare, diagnostics)) {
      promise(!mismatch(*part, *part, vocabulary, UnitSystem::us));
      promise(is_valid_utf8(to_text(*part, UnitSystem::metric)));
    }
    for (const YamlEntry& entry : node.entries) {
      if (const auto length = fields.length(entry.key))
        promise(parse_length(to_text(*length, UnitSystem::us), bare).has_value());
      if (const auto flow = fields.flow(entry.key))
        promise(parse_flow(to_text(*flow, UnitSystem::us), bare).has_value());
    }
    fields.finish();
  }
  for (const YamlEntry& entry : node.entries) read_parts(entry.value, vocabulary, diagnostics);
  for (const YamlNode& item : node.items) read_parts(item, vocabulary, diagnostics);
}

void try_text(std::string text) {
  static const Vocabulary shipped = shipped_vocabulary();
  Diagnostics diagnostics;
  const YamlNode root = read_yaml(source_from_text("fuzz.yaml", std::move(text)), diagnostics);
  promise(root.kind != YamlNode::Kind::null || diagnostics.has_errors());
  read_parts(root, shipped, diagnostics);
  Vocabulary vocabulary = shipped;
  extend_vocabulary(vocabulary, root, diagnostics);
  for (const Diagnostic& entry : diagnostics.in_order()) promise(entry.place.known() && entry.place.column > 0);
  promise(is_valid_utf8(report_text(diagnostics)));
}

}  // namespace
}  // namespace teetally

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  teetally::try_text(std::string(reinterpret_cast<const char*>(bytes), size));
  return 0;
}
