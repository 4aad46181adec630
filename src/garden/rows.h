#pragma once
// Rows side by side with what feeds them: beds and tape rows are both laid out from this.
#include <string>
#include <vector>

#include "garden/draft.h"

namespace teetally::garden {

struct RowSpan {
  Point start, end;
};

struct RowBlock {
  std::string what;  // "bed 'tomatoes'"
  int element = -1;
  std::vector<RowSpan> rows;  // in order across the header
  DripTubing tubing;
  Point outward;  // from the header's line to the side of the bed, level; zero when there is no bed
  Length rise;    // of the side above the ground
  FeedAt feed_at = FeedAt::nearest_end;
  Anchor feed;
  std::string rows_from;  // a line, when there is no header
  std::string header_size;
  bool valve = false;
  bool existing = false;
  Place place;
};

void draft_rows(const RowBlock& block, const Laying& laying);

// Positions across a width: `count` of them, or as many as `spacing` allows, `inset` from the edges.
std::vector<Length> row_positions(Length width, std::optional<std::int64_t> count, std::optional<Length> spacing,
                                  Length inset);
std::int64_t emitters_on(Length row, Length spacing, const Practice& practice);

}  // namespace teetally::garden
