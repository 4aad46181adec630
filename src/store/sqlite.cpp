// The one file that names SQLite.
#include "store/sqlite.h"

#include <sqlite3.h>

#include <algorithm>
#include <chrono>
#include <cstring>
#include <filesystem>
#include <thread>

namespace teetally {
namespace {

constexpr int kPatience = 10'000;  // milliseconds that another process may keep us waiting

std::string reason(sqlite3* database, int code) {
  const int system = database == nullptr ? 0 : sqlite3_system_errno(database);
  switch (code & 0xff) {
    case SQLITE_FULL:
      return "no space is left for it";
    case SQLITE_READONLY:
      return "it can be read but not written";
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return "another program kept it busy for too long; try again";
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return "the file is damaged; go back to a backup of it";
    case SQLITE_IOERR:
    case SQLITE_CANTOPEN:
      if (system != 0) return std::string(sqlite3_errstr(code)) + " (" + std::strerror(system) + ")";
      return sqlite3_errstr(code);
    default:
      return database == nullptr ? sqlite3_errstr(code) : sqlite3_errmsg(database);
  }
}

[[noreturn]] void fail(sqlite3* database, const std::string& file, int code) {
  const std::string text = "cannot use the store " + quoted(printable(file)) + ": " + reason(database, code);
  if ((code & 0xff) == SQLITE_BUSY || (code & 0xff) == SQLITE_LOCKED) throw StoreBusy(text);
  throw WorldFailure(text);
}

int flags_of(Database::Access access) {
  const int common = SQLITE_OPEN_EXRESCODE | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_URI;
  if (access == Database::Access::write) return common | SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
  if (access == Database::Access::frozen) return common | SQLITE_OPEN_READONLY;
  return common |
         SQLITE_OPEN_READWRITE;  // so that the last one to leave tidies up; SQLite reads where it must not write
}

// The path as a URI, so that a file may be declared frozen; whatever means something in a URI is escaped.
std::string uri_of(const std::string& path, Database::Access access) {
  static const char* const kHex = "0123456789ABCDEF";
  std::string uri = "file:";
  for (const char c : std::filesystem::absolute(path).string()) {
    if (c == '%' || c == '?' || c == '#') {
      uri += {'%', kHex[static_cast<unsigned char>(c) >> 4], kHex[static_cast<unsigned char>(c) & 15]};
    } else {
      uri += c;
    }
  }
  return access == Database::Access::frozen ? uri + "?immutable=1" : uri;
}

int bind(sqlite3_stmt* statement, int index, const Cell& cell) {
  if (const auto* number = std::get_if<std::int64_t>(&cell)) return sqlite3_bind_int64(statement, index, *number);
  if (const auto* text = std::get_if<std::string_view>(&cell)) {
    return sqlite3_bind_text64(statement, index, text->empty() ? "" : text->data(), text->size(), SQLITE_TRANSIENT,
                               SQLITE_UTF8);
  }
  if (const auto* bytes = std::get_if<Bytes>(&cell)) {
    return sqlite3_bind_blob64(statement, index, bytes->text.empty() ? "" : bytes->text.data(), bytes->text.size(),
                               SQLITE_TRANSIENT);
  }
  return sqlite3_bind_null(statement, index);
}

}  // namespace

void patiently(const std::function<void()>& work) {
  const auto start = std::chrono::steady_clock::now();
  for (auto pause = std::chrono::milliseconds(1);; pause = std::min(2 * pause, std::chrono::milliseconds(50))) {
    try {
      return work();
    } catch (const StoreBusy&) {
      if (std::chrono::steady_clock::now() - start > std::chrono::milliseconds(kPatience)) throw;
    }
    std::this_thread::sleep_for(pause);
  }
}

Cell cell(const std::optional<std::string>& text) {
  if (!text) return nullptr;
  return std::string_view(*text);
}

Statement::Statement(sqlite3* database, std::string file, std::string_view sql)
    : database_(database), file_(std::move(file)) {
  const int code = sqlite3_prepare_v2(database, sql.data(), static_cast<int>(sql.size()), &statement_, nullptr);
  if (code != SQLITE_OK) fail(database_, file_, code);
}

Statement::~Statement() { sqlite3_finalize(statement_); }

Statement& Statement::with(std::initializer_list<Cell> cells) {
  sqlite3_reset(statement_);
  int index = 0;
  for (const Cell& one : cells) {
    if (const int code = bind(statement_, ++index, one); code != SQLITE_OK) fail(database_, file_, code);
  }
  return *this;
}

bool Statement::next() {
  const int code = sqlite3_step(statement_);
  if (code == SQLITE_ROW) return true;
  sqlite3_reset(statement_);
  if (code != SQLITE_DONE) fail(database_, file_, code);
  return false;
}

void Statement::run() {
  while (next()) continue;
}

bool Statement::is_null(int column) const { return sqlite3_column_type(statement_, column) == SQLITE_NULL; }
std::int64_t Statement::number(int column) const { return sqlite3_column_int64(statement_, column); }
std::string Statement::text(int column) const { return std::string(bytes(column)); }

std::optional<std::string> Statement::text_if_any(int column) const {
  if (is_null(column)) return std::nullopt;
  return text(column);
}

std::string_view Statement::bytes(int column) const {
  const void* start = sqlite3_column_blob(statement_, column);
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_, column));
  return start == nullptr ? std::string_view() : std::string_view(static_cast<const char*>(start), size);
}

Database::Database(std::string path, Access access) : path_(std::move(path)) {
  const int code = sqlite3_open_v2(uri_of(path_, access).c_str(), &database_, flags_of(access), nullptr);
  if (code != SQLITE_OK) {
    const std::string why = reason(database_, code);
    sqlite3_close(database_);
    throw WorldFailure("cannot open the store " + quoted(printable(path_)) + ": " + why);
  }
  sqlite3_busy_timeout(database_, kPatience);
  if (access != Access::write) sqlite3_exec(database_, "PRAGMA query_only = ON", nullptr, nullptr, nullptr);
}

Database::~Database() { sqlite3_close(database_); }

void Database::run(const std::string& script) {
  const int code = sqlite3_exec(database_, script.c_str(), nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) fail(database_, path_, code);
}

Statement Database::statement(std::string_view sql) { return {database_, path_, sql}; }

std::int64_t Database::number(std::string_view sql) {
  Statement query = statement(sql);
  return query.next() ? query.number(0) : 0;
}

std::int64_t Database::last_row() const { return sqlite3_last_insert_rowid(database_); }

void Database::copy_to(const std::string& path) {
  namespace fs = std::filesystem;
  const std::string beside = path + ".part";
  std::error_code ignored;
  fs::remove(beside, ignored);
  try {
    Database copy(beside, Access::write);
    sqlite3_backup* backup = sqlite3_backup_init(copy.database_, "main", database_, "main");
    if (backup == nullptr) fail(copy.database_, beside, sqlite3_errcode(copy.database_));
    sqlite3_backup_step(backup, -1);
    const int code = sqlite3_backup_finish(backup);
    if (code != SQLITE_OK) fail(copy.database_, beside, code);
    copy.run("PRAGMA journal_mode = DELETE");  // one file, nothing beside it
  } catch (const WorldFailure&) {
    fs::remove(beside, ignored);
    throw;
  }
  std::error_code failure;
  fs::rename(beside, path, failure);
  if (failure) {
    fs::remove(beside, ignored);
    throw WorldFailure("cannot write " + quoted(printable(path)) + ": " + failure.message());
  }
}

Transaction::Transaction(Database& database) : database_(database) { database_.run("BEGIN IMMEDIATE"); }

Transaction::~Transaction() {
  if (!open_) return;
  try {
    database_.run("ROLLBACK");
  } catch (const WorldFailure&) {
    return;  // the library has undone it already
  }
}

void Transaction::commit() {
  database_.run("COMMIT");
  open_ = false;
}

}  // namespace teetally
