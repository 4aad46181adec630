#pragma once
// The values that pages are filled with; each is like the names of its paper.
#include <string>
#include <vector>

#include "teetally/render/papers.h"

namespace teetally {

Json order_page_values(const OrderView& view, UnitSystem units);
Json cut_list_page_values(const OrderView& view, UnitSystem units);

Json plain_texts(const std::vector<std::string>& texts);  // a list whose entries print with {{.}}
std::string page_title(const std::string& name, std::string_view otherwise);
Json joins_values(const OrderView& view, UnitSystem units);

}  // namespace teetally
