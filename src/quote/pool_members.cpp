// The plots of a CSV file: a row is a plot.
#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <sstream>

#include "quote/pool_reader.h"
#include "teetally/base/text.h"

namespace teetally {
namespace {

constexpr std::string_view kSet = "set ";
const std::vector<std::string> kColumns{"plot", "member", "design", "in", "cash limit", "without", "has"};

class MembersReader {
 public:
  MembersReader(PoolFile& pool, const Vocabulary& vocabulary, BadPlots bad, Diagnostics& diagnostics)
      : pool_(pool), vocabulary_(vocabulary), bad_(bad), diagnostics_(diagnostics) {}

  void read(const std::vector<CsvRow>& rows) {
    for (const CsvCell& cell : rows[0].cells) columns_.push_back(cell.text);
    if (!check_columns(rows[0])) return;
    for (std::size_t r = 1; r < rows.size(); ++r) read_row(rows[r]);
  }

 private:
  static bool is_column(const std::string& name) {
    return std::find(kColumns.begin(), kColumns.end(), name) != kColumns.end() ||
           (name.rfind(kSet, 0) == 0 && name.size() > kSet.size());
  }

  bool check_columns(const CsvRow& head) {
    bool sound = true;
    std::set<std::string> named, meant;  // columns; those that misspelt ones seem to be
    for (const CsvCell& cell : head.cells) {
      const bool again = !named.insert(cell.text).second;
      if (is_column(cell.text) && !again) continue;
      sound = false;
      if (again) {
        diagnostics_
            .error("quote/column-twice", cell.place, fmt::format("two columns are called {}", quoted(cell.text)))
            .help = "keep one of them; several kinds of part go into one cell, parted by commas";
        continue;
      }
      const auto near = nearest_word(lower_case(cell.text), kColumns);
      if (near) meant.insert(*near);
      diagnostics_
          .error("quote/unknown-column", cell.place, fmt::format("unknown column {} of plots", quoted(cell.text)))
          .help = near ? "did you mean " + quoted(*near) + "?"
                       : "columns are " + listed(kColumns) + ", and 'set NAME' for a parameter of the design";
    }
    for (const char* needed : {"plot", "design"}) {
      if (named.contains(needed) || meant.contains(needed)) continue;
      sound = false;
      diagnostics_.error("quote/missing-column", head.place, fmt::format("the plots have no column {}", quoted(needed)))
          .help = "the first row names the columns; plot and design must be there";
    }
    return sound;
  }

  void read_row(const CsvRow& row) {
    Diagnostics found;
    Plot plot;
    plot.place = row.place;
    std::optional<PlotWorks> works;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      if (columns_[c] == "design") works = design_called(pool_, row.cells[c].text, row.cells[c].place, found);
    }
    PlotWorks unused;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      read_cell(columns_[c], row.cells[c], plot, works ? *works : unused, found);
    }
    if (!report_plot(found, bad_, diagnostics_)) {
      ++pool_.refused;
      pool_.refused_names.insert(plot.name);
      return;
    }
    plot.works = add_works(pool_, std::move(*works));
    pool_.plots.push_back(std::move(plot));
  }

  void read_cell(const std::string& column, const CsvCell& cell, Plot& plot, PlotWorks& works, Diagnostics& found) {
    if (column == "plot") plot.name = cell.text;
    if (column == "member") plot.member = cell.text;
    if (cell.text.empty()) return;
    if (column == "in") plot.takes_part = yes_no(cell, found);
    if (column == "cash limit") plot.cash_limit = money(cell, found);
    if (column == "without") {
      for (const std::string& kind : kinds_in(cell)) do_without(works, kind, cell.place, vocabulary_, found);
    }
    if (column == "has") {
      for (const std::string& kind : kinds_in(cell)) has_one(works, kind, cell.place, vocabulary_, found);
    }
    if (column.rfind(kSet, 0) == 0) works.set[column.substr(kSet.size())] = cell.text;
  }

  // Kinds of part, parted by commas.
  static std::vector<std::string> kinds_in(const CsvCell& cell) {
    std::vector<std::string> kinds;
    std::istringstream text(cell.text);
    for (std::string kind; std::getline(text, kind, ',');) kinds.emplace_back(trimmed(kind));
    return kinds;
  }

  static bool yes_no(const CsvCell& cell, Diagnostics& found) {
    if (cell.text != "yes" && cell.text != "no") {
      found.error("quote/bad-value", cell.place, fmt::format("'in' is {}; expected yes or no", quoted(cell.text)));
    }
    return cell.text == "yes";
  }

  std::optional<Money> money(const CsvCell& cell, Diagnostics& found) const {
    const auto money = parse_money(cell.text, pool_.currency);
    if (money) return *money;
    found.error("quote/bad-value", cell.place, "'cash limit': " + money.error());
    return std::nullopt;
  }

  PoolFile& pool_;
  const Vocabulary& vocabulary_;
  BadPlots bad_;
  Diagnostics& diagnostics_;
  std::vector<std::string> columns_;
};

}  // namespace

void add_members(PoolFile& pool, const Source& csv, const Vocabulary& vocabulary, BadPlots bad,
                 Diagnostics& diagnostics) {
  Diagnostics found;
  const std::vector<CsvRow> rows = read_csv(csv, found);
  for (const Diagnostic& d : found.in_order()) pool.refused += d.severity == Severity::error ? 1 : 0;  // one a row
  report_plot(found, rows.empty() ? BadPlots::stop : bad, diagnostics);  // no row can be read: not one plot's mistake
  if (!rows.empty()) MembersReader(pool, vocabulary, bad, diagnostics).read(rows);
}

}  // namespace teetally
