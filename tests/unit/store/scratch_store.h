#pragma once
// A folder for stores that a test may fill, and a small catalog to record in them.
#include <filesystem>
#include <string>

#include "places.h"
#include "teetally/store.h"
#include "teetally/store/prices.h"

namespace scratch {

namespace fs = std::filesystem;
using namespace teetally;

inline std::string folder(const std::string& name) {
  const fs::path path = fs::path(TEETALLY_BUILD_DIR) / "tests" / "scratch" / "store" / name;
  fs::remove_all(path);
  fs::create_directories(path);
  return path.string();
}

inline Catalog catalog(const std::string& tee_price, const std::string& more = "") {
  const std::string text =
      "teetally: catalog 1\nsupplier: {id: mill, name: Mill Parts}\ncurrency: USD\nitems:\n"
      "  - {sku: T1, name: Tee, part: {kind: tee, size: 1/2 in, branch size: 1/2 in}, grips: {inside: 0.600 in}, "
      "price: " +
      tee_price + "}\n" + more;
  Diagnostics diagnostics;
  auto read = read_catalog(source_from_text("mill.yaml", text), shipped_vocabulary(), diagnostics);
  if (!read) throw std::logic_error(report_text(diagnostics));
  return std::move(*read);
}

inline Store opened(const std::string& path, StoreUse use = StoreUse::write) {
  Diagnostics diagnostics;
  auto store = open_store(path, use, diagnostics);
  if (!store) throw std::logic_error(report_text(diagnostics));
  return std::move(*store);
}

// "2026-04-30..2026-05-02 0.65; 2026-06-01..2026-06-01 -"
inline std::string periods(const Store& store, const std::string& sku) {
  Diagnostics diagnostics;
  std::string out;
  for (const PriceHistory& history : price_history(store, sku, diagnostics)) {
    for (const PricePeriod& period : history.periods) {
      out += (out.empty() ? "" : "; ") + period.first_day + ".." + period.last_day + " " +
             (period.price ? to_string(*period.price, history.currency) : "-");
    }
  }
  return out;
}

}  // namespace scratch
