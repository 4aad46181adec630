#include "teetally/base/vocabulary.h"

#include <cassert>

#include "teetally/base/shipped.h"

namespace teetally {

const KindType* Vocabulary::find(std::string_view kind) const {
  for (const KindType& known : kinds) {
    if (known.name == kind) return &known;
  }
  return nullptr;
}

std::vector<std::string> Vocabulary::kind_names() const {
  std::vector<std::string> names;
  for (const KindType& kind : kinds) names.push_back(kind.name);
  return names;
}

Vocabulary shipped_vocabulary() {
  Vocabulary vocabulary;
  Diagnostics diagnostics;
  const Source source = source_from_text("vocabulary.yaml", std::string(shipped_file("vocabulary.yaml")));
  const YamlNode root = read_yaml(source, diagnostics);
  extend_vocabulary(vocabulary, root, diagnostics);
  assert(!diagnostics.has_errors() && "the shipped vocabulary reads without errors");
  return vocabulary;
}

}  // namespace teetally
