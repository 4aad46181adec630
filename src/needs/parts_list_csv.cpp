#include "needs/parts_list_csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace teetally {
namespace {

struct Column {
  std::string key;
  std::string unit;
  Place place;
};

std::string trimmed(const std::string& text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string::npos) return "";
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

Column column_from(const CsvCell& cell) {
  const std::string text = trimmed(cell.text);
  const std::size_t open = text.find('(');
  if (open == std::string::npos || text.back() != ')') return {text, "", cell.place};
  return {trimmed(text.substr(0, open)), trimmed(text.substr(open + 1, text.size() - open - 2)), cell.place};
}

std::vector<Column> read_header(const CsvRow& row, Diagnostics& diagnostics) {
  std::vector<Column> columns;
  for (const CsvCell& cell : row.cells) {
    Column column = column_from(cell);
    const bool is_repeated = !column.key.empty() && std::any_of(columns.begin(), columns.end(),
                                                                [&](const Column& c) { return c.key == column.key; });
    if (is_repeated) {
      diagnostics.error("needs/csv-header", cell.place, fmt::format("two columns are named {}", quoted(column.key)))
          .help = "give each column a name of its own";
    }
    columns.push_back(std::move(column));
  }
  if (std::none_of(columns.begin(), columns.end(), [](const Column& c) { return c.key == "kind"; })) {
    diagnostics.error("needs/csv-header", row.place, "the header row has no column 'kind'").help =
        "start the file with a header row such as: kind,count,length,size";
  }
  return columns;
}

YamlNode scalar(std::string text, bool quoted, const Place& place) {
  YamlNode node;
  node.kind = YamlNode::Kind::scalar;
  node.place = place;
  node.text = std::move(text);
  node.quoted = quoted;
  return node;
}

YamlNode value_from(const std::string& text, const CsvCell& cell, const Column& column) {
  if (!column.unit.empty() && parse_number(text)) {
    return scalar(fmt::format("{} {}", text, column.unit), cell.quoted, cell.place);
  }
  if (cell.quoted || text.find('|') == std::string::npos) return scalar(text, cell.quoted, cell.place);
  YamlNode list;
  list.kind = YamlNode::Kind::sequence;
  list.place = cell.place;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t bar = std::min(text.find('|', from), text.size());
    list.items.push_back(scalar(trimmed(text.substr(from, bar - from)), false, cell.place));
    from = bar + 1;
  }
  return list;
}

YamlNode part_from(const CsvRow& row, const std::vector<Column>& columns, Diagnostics& diagnostics) {
  YamlNode part;
  part.kind = YamlNode::Kind::mapping;
  part.place = row.place;
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    const CsvCell& cell = row.cells[i];
    const std::string text = trimmed(cell.text);
    if (text.empty()) continue;
    if (columns[i].key.empty()) {
      diagnostics.error("needs/csv-header", cell.place, fmt::format("the column of {} has no name", quoted(text)))
          .help = "name it in the header row, or quote a cell that holds a comma";
      continue;
    }
    part.entries.push_back({columns[i].key, columns[i].place, value_from(text, cell, columns[i])});
  }
  return part;
}

}  // namespace

YamlNode csv_as_tree(const Source& source, Diagnostics& diagnostics) {
  YamlNode root;
  root.place = {source, 1, 1};
  const std::vector<CsvRow> rows = read_csv(source, diagnostics);
  if (rows.empty()) return root;
  const std::vector<Column> columns = read_header(rows.front(), diagnostics);
  if (diagnostics.has_errors()) return root;  // without its columns no row means anything
  YamlNode parts;
  parts.kind = YamlNode::Kind::sequence;
  parts.place = rows.front().place;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    // Spreadsheets save rows of nothing but commas.
    YamlNode part = part_from(rows[i], columns, diagnostics);
    if (!part.entries.empty()) parts.items.push_back(std::move(part));
  }
  root.kind = YamlNode::Kind::mapping;
  root.entries.push_back({"teetally", root.place, scalar("parts list 1", false, root.place)});
  root.entries.push_back({"parts", parts.place, std::move(parts)});
  return root;
}

}  // namespace teetally
