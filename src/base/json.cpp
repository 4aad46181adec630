#include "teetally/base/json.h"

#include <cassert>

namespace teetally {

Json& Json::set(std::string key, Json value) {
  assert(std::holds_alternative<Object>(value_) && "set belongs to objects");
  std::get<Object>(value_).emplace_back(std::move(key), std::move(value));
  return *this;
}

Json& Json::push(Json value) {
  assert(std::holds_alternative<Array>(value_) && "push belongs to arrays");
  std::get<Array>(value_).push_back(std::move(value));
  return *this;
}

}  // namespace teetally
