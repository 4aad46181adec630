#include <algorithm>
#include <map>

#include "catalog/catalog_checks.h"

namespace teetally {

namespace {

constexpr std::size_t kLongestSku = 64;

// An order is written in skus, so each names one thing that can be put on an order line; an item and its own
// first pack may share one.
class SkuRegister {
 public:
  explicit SkuRegister(Diagnostics& diagnostics) : diagnostics_(diagnostics) {}

  void add(const std::string& sku, const std::string& what, const Place& place) {
    if (sku.empty()) return;  // complained about when read
    check_form(sku, what, place);
    const auto [entry, is_new] = first_.emplace(sku, place);
    if (is_new) return;
    Diagnostic& complaint = diagnostics_.error("catalog/duplicate-sku", place,
                                               what + " has the sku " + quoted(printable(sku)) + ", which is taken");
    complaint.help =
        "every item, pack and bundle of a catalog has a sku of its own; of the packs of one item "
        "only one may go without";
    complaint.notes.push_back({"first used here", entry->second});
  }

 private:
  void check_form(const std::string& sku, const std::string& what, const Place& place) {
    const bool control =
        std::any_of(sku.begin(), sku.end(), [](char c) { return static_cast<unsigned char>(c) < ' '; });
    if (!control && sku.size() <= kLongestSku) return;
    diagnostics_.error("catalog/bad-sku", place,
                       what + " needs a sku of 1 to 64 printable bytes, found " + quoted(printable(sku)));
  }

  Diagnostics& diagnostics_;
  std::map<std::string, Place> first_;
};

void add_packs(SkuRegister& skus, const Item& item) {
  bool own_taken = false;  // one pack may be known by the item's sku
  for (const Pack& pack : item.packs) {
    if (pack.sku == item.sku && !own_taken) {
      own_taken = true;
      continue;
    }
    skus.add(pack.sku, "a pack", pack.place);
  }
}

}  // namespace

void check_skus(const Catalog& catalog, Diagnostics& diagnostics) {
  SkuRegister skus(diagnostics);
  for (const Item& item : catalog.items) skus.add(item.sku, "an item", item.place);
  for (const Item& item : catalog.items) add_packs(skus, item);
  for (const Bundle& bundle : catalog.bundles) skus.add(bundle.sku, "a bundle", bundle.place);
}

}  // namespace teetally
