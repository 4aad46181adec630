#pragma once
// Edits gathered for one change. What was written once (a repeated bed, settings taken by `like`) is told once.
#include <string>
#include <utility>
#include <vector>

#include "teetally/hydraulics.h"

namespace teetally::hydraulics {

using Mark = std::pair<int, int>;  // line and column: what was written once is changed once
inline Mark mark_of(const Place& place) { return {place.line, place.column}; }

class EditList {
 public:
  void add(const std::string& of, const Place& place, const std::string& text) {
    for (Edit& edit : edits_) {
      if (place.known() && mark_of(edit.place) == mark_of(place) && edit.text == text) return;
    }
    edits_.push_back({"design", of, place, false, text});
  }
  void add_item(const std::string& list, const Place& after, const std::string& text) {
    edits_.push_back({"design", list, after, true, text});
  }
  std::vector<Edit> take() { return std::move(edits_); }
  bool empty() const { return edits_.empty(); }

 private:
  std::vector<Edit> edits_;
};

}  // namespace teetally::hydraulics
