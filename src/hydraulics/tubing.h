#pragma once
// The tubing of a garden as numbers: each leg's inside diameter and the velocity heads lost in its fittings.
#include <string>
#include <vector>

#include "teetally/hydraulics.h"

namespace teetally::hydraulics {

const NominalSize* find_size(const Practice& practice, const std::string& name);

// The inside diameter of a nominal size, in metres: what the practice says, else the name read as a measure
// ("5/8 in" is 0.625 in), else half an inch. check_sizes() warns of the second and third.
double inside_of(const Practice& practice, const std::string& size);
void check_sizes(const Garden& garden, const Practice& practice, Diagnostics& diagnostics);

std::vector<double> insides_of_legs(const Garden& garden, const Practice& practice);

// Velocity heads lost in fittings and devices, counted in the leg that water enters after them.
std::vector<double> fitting_losses(const Garden& garden, double barb_loss);

}  // namespace teetally::hydraulics
