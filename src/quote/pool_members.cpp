// The plots of a CSV file: a row is a plot.
#include <fmt/format.h>

#include <algorithm>

#include "quote/pool_reader.h"

namespace teetally {
namespace {

constexpr std::string_view kSet = "set ";

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
  bool check_columns(const CsvRow& head) {
    const std::vector<std::string> known{"plot", "member", "design", "in", "cash limit", "without"};
    bool sound = true;
    for (const CsvCell& cell : head.cells) {
      if (std::find(known.begin(), known.end(), cell.text) != known.end() || cell.text.rfind(kSet, 0) == 0) continue;
      sound = false;
      diagnostics_
          .error("quote/unknown-column", cell.place, fmt::format("unknown column {} of plots", quoted(cell.text)))
          .help = "columns are " + listed(known) + ", and 'set NAME' for a parameter of the design";
    }
    for (const char* needed : {"plot", "design"}) {
      if (std::find(columns_.begin(), columns_.end(), needed) != columns_.end()) continue;
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
    if (column == "without") do_without(works, cell.text, cell.place, vocabulary_, found);
    if (column.rfind(kSet, 0) == 0) works.set[column.substr(kSet.size())] = cell.text;
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
  if (found.has_errors()) ++pool.refused;
  report_plot(found, bad, diagnostics);
  if (!rows.empty()) MembersReader(pool, vocabulary, bad, diagnostics).read(rows);
}

}  // namespace teetally
