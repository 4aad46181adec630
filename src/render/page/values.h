#pragma once
// The values that pages are filled with; each is like the names of its paper.
#include <string>
#include <vector>

#include "teetally/render/papers.h"
#include "teetally/render/pool_pages.h"

namespace teetally {

Json order_page_values(const OrderView& view, UnitSystem units);
Json cut_list_page_values(const OrderView& view, UnitSystem units);
Json parts_page_values(const Takeoff& takeoff, const SizedGarden* sized, UnitSystem units);
Json van_list_page_values(const Takeoff& takeoff, UnitSystem units);
Json plan_page_values(const PlanSubject& subject, PlanLayer layer, UnitSystem units);
Json run_card_page_values(const RunCard& card, UnitSystem units);
Json comparison_page_values(const CompareView& view, UnitSystem units);
Json quote_page_values(const CustomerCopy& copy);
Json internal_quote_page_values(const Quote& quote);

Json pool_page_values(const PoolResult& result, const std::vector<NextStep>& steps, UnitSystem units);
Json picks_page_values(const PaperView& view, UnitSystem units);
Json packing_page_values(const PaperView& view, UnitSystem units);
Json statements_page_values(const PaperView& view);
Json round_page_values(const LedgerView& view);

Json plain_texts(const std::vector<std::string>& texts);  // a list whose entries print with {{.}}
std::string page_title(const std::string& name, std::string_view otherwise);
Json joins_values(const OrderView& view, UnitSystem units);

}  // namespace teetally
