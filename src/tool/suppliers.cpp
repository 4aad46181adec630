#include "tool/suppliers.h"

#include "teetally/catalog/read_with.h"
#include "teetally/store.h"
#include "teetally/store/large_catalogs.h"
#include "teetally/store/stock.h"
#include "tool/store_file.h"

namespace teetally {
namespace {

// What the user asked for is not the store: its complaints are kept from them here.
template <typename Use>
void with_store(const std::string& path, StoreUse use, Use with) {
  if (path.empty()) return;
  try {
    Diagnostics unheard;
    if (auto store = open_store(path, use, unheard)) with(*store);
  } catch (const WorldFailure&) {
    return;
  }
}

std::optional<Catalog> read_large(const std::string& store_path, const Source& source, const Vocabulary& vocabulary,
                                  Diagnostics& diagnostics) {
  const std::string mark = reading_mark(TEETALLY_VERSION, vocabulary);
  std::optional<Catalog> catalog;
  with_store(store_path, StoreUse::read, [&](Store& store) { catalog = remembered_catalog(store, source, mark); });
  if (catalog) return catalog;
  Diagnostics found;
  catalog = read_catalog(source, vocabulary, found);
  const std::vector<Diagnostic> messages = found.in_order();
  for (const Diagnostic& message : messages) diagnostics.add(message);
  if (catalog && messages.empty()) {
    with_store(store_path, StoreUse::write, [&](Store& store) { remember_catalog(store, *catalog, mark); });
  }
  return catalog;
}

}  // namespace

std::vector<Catalog> read_suppliers(Session& session, const std::vector<std::string>& paths,
                                    const Vocabulary& vocabulary) {
  const CatalogReader reader = [&](const Source& source, Diagnostics& diagnostics) {
    if (source->text.size() < kLargeCatalog) return read_catalog(source, vocabulary, diagnostics);
    return read_large(session.request.store, source, vocabulary, diagnostics);
  };
  return read_catalogs_with(reader, paths, session.request.today, session.diagnostics);
}

void add_stock(Session& session, std::vector<Catalog>& catalogs) {
  const auto store = open_store(session, StoreUse::read);
  if (!store) return;
  Catalog stock = stock_as_catalog(*store, catalogs.front().currency);
  if (stock.items.empty()) return;
  if (!session.request.limits.only_suppliers.empty()) session.request.limits.only_suppliers.push_back(stock.id);
  catalogs.push_back(std::move(stock));
}

std::string content_of(const Catalog& catalog) {
  return catalog.source && catalog.id != kOnHandId ? content_hash(catalog.source->text) : "-";
}

}  // namespace teetally
