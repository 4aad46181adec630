#pragma once
// One entry of `bundles:` becomes a RawBundle: contents and swaps still name skus, since an item may stand
// anywhere in the file.
#include "catalog/reading.h"

namespace teetally {

struct SkuReference {
  std::string sku;
  Place place;
};
struct RawSwap {
  SkuReference item;
  Money extra;
};
struct RawContent {
  std::optional<SkuReference> item;  // by sku,
  std::optional<Item> own;           // or by part: an item that only this bundle holds
  BundleContent content;             // item and swaps not yet filled in
  std::vector<RawSwap> swaps;
};
struct RawBundle {
  Bundle bundle;  // contents not yet filled in
  std::vector<RawContent> contents;
};

RawBundle read_bundle(const YamlNode& node, const Reading& reading);

}  // namespace teetally
