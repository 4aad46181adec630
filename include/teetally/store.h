#pragma once
// What accumulates is kept in one SQLite file: recorded prices, quotes, parts on hand. Here the file is opened, made
// new or brought up to date, and backed up; what is kept in it has headers of its own in teetally/store/. Days are
// given as ISO dates; the store has no clock. A failure of the disk, of the file or of its locks is a WorldFailure;
// what was committed before stays, and nothing of what was under way is seen. Tables: docs/store.md.
#include <memory>
#include <optional>
#include <string>

#include "teetally/base.h"

namespace teetally {

class Database;

// An open store. It may be read by many at once and is written by one at a time; others wait for a while.
class Store {
 public:
  explicit Store(std::unique_ptr<Database> database);
  Store(Store&&) noexcept;
  Store& operator=(Store&&) noexcept;
  ~Store();
  Database& database() const { return *database_; }  // for the store's own files

 private:
  std::unique_ptr<Database> database_;
};

enum class StoreUse { read, write };

// For `write` the file and its folder are made when they are not there; for `read` a missing file is the error
// store/no-store. A file that is no store (store/not-a-store) or that a later version made (store/newer) is refused
// untouched. One that an earlier version made is copied beside itself ("FILE.version-1") and then brought up to date.
std::optional<Store> open_store(const std::string& path, StoreUse use, Diagnostics& diagnostics);

// The whole store as one file of its own; a file of that name is replaced, whole or not at all.
void back_up(const Store& store, const std::string& path);

// 64 hexadecimal digits that are those of these bytes alone (SHA-256, FIPS 180-4).
std::string content_hash(std::string_view bytes);

}  // namespace teetally
