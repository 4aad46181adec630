#pragma once
// Small pictures of figures for pages, as SVG to be put inline. They are as wide as the page lets them be, and words in
// them stay as large as the page's own. Each has a title that says the same in words, and parts differ in shape, not by
// colour alone.
#include <string>
#include <string_view>
#include <vector>

#include "teetally/base.h"
#include "teetally/hydraulics.h"
#include "teetally/purchase.h"

namespace teetally {

OrderCost cost_of(const Purchase& purchase);  // over all suppliers

// How a total comes about: goods less discount as a full bar, shipping and fees hollow, tax as a low bar. Its length is
// to that of other bars as `cost.total` is to `most`.
std::string cost_bar(const OrderCost& cost, Money most, const Currency& currency);
// What the parts of such a bar stand for, each with a sample.
struct BarPart {
  std::string sample;  // SVG
  std::string_view words;
};
std::vector<BarPart> cost_bar_parts();

// One amount among others.
std::string amount_bar(Money amount, Money most, const Currency& currency);

// The pressure on the way to the outlet that fares worst, by the length along the tubing. Nothing where there is no way
// of two points.
std::string pressure_picture(const ZoneHydraulics& zone, UnitSystem units);
// The ends of such a way, and between them the points before which most pressure goes.
std::vector<const PathPoint*> points_to_show(const std::vector<PathPoint>& path);

}  // namespace teetally
