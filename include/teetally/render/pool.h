#pragma once
// A pooled order as something to read: what the pool saves, who pays what and why, what is left over.
#include "teetally/quote/hand_out.h"
#include "teetally/render.h"

namespace teetally {

// `steps` are what more plots would reach.
std::string pool_text(const PoolResult& result, const std::vector<NextStep>& steps, const Page& page);
Json pool_document(const PoolResult& result, UnitSystem units);  // "teetally/pool"
std::string pool_csv(const PoolResult& result);                  // a row per plot
// How one plot's share comes about, in four lines; nothing when no plot is called that.
std::optional<std::string> share_text(const PoolResult& result, const std::string& plot, const Page& page);

}  // namespace teetally
