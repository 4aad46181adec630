#include "store/open_store.h"

#include <filesystem>
#include <fstream>

#include "store/sqlite.h"

namespace teetally {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kSqliteStart{"SQLite format 3\0", 16};

enum class Found { nothing, sqlite, something_else };

// What is at the path, seen without SQLite, which would take anything for a damaged database.
Found look_at(const std::string& path) {
  std::error_code failure;
  if (!fs::exists(path, failure)) return Found::nothing;
  if (fs::is_directory(path, failure)) return Found::something_else;
  std::ifstream file(path, std::ios::binary);
  const bool is_open = file.is_open();
  std::string start(kSqliteStart.size(), '\0');
  file.read(start.data(), static_cast<std::streamsize>(start.size()));
  if (is_open && file.gcount() == 0) return Found::nothing;  // made, but nothing was in it yet
  return start == kSqliteStart ? Found::sqlite : Found::something_else;
}

void refuse(const std::string& path, Diagnostics& diagnostics) {
  diagnostics
      .error("store/not-a-store", {},
             quoted(printable(path)) + " is no store of teetally; a file that teetally made is expected")
      .help = "name another file: --store FILE";
}

void make_folder(const std::string& path) {
  const fs::path folder = fs::path(path).parent_path();
  std::error_code failure;
  if (!folder.empty()) fs::create_directories(folder, failure);
  if (failure) {
    throw WorldFailure("cannot make the folder " + quoted(printable(folder.string())) + ": " + failure.message());
  }
}

// Where nothing can be written, not even the files that SQLite keeps beside the store, it is read as it lies.
std::unique_ptr<Database> opened_to_read(const std::string& path) {
  try {
    auto database = std::make_unique<Database>(path, Database::Access::read);
    database->number("PRAGMA user_version");
    return database;
  } catch (const WorldFailure&) {
    std::error_code failure;
    if (fs::exists(path + "-wal", failure)) throw;  // something may be committed there that would be overlooked
    return std::make_unique<Database>(path, Database::Access::frozen);
  }
}

std::unique_ptr<Database> opened_to_write(const std::string& path) {
  auto database = std::make_unique<Database>(path, Database::Access::write);
  // Committed means on the disk, and a reader never waits for a writer.
  database->run("PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON; PRAGMA trusted_schema = OFF");
  return database;
}

struct Standing {
  std::int64_t version = 0;
  bool ours = false, empty = false;
};
// One question, so that all is told of one moment: another process may be making the store meanwhile.
Standing standing_of(Database& database) {
  Statement query = database.statement(
      "SELECT (SELECT user_version FROM pragma_user_version), (SELECT application_id FROM pragma_application_id), "
      "count(*) FROM sqlite_schema");
  query.next();
  return {query.number(0), query.number(1) == kStoreMark, query.number(2) == 0};
}

// Says why a file cannot be used as it stands.
bool is_usable(const std::string& path, const Standing& standing, std::int64_t newest, Diagnostics& diagnostics) {
  if (!standing.ours && !standing.empty) {
    refuse(path, diagnostics);
    return false;
  }
  if (standing.version <= newest) return true;
  diagnostics
      .error("store/newer", {},
             "the store " + quoted(printable(path)) + " is of version " + std::to_string(standing.version) +
                 ", which is newer than this program")
      .help = "use the newer teetally that made it, or name another file: --store FILE";
  return false;
}

// The version is looked at under the lock, and the copy made under it: another process may have been quicker, or wait.
void bring_up_to_date(Database& database, const std::vector<std::string>& steps) {
  const auto newest = static_cast<std::int64_t>(steps.size());
  patiently([&] { database.run("PRAGMA journal_mode = WAL"); });
  Transaction transaction(database);
  const std::int64_t found = database.number("PRAGMA user_version");
  if (found >= newest) return;
  if (found > 0) {  // through another connection: one that writes cannot copy itself
    Database(database.path(), Database::Access::read).copy_to(database.path() + ".version-" + std::to_string(found));
  }
  for (std::int64_t version = found; version < newest; ++version) {
    database.run(steps[static_cast<std::size_t>(version)]);
  }
  database.run("PRAGMA application_id = " + std::to_string(kStoreMark) +
               "; PRAGMA user_version = " + std::to_string(newest));
  transaction.commit();
}

}  // namespace

std::optional<Store> open_store(const std::string& path, StoreUse use, const std::vector<std::string>& steps,
                                Diagnostics& diagnostics) {
  const Found found = look_at(path);
  if (found == Found::something_else) {
    refuse(path, diagnostics);
    return std::nullopt;
  }
  if (found == Found::nothing && use == StoreUse::read) {
    diagnostics.error("store/no-store", {}, "there is no store " + quoted(printable(path)) + " yet").help =
        "it is made by the first command that keeps something in it, such as 'teetally catalog record'";
    return std::nullopt;
  }
  if (found == Found::nothing) make_folder(path);
  const auto newest = static_cast<std::int64_t>(steps.size());
  auto database = use == StoreUse::read ? opened_to_read(path) : opened_to_write(path);
  Standing standing = standing_of(*database);
  if (!is_usable(path, standing, newest, diagnostics)) return std::nullopt;
  if (standing.version < newest) {
    if (use == StoreUse::read) database = opened_to_write(path);
    bring_up_to_date(*database, steps);
  }
  return Store(std::move(database));
}

std::optional<Store> open_store(const std::string& path, StoreUse use, Diagnostics& diagnostics) {
  return open_store(path, use, store_steps(), diagnostics);
}

Store::Store(std::unique_ptr<Database> database) : database_(std::move(database)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

void back_up(const Store& store, const std::string& path) { store.database().copy_to(path); }

}  // namespace teetally
