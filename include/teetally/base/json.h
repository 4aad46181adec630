#pragma once
// A small ordered JSON tree that every stage can build without naming the JSON library; text comes from
// to_text. Keys keep their order; numbers are integers or doubles; invalid UTF-8 is replaced on printing.
#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace teetally {

class Json {
 public:
  using Array = std::vector<Json>;
  using Object = std::vector<std::pair<std::string, Json>>;
  using Value = std::variant<std::nullptr_t, bool, std::int64_t, double, std::string, Array, Object>;

  Json() : value_(nullptr) {}
  Json(std::nullptr_t) : value_(nullptr) {}
  Json(bool b) : value_(b) {}
  Json(int n) : value_(static_cast<std::int64_t>(n)) {}
  Json(std::int64_t n) : value_(n) {}
  Json(std::size_t n) : value_(static_cast<std::int64_t>(n)) {}
  Json(double d) : value_(d) {}
  Json(const char* s) : value_(std::string(s)) {}
  Json(std::string s) : value_(std::move(s)) {}
  Json(Array a) : value_(std::move(a)) {}
  Json(Object o) : value_(std::move(o)) {}

  static Json object() { return Json(Object{}); }
  static Json array() { return Json(Array{}); }

  // Appends to an object (keys are given once) or to an array; answers *this so that calls chain.
  Json& set(std::string key, Json value);
  Json& push(Json value);

  const Value& value() const { return value_; }

 private:
  Value value_;
};

// One document without a final newline; indent < 0 prints one line.
std::string to_text(const Json& json, int indent = 2);

}  // namespace teetally
