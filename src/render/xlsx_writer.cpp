// Workbooks as XLSX (ECMA-376).
#include <xlsxwriter.h>

#include <array>
#include <chrono>
#include <ctime>

#include "render/workbook.h"
#include "teetally/base/scratch_file.h"

namespace teetally {
namespace {

constexpr std::size_t kLooks = 9;
constexpr std::size_t kLongestText = 32'000;  // bytes; programs take 32,767 letters in a cell

struct Looks {
  std::array<lxw_format*, kLooks> formats{};
  lxw_format* of(CellLook look) const { return formats[static_cast<std::size_t>(look)]; }
};

std::string money_form(int decimals) {
  return decimals == 0 ? "#,##0" : "#,##0." + std::string(static_cast<std::size_t>(decimals), '0');
}

Looks make_looks(lxw_workbook* book, int decimals) {
  Looks looks;
  for (lxw_format*& format : looks.formats) {
    format = workbook_add_format(book);
    format_set_align(format, LXW_ALIGN_VERTICAL_TOP);
  }
  const std::string money = money_form(decimals);
  format_set_font_size(looks.of(CellLook::title), 14);
  format_set_font_color(looks.of(CellLook::quiet), 0x56645F);
  format_set_bold(looks.of(CellLook::heading));
  format_set_bottom(looks.of(CellLook::heading), LXW_BORDER_THIN);
  format_set_num_format(looks.of(CellLook::money), money.c_str());
  format_set_num_format(looks.of(CellLook::amount), "0.###");
  format_set_num_format(looks.of(CellLook::percent), "0.00%");
  for (const CellLook sum : {CellLook::sum_words, CellLook::sum_money}) {
    format_set_bold(looks.of(sum));
    format_set_top(looks.of(sum), LXW_BORDER_THIN);
    format_set_num_format(looks.of(sum), money.c_str());
  }
  return looks;
}

std::string fitting(const std::string& text) {
  std::string short_text = printable(text).substr(0, kLongestText);
  while (!is_valid_utf8(short_text)) short_text.pop_back();
  return short_text;
}

void check(lxw_error error) {
  if (error != LXW_NO_ERROR) throw WorldFailure(std::string("the workbook cannot be written: ") + lxw_strerror(error));
}

void write_cell(lxw_worksheet* sheet, std::size_t row, std::size_t column, const Cell& cell, const Looks& looks) {
  const auto r = static_cast<lxw_row_t>(row);
  const auto c = static_cast<lxw_col_t>(column);
  switch (cell.kind) {
    case Cell::Kind::empty:
      break;
    case Cell::Kind::text:
      check(worksheet_write_string(sheet, r, c, fitting(cell.text).c_str(), looks.of(cell.look)));
      break;
    case Cell::Kind::number:
      check(worksheet_write_number(sheet, r, c, cell.number, looks.of(cell.look)));
      break;
    case Cell::Kind::formula:
      check(worksheet_write_formula_num(sheet, r, c, ("=" + cell.text).c_str(), looks.of(cell.look), cell.number));
      break;
  }
}

void write_sheet(lxw_workbook* book, const Sheet& sheet, const Looks& looks) {
  lxw_worksheet* out = workbook_add_worksheet(book, sheet.name.c_str());
  if (out == nullptr) throw WorldFailure("the workbook cannot be written: sheet " + quoted(sheet.name));
  for (std::size_t i = 0; i < sheet.widths.size(); ++i) {
    const auto column = static_cast<lxw_col_t>(i);
    check(worksheet_set_column(out, column, column, sheet.widths[i], nullptr));
  }
  for (std::size_t row = 0; row < sheet.rows.size(); ++row) {
    for (std::size_t column = 0; column < sheet.rows[row].size(); ++column) {
      write_cell(out, row, column, sheet.rows[row][column], looks);
    }
  }
  worksheet_fit_to_pages(out, 1, 0);  // one page wide, as many long as it takes
}

std::chrono::sys_days day_of(const std::string& date) {
  using namespace std::chrono;
  const auto part = [&](std::size_t at, std::size_t n) {
    int value = 0;
    for (std::size_t i = at; i < at + n; ++i) value = value * 10 + (date[i] - '0');
    return value;
  };
  if (date.size() != 10) return sys_days{year{1980} / 1 / 1};
  return sys_days{year{part(0, 4)} / part(5, 2) / part(8, 2)};
}

void set_properties(lxw_workbook* book, const Workbook& workbook) {
  std::string title = fitting(workbook.title).substr(0, 250), author = fitting(workbook.author).substr(0, 250);
  while (!is_valid_utf8(title)) title.pop_back();
  while (!is_valid_utf8(author)) author.pop_back();
  lxw_doc_properties properties{};
  properties.title = title.data();
  properties.author = author.data();
  // Noon, so that the day is the same wherever the file is written.
  properties.created = static_cast<std::time_t>(day_of(workbook.made_on).time_since_epoch().count()) * 86'400 + 43'200;
  check(workbook_set_properties(book, &properties));
}

}  // namespace

std::string workbook_bytes(const Workbook& workbook) {
  return bytes_written_by([&](const std::string& path) {
    lxw_workbook* book = workbook_new(path.c_str());
    if (book == nullptr) throw WorldFailure("the workbook cannot be written: " + path);
    try {
      const Looks looks = make_looks(book, workbook.decimals);
      for (const Sheet& sheet : workbook.sheets) write_sheet(book, sheet, looks);
      set_properties(book, workbook);
    } catch (...) {
      lxw_workbook_free(book);
      throw;
    }
    check(workbook_close(book));
  });
}

}  // namespace teetally
