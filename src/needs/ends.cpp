#include "needs/ends.h"

#include <algorithm>

namespace teetally {
namespace {

bool has_attribute(const KindType& kind, const std::string& name) {
  return std::any_of(kind.attributes.begin(), kind.attributes.end(),
                     [&](const AttributeType& type) { return type.name == name; });
}

std::string only_word(const PartSpec& part, const std::string& attribute) {
  const auto found = part.attributes.find(attribute);
  if (found == part.attributes.end() || found->second.words.size() != 1) return "";
  return found->second.words.front();
}

}  // namespace

std::vector<std::string> sizes_of_ends(const PartSpec& part, const KindType& kind) {
  if (kind.by_length) {
    if (!has_attribute(kind, "size")) return {};
    return {only_word(part, "size")};
  }
  std::vector<std::string> sizes;
  for (const std::string& end : kind.ends) {
    const std::string own = end + " size";
    sizes.push_back(only_word(part, has_attribute(kind, own) ? own : "size"));
  }
  return sizes;
}

}  // namespace teetally
