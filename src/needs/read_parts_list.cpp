#include <string_view>

#include "needs/file_form.h"
#include "needs/parts_list.h"
#include "needs/parts_list_csv.h"

namespace teetally {
namespace {

// The file's name without its folder and ending.
std::string name_from(std::string_view path) {
  const std::size_t slash = path.find_last_of('/');
  if (slash != std::string_view::npos) path.remove_prefix(slash + 1);
  return std::string(path.substr(0, path.find_last_of('.')));
}

}  // namespace

std::optional<Takeoff> read_parts_list(const Source& source, const Vocabulary& vocabulary, Diagnostics& diagnostics) {
  Diagnostics own;
  std::optional<Takeoff> takeoff;
  const YamlNode root = is_csv(source) ? csv_as_tree(source, vocabulary, own) : read_yaml(source, own);
  if (root.kind == YamlNode::Kind::null && !own.has_errors()) {
    own.error("needs/no-parts", {source, 1, 1}, "the list is empty").help =
        "start a YAML list with 'teetally: parts list 1', a CSV list with a header row: kind,count,length,size";
  } else if (root.kind != YamlNode::Kind::null) {
    const auto list = read_parts(root, vocabulary, own);
    if (list) takeoff = as_takeoff(*list, vocabulary, own);
  }
  if (takeoff && takeoff->name.empty()) takeoff->name = name_from(source->name);
  for (Diagnostic& diagnostic : own.in_order()) diagnostics.add(std::move(diagnostic));
  return takeoff;
}

}  // namespace teetally
