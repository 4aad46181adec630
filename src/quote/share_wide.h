#pragma once
// Products of prices and amounts that leave 64 bits before they are divided again.
namespace teetally {

__extension__ typedef __int128 Wide;

}  // namespace teetally
