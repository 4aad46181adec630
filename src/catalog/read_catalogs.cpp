#include <algorithm>
#include <filesystem>
#include <set>

#include "teetally/catalog.h"
#include "teetally/catalog/read_with.h"

namespace teetally {

namespace {

namespace fs = std::filesystem;

bool is_yaml_name(const fs::path& path) { return path.extension() == ".yaml" || path.extension() == ".yml"; }

std::vector<std::string> files_in(const std::string& folder, Diagnostics& diagnostics) {
  std::vector<std::string> files;
  std::error_code failure;
  for (fs::directory_iterator it(folder, failure), end; !failure && it != end; it.increment(failure)) {
    if (is_yaml_name(it->path()) && !it->is_directory(failure)) files.push_back(it->path().string());
  }
  if (failure) {
    diagnostics.error("catalog/unreadable-folder", Place{},
                      "cannot list the folder " + teetally::quoted(printable(folder)));
  } else if (files.empty()) {
    diagnostics
        .error("catalog/empty-folder", Place{},
               "the folder " + teetally::quoted(printable(folder)) + " holds no catalogs (files ending in .yaml)")
        .help = "put your suppliers' catalogs there; teetally init FOLDER writes one to start from";
  }
  std::sort(files.begin(), files.end());
  return files;
}

Place start_of(const Catalog& catalog) { return {catalog.source, 1, 1}; }

void check_against(const std::vector<Catalog>& earlier, const Catalog& catalog, Diagnostics& diagnostics) {
  for (const Catalog& other : earlier) {
    if (other.id != catalog.id) continue;
    Diagnostic& entry = diagnostics.error("catalog/duplicate-supplier", start_of(catalog),
                                          "two catalogs have the supplier id " + teetally::quoted(catalog.id));
    entry.help = "give each supplier an id of its own, or leave one of the files out";
    entry.notes.push_back({"the other one", start_of(other)});
  }
  if (!earlier.empty() && !(earlier.front().currency == catalog.currency)) {
    Diagnostic& entry = diagnostics.error(
        "catalog/currency-mismatch", start_of(catalog),
        "prices are in " + catalog.currency.code + ", in another catalog in " + earlier.front().currency.code);
    entry.help = "all catalogs of one run have the same currency";
    entry.notes.push_back({"the other one", start_of(earlier.front())});
  }
}

void check_today(const Catalog& catalog, const std::string& today, Diagnostics& diagnostics) {
  if (today.empty()) return;
  if (catalog.valid_until && *catalog.valid_until < today) {
    diagnostics.warning(
        "catalog/not-valid-today", start_of(catalog),
        "the prices of " + catalog.name + " were valid until " + *catalog.valid_until + ", today is " + today);
  } else if (catalog.valid_from && *catalog.valid_from > today) {
    diagnostics.warning(
        "catalog/not-valid-today", start_of(catalog),
        "the prices of " + catalog.name + " are valid from " + *catalog.valid_from + ", today is " + today);
  }
}

}  // namespace

// A file that is named twice, or named and in a named folder, is read once.
std::vector<std::string> catalog_files(const std::vector<std::string>& paths, Diagnostics& diagnostics) {
  std::vector<std::string> files;
  std::set<fs::path> seen;
  const auto add = [&](const std::string& file) {
    std::error_code failure;
    const fs::path same = fs::weakly_canonical(file, failure);
    if (seen.insert(failure ? fs::path(file) : same).second) files.push_back(file);
  };
  for (const std::string& path : paths) {
    std::error_code failure;
    if (!fs::is_directory(path, failure)) {
      add(path);
      continue;
    }
    for (const std::string& file : files_in(path, diagnostics)) add(file);
  }
  return files;
}

std::vector<Catalog> read_catalogs(const std::vector<std::string>& paths, const Vocabulary& vocabulary,
                                   const std::string& today, Diagnostics& diagnostics) {
  const CatalogReader reader = [&](const Source& source, Diagnostics& found) {
    return read_catalog(source, vocabulary, found);
  };
  return read_catalogs_with(reader, paths, today, diagnostics);
}

std::vector<Catalog> read_catalogs_with(const CatalogReader& reader, const std::vector<std::string>& paths,
                                        const std::string& today, Diagnostics& diagnostics) {
  std::vector<Catalog> catalogs;
  const std::vector<std::string> files = catalog_files(paths, diagnostics);
  if (files.empty() && !diagnostics.has_errors()) {
    diagnostics.error("catalog/no-catalog", Place{}, "no catalog is given").help =
        "name a catalog file, or a folder of them";
  }
  for (const std::string& file : files) {
    const Source source = read_source(file, diagnostics);
    if (source == nullptr) continue;
    auto catalog = reader(source, diagnostics);
    if (!catalog) continue;
    check_against(catalogs, *catalog, diagnostics);
    check_today(*catalog, today, diagnostics);
    catalogs.push_back(std::move(*catalog));
  }
  return catalogs;
}

}  // namespace teetally
