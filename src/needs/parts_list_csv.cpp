#include "needs/parts_list_csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "teetally/base/text.h"

namespace teetally {
namespace {

struct Column {
  std::string key;
  std::string unit;
  Place place;
  bool is_known = true;  // some kind has such an attribute, or every part may have such a key
  bool is_reported = false;
};

Column column_from(const CsvCell& cell) {
  Column column;
  column.place = cell.place;
  column.key = trimmed(cell.text);
  const std::size_t open = column.key.find('(');
  if (open == std::string::npos || column.key.back() != ')') return column;
  column.unit = trimmed(column.key.substr(open + 1, column.key.size() - open - 2));
  column.key = trimmed(column.key.substr(0, open));
  return column;
}

std::vector<std::string> known_keys(const Vocabulary& vocabulary) {
  std::vector<std::string> keys = {"kind", "count", "length", "may be joined", "for", "system"};
  for (const KindType& kind : vocabulary.kinds) {
    for (const AttributeType& attribute : kind.attributes) keys.push_back(attribute.name);
  }
  return keys;
}

bool is_unit(const std::string& unit) {
  const std::string one = "1 " + unit;
  return parse_length(one, {}) || parse_flow(one, {}) || parse_pressure(one, {}) || parse_diameter(one, {});
}

void check_column(const Column& column, const std::vector<Column>& before, Diagnostics& diagnostics) {
  const bool is_repeated = !column.key.empty() && std::any_of(before.begin(), before.end(), [&](const Column& other) {
    return other.key == column.key;
  });
  if (is_repeated) {
    diagnostics.error("needs/csv-header", column.place, fmt::format("two columns are named {}", quoted(column.key)))
        .help = "give each column a name of its own";
  }
  if (!column.unit.empty() && !is_unit(column.unit)) {
    diagnostics
        .error("needs/csv-header", column.place,
               fmt::format("{} in brackets is no unit of length, flow or pressure", quoted(column.unit)))
        .help = "write a unit, as in 'length (ft)' or 'flow (gph)'";
  }
}

std::vector<Column> read_header(const CsvRow& row, const std::vector<std::string>& known, Diagnostics& diagnostics) {
  std::vector<Column> columns;
  for (const CsvCell& cell : row.cells) {
    Column column = column_from(cell);
    // Spreadsheets like capitals. What only the kind 'other' may have is kept as it is written.
    const std::string small = lower_case(single_spaced(column.key));
    column.is_known = std::find(known.begin(), known.end(), small) != known.end();
    if (column.is_known) column.key = small;
    check_column(column, columns, diagnostics);
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
    list.items.push_back(scalar(std::string(trimmed(text.substr(from, bar - from))), false, cell.place));
    from = bar + 1;
  }
  return list;
}

// Whether the row's kind takes any key ("other").
bool is_open(const CsvRow& row, const std::vector<Column>& columns, const Vocabulary& vocabulary) {
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    if (columns[i].key != "kind") continue;
    const KindType* kind = vocabulary.find(trimmed(row.cells[i].text));
    return kind != nullptr && kind->open;
  }
  return false;
}

// A column that means nothing is reported once, in the header, and not again for every row.
void report_once(Column& column, const std::string& content, const std::vector<std::string>& known,
                 Diagnostics& diagnostics) {
  if (column.is_reported) return;
  column.is_reported = true;
  if (column.key.empty()) {
    diagnostics.error("needs/csv-header", column.place, fmt::format("the column of {} has no name", quoted(content)))
        .help = "name it, or quote a cell that holds a comma";
    return;
  }
  Diagnostic& error =
      diagnostics.error("needs/csv-header", column.place, fmt::format("no kind of part has {}", quoted(column.key)));
  const auto near = nearest_word(column.key, known);
  error.help = near ? fmt::format("did you mean {}?", quoted(*near))
                    : "the usual columns are kind, size, count, length and for; only the kind 'other' takes any key";
}

YamlNode part_from(const CsvRow& row, std::vector<Column>& columns, const Vocabulary& vocabulary,
                   const std::vector<std::string>& known, Diagnostics& diagnostics) {
  YamlNode part;
  part.kind = YamlNode::Kind::mapping;
  part.place = row.place;
  const bool takes_any_key = is_open(row, columns, vocabulary);
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    const CsvCell& cell = row.cells[i];
    Column& column = columns[i];
    const std::string text(trimmed(cell.text));
    if (text.empty()) continue;
    if (column.key.empty() || (!column.is_known && !takes_any_key)) {
      report_once(column, text, known, diagnostics);
    } else {
      part.entries.push_back({column.key, cell.place, value_from(text, cell, column)});
    }
  }
  return part;
}

}  // namespace

YamlNode csv_as_tree(const Source& source, const Vocabulary& vocabulary, Diagnostics& diagnostics) {
  YamlNode root;
  root.place = {source, 1, 1};
  const std::vector<CsvRow> rows = read_csv(source, diagnostics);
  if (rows.empty()) return root;
  const std::vector<std::string> known = known_keys(vocabulary);
  std::vector<Column> columns = read_header(rows.front(), known, diagnostics);
  if (diagnostics.has_errors()) return root;  // without its columns no row means anything
  YamlNode parts;
  parts.kind = YamlNode::Kind::sequence;
  parts.place = rows.front().place;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    // Spreadsheets save rows of nothing but commas.
    YamlNode part = part_from(rows[i], columns, vocabulary, known, diagnostics);
    if (!part.entries.empty()) parts.items.push_back(std::move(part));
  }
  root.kind = YamlNode::Kind::mapping;
  root.entries.push_back({"teetally", root.place, scalar("parts list 1", false, root.place)});
  root.entries.push_back({"parts", parts.place, std::move(parts)});
  return root;
}

}  // namespace teetally
