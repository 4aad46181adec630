#include "teetally/store/large_catalogs.h"

#include "store/catalog_bytes.h"
#include "store/sqlite.h"

namespace teetally {

std::string reading_mark(const std::string& program, const Vocabulary& vocabulary) {
  std::string text = program + "\n" + std::to_string(kCatalogForm) + "\n";
  const auto add = [&](std::string_view word) { text += std::to_string(word.size()) + ":" + std::string(word); };
  for (const KindType& kind : vocabulary.kinds) {
    add(kind.name);
    text += kind.by_length ? "l" : "p";
    text += kind.open ? "o" : "c";
    for (const std::string& end : kind.ends) add(end);
    for (const AttributeType& type : kind.attributes) {
      add(type.name);
      text += std::to_string(static_cast<int>(type.dimension)) + "/" + std::to_string(static_cast<int>(type.match));
    }
    text += "\n";
  }
  return content_hash(text);
}

std::optional<Catalog> remembered_catalog(const Store& store, const Source& source, const std::string& mark) {
  Statement query = store.database().statement("SELECT hash, bytes FROM reading WHERE file = ?1 AND mark = ?2");
  if (!query.with({content_hash(source->text), mark}).next()) return std::nullopt;
  const std::string hash = query.text(0);
  const std::string_view bytes = query.bytes(1);
  if (content_hash(bytes) != hash) return std::nullopt;  // damaged: the file is read anew
  return catalog_from_bytes(bytes, source);
}

void remember_catalog(Store& store, const Catalog& catalog, const std::string& mark) {
  Database& database = store.database();
  const std::string bytes = to_bytes(catalog);
  Transaction transaction(database);
  database.statement("INSERT OR REPLACE INTO reading (file, mark, hash, bytes) VALUES (?1, ?2, ?3, ?4)")
      .with({content_hash(catalog.source->text), mark, content_hash(bytes), Bytes{bytes}})
      .run();
  database.statement("DELETE FROM reading WHERE id NOT IN (SELECT id FROM reading ORDER BY id DESC LIMIT ?1)")
      .with({std::int64_t{kMostRemembered}})
      .run();
  transaction.commit();
}

}  // namespace teetally
