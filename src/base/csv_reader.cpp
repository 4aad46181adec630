#include <fmt/format.h>

#include <algorithm>

#include "base/source_text.h"
#include "teetally/base/csv.h"
#include "teetally/base/text.h"
#include "teetally/base/words.h"

namespace teetally {
namespace {

// Where a comma is the decimal sign, spreadsheets part cells by semicolons; what is copied out of one, by tabs. The
// first line tells: it is taken for commas as soon as it has one.
char separator_of(std::string_view text) {
  const std::string_view first = text.substr(0, text.find('\n'));
  for (const char separator : {',', ';', '\t'}) {
    if (first.find(separator) != std::string_view::npos) return separator;
  }
  return ',';
}

// "12,50" and "12,5 m" between semicolons are 12.50 and 12.5 m. One or two digits only: "1,250" may mean a thousand,
// and is left for the reader of the number to refuse.
void mend_decimal_comma(std::string& text) {
  const std::size_t comma = text.find(',');
  const std::size_t first = text[0] == '-' ? 1 : 0;
  if (comma == std::string::npos || comma == first) return;
  const auto none_but_digits = [&](std::size_t from, std::size_t to) {
    return from < to && std::all_of(text.begin() + static_cast<std::ptrdiff_t>(from),
                                    text.begin() + static_cast<std::ptrdiff_t>(to), is_digit);
  };
  const std::size_t end = std::min(text.find(' ', comma), text.size());
  const bool is_number = none_but_digits(first, comma) && none_but_digits(comma + 1, end) && end - comma <= 3;
  const bool is_one = text.find(',', comma + 1) == std::string::npos;
  if (is_number && is_one) text[comma] = '.';
}

class Reader {
 public:
  Reader(const Source& source, Diagnostics& diagnostics)
      : text_(source->text), lines_(source), diagnostics_(diagnostics), separator_(separator_of(text_)) {}

  std::vector<CsvRow> read() {
    std::vector<CsvRow> rows;
    std::size_t width = 0;
    while (at_ < text_.size()) {
      CsvRow row = read_row();
      const bool blank = row.cells.size() == 1 && row.cells[0].text.empty() && !row.cells[0].quoted;
      if (blank || broken_) continue;
      if (width == 0) width = row.cells.size();
      if (row.cells.size() == width) {
        rows.push_back(std::move(row));
      } else {
        report(row.place,
               fmt::format("this row has {}, but the first row has {}",
                           counted(static_cast<std::int64_t>(row.cells.size()), "cell"), width),
               how_to_reach(width, row.cells.size()));
      }
    }
    return rows;
  }

 private:
  std::string how_to_reach(std::size_t width, std::size_t found) const {
    const std::string_view sign = separator_ == ',' ? "comma" : separator_ == ';' ? "semicolon" : "tab";
    return found < width ? fmt::format("add a {} for each empty cell at its end", sign)
                         : fmt::format("put double quotes around a cell with a {} in it", sign);
  }

  CsvRow read_row() {
    broken_ = false;
    CsvRow row;
    row.place = lines_.place_at(at_);
    do {
      row.cells.push_back(read_cell());
    } while (take(separator_));
    if (!take_line_end()) skip_line();
    return row;
  }

  CsvCell read_cell() {
    CsvCell cell;
    cell.place = lines_.place_at(at_);
    if (at_ < text_.size() && text_[at_] == '"') {
      cell.quoted = true;
      read_quoted(cell);
    } else {
      read_plain(cell);
    }
    if (separator_ == ';' && !cell.text.empty()) mend_decimal_comma(cell.text);
    return cell;
  }

  void read_plain(CsvCell& cell) {
    const std::size_t end = std::min(text_.find_first_of(plain_ends_, at_), text_.size());
    cell.text = text_.substr(at_, end - at_);
    at_ = end;
    if (at_ < text_.size() && text_[at_] == '"') {
      report(lines_.place_at(at_), "a double quote stands inside a cell that does not start with one",
             "write inches as 'in'; or put the whole cell in double quotes and double the quotes inside it");
      skip_line();
    }
  }

  void read_quoted(CsvCell& cell) {
    ++at_;
    while (true) {
      const std::size_t quote = text_.find('"', at_);
      if (quote == std::string_view::npos) {
        report(cell.place, "the double quote that starts this cell is never closed", "close it");
        at_ = text_.size();
        return;
      }
      cell.text += text_.substr(at_, quote - at_);
      at_ = quote + 1;
      if (!take('"')) break;
      cell.text += '"';
    }
    const bool ended = at_ >= text_.size() || text_[at_] == separator_ || text_[at_] == '\n' || text_[at_] == '\r';
    if (!ended) {
      report(lines_.place_at(at_), "text follows the closing double quote of a cell",
             "double the quotes that belong to the text");
      skip_line();
    }
  }

  bool take(char c) {
    if (at_ >= text_.size() || text_[at_] != c) return false;
    ++at_;
    return true;
  }

  bool take_line_end() {
    const std::size_t before = at_;
    take('\r');
    if (take('\n') || at_ >= text_.size()) return true;
    at_ = before;
    return false;
  }

  void skip_line() {
    const std::size_t end = text_.find('\n', at_);
    at_ = end == std::string_view::npos ? text_.size() : end;
  }

  void report(Place place, std::string message, std::string help) {
    if (!broken_) diagnostics_.error("base/bad-csv", std::move(place), std::move(message)).help = std::move(help);
    broken_ = true;
  }

  std::string_view text_;
  LineIndex lines_;
  Diagnostics& diagnostics_;
  char separator_;
  std::string plain_ends_ = std::string("\r\n\"") + separator_;
  std::size_t at_ = 0;
  bool broken_ = false;  // the row being read has been complained about
};

}  // namespace

std::vector<CsvRow> read_csv(const Source& source, Diagnostics& diagnostics) {
  if (source == nullptr || !is_clean_text(source, diagnostics)) return {};
  return Reader(source, diagnostics).read();
}

}  // namespace teetally
