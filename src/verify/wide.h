#pragma once
// Whole numbers wide enough for any product of a price, a rate and a count.
namespace teetally {

__extension__ using Wide = __int128;

}  // namespace teetally
