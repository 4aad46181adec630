#pragma once
// What a part or an amount is, in the system of units in which it was most likely written: that whose text reads back
// as the same value, and of two such the rounder one. So 25 psi does not become 1.7 bar, nor 2 l/h 0.53 gph.
#include <string>

#include "teetally/base/part.h"

namespace teetally {

std::string as_written(const AttributeValue& value);
// "emitter, size 4 mm, flow 2 l/h"
std::string as_written(const PartSpec& spec);

}  // namespace teetally
