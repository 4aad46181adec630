#pragma once
// Small pictures of figures for pages, as SVG to be put inline: each has a title and a description that say the same in
// words, and no figure is told by colour alone.
#include <string>
#include <vector>

#include "teetally/base.h"
#include "teetally/hydraulics.h"
#include "teetally/purchase.h"

namespace teetally {

// How the total comes about: a bar for each kind of cost over all suppliers, with its amount. Nothing without orders.
std::string cost_picture(const std::vector<SupplierOrder>& orders, const Currency& currency);

// The pressure from the head to the outlet that fares worst, by the way along the tubing. Nothing for a zone without a
// way of two points.
std::string pressure_picture(const ZoneHydraulics& zone, const std::string& name, UnitSystem units);

}  // namespace teetally
