#pragma once
// SQLite as the store uses it: a database, statements with their values, and transactions that end undone unless
// they are committed. Whatever the library or the disk refuses is a WorldFailure that names the file.
#include <cstdint>
#include <functional>
#include <initializer_list>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "teetally/base.h"

struct sqlite3;
struct sqlite3_stmt;

namespace teetally {

// Another process held the file for longer than it is polite to wait, or SQLite would not wait for it at all.
class StoreBusy : public WorldFailure {
 public:
  using WorldFailure::WorldFailure;
};

// Does `work` again, for as long as another process may keep us waiting, while it fails with StoreBusy. SQLite itself
// waits for a lock, but not where a reader would become the writer, as the change to write-ahead logging asks for.
void patiently(const std::function<void()>& work);

struct Bytes {
  std::string_view text;
};
using Cell = std::variant<std::nullptr_t, std::int64_t, std::string_view, Bytes>;
Cell cell(const std::optional<std::string>& text);

class Statement {
 public:
  Statement(sqlite3* database, std::string file, std::string_view sql);
  ~Statement();
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;

  // Binds values to ?1, ?2, ...; a statement may be used again with others.
  Statement& with(std::initializer_list<Cell> cells);
  bool next();  // a row is there to read
  void run();   // for statements that answer no rows

  bool is_null(int column) const;
  std::int64_t number(int column) const;
  std::string text(int column) const;
  std::optional<std::string> text_if_any(int column) const;
  std::string_view bytes(int column) const;  // valid until the next row

 private:
  sqlite3* database_;
  std::string file_;
  sqlite3_stmt* statement_ = nullptr;
};

class Database {
 public:
  enum class Access { read, frozen, write };  // frozen: a file that nobody can write, in a folder nobody can write

  // With `write` the file is made when it is not there.
  Database(std::string path, Access access);
  ~Database();
  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;

  const std::string& path() const { return path_; }
  void run(const std::string& script);
  std::int64_t number(std::string_view sql);  // the one number that a query answers
  Statement statement(std::string_view sql);
  std::int64_t last_row() const;
  // A copy of all that is committed, as one file, replaced whole or not at all.
  void copy_to(const std::string& path);

 private:
  std::string path_;
  sqlite3* database_ = nullptr;
};

// Holds the only right to write until its end.
class Transaction {
 public:
  explicit Transaction(Database& database);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  Database& database_;
  bool open_ = true;
};

}  // namespace teetally
