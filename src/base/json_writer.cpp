// The one file that names the JSON library.
#include <nlohmann/json.hpp>

#include "teetally/base/json.h"

namespace teetally {
namespace {

using Tree = nlohmann::ordered_json;

Tree to_tree(const Json& json);

struct Builder {
  Tree operator()(const Json::Array& array) const {
    Tree out = Tree::array();
    for (const Json& item : array) out.push_back(to_tree(item));
    return out;
  }
  Tree operator()(const Json::Object& object) const {
    // The library's ordered object looks a key up linearly on insertion, which large objects cannot afford;
    // our keys are given once by contract, so they are appended.
    Tree out = Tree::object();
    auto& entries = out.get_ref<Tree::object_t&>();
    entries.reserve(object.size());
    for (const auto& [key, value] : object) entries.Container::emplace_back(key, to_tree(value));
    return out;
  }
  template <typename Plain>
  Tree operator()(const Plain& value) const {
    return Tree(value);
  }
};

Tree to_tree(const Json& json) { return std::visit(Builder{}, json.value()); }

}  // namespace

std::string to_text(const Json& json, int indent) {
  return to_tree(json).dump(indent, ' ', false, Tree::error_handler_t::replace);
}

}  // namespace teetally
