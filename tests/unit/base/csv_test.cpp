#include "teetally/base/csv.h"

#include <boost/test/unit_test.hpp>
#include <random>

#include "teetally/base/report.h"
#include "teetally/base/yaml.h"

namespace teetally {
namespace {

struct Reading {
  std::vector<CsvRow> rows;
  Diagnostics diagnostics;
};

Reading read(std::string text) {
  Reading reading;
  reading.rows = read_csv(source_from_text("f.csv", std::move(text)), reading.diagnostics);
  return reading;
}

std::string first_line(const Reading& reading) {
  const std::string text = report_text(reading.diagnostics);
  return text.substr(0, text.find('\n'));
}

}  // namespace

BOOST_AUTO_TEST_SUITE(csv)

BOOST_AUTO_TEST_CASE(rows_and_cells_have_places) {
  const Reading reading = read("sku,name\r\n\r\nA-1,\"one, \"\"two\"\"\r\nthree\"\nB,é\n");
  BOOST_TEST(report_text(reading.diagnostics) == "");
  BOOST_REQUIRE(reading.rows.size() == 3u);
  BOOST_TEST(reading.rows[1].cells[1].text == "one, \"two\"\r\nthree");
  BOOST_TEST(reading.rows[1].cells[1].quoted);
  BOOST_TEST(to_string(reading.rows[1].cells[1].place) == "f.csv:3:5");
  BOOST_TEST(to_string(reading.rows[2].cells[1].place) == "f.csv:5:3");
  BOOST_TEST(reading.rows[2].cells[1].text == "é");
}

BOOST_AUTO_TEST_CASE(the_last_line_needs_no_end_and_cells_may_be_empty) {
  const Reading reading = read("a,b\n,\nc,");
  BOOST_REQUIRE(reading.rows.size() == 3u);
  BOOST_TEST(reading.rows[1].cells[0].text == "");
  BOOST_TEST(reading.rows[2].cells.size() == 2u);
  BOOST_TEST(read("").rows.empty());
  BOOST_TEST(read("\"\"\n").rows.size() == 1u);
}

BOOST_AUTO_TEST_CASE(bad_rows_are_reported_and_left_out) {
  Reading reading = read("a,b\n1\n2,3\n4,5,6\n");
  BOOST_TEST(reading.rows.size() == 2u);
  BOOST_TEST(first_line(reading) == "f.csv:2:1: error: this row has 1 cell, but the first row has 2 [base/bad-csv]");
  BOOST_TEST(reading.diagnostics.in_order().size() == 2u);
  reading = read("a,b\n1,2\"x\n3,4\n");
  BOOST_TEST(reading.rows.size() == 2u);
  BOOST_TEST(first_line(reading) ==
             "f.csv:2:4: error: a double quote stands inside a cell that does not start with one [base/bad-csv]");
  reading = read("a,b\n1,\"2\"x\n3,4\n");
  BOOST_TEST(reading.rows.size() == 2u);
  BOOST_TEST(first_line(reading) == "f.csv:2:6: error: text follows the closing double quote of a cell [base/bad-csv]");
  reading = read("a,b\n1,\"2\n3,4\n");
  BOOST_TEST(first_line(reading) ==
             "f.csv:2:3: error: the double quote that starts this cell is never closed [base/bad-csv]");
  reading = read(std::string("a\0b\n", 4));
  BOOST_TEST(first_line(reading).find("[base/bad-text]") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(the_writer_quotes_what_needs_it) {
  BOOST_TEST(csv_row({"a", "b c", ""}) == "a,b c,\n");
  BOOST_TEST(csv_row({"1,5", "say \"hi\"", "two\nlines"}) == "\"1,5\",\"say \"\"hi\"\"\",\"two\nlines\"\n");
  BOOST_TEST(csv_row({" edge"}) == "\" edge\"\n");
  BOOST_TEST(csv_row({""}) == "\"\"\n");
}

BOOST_AUTO_TEST_CASE(formulas_are_made_harmless_and_numbers_stay) {
  BOOST_TEST(csv_row({"=1+1"}) == "'=1+1\n");
  BOOST_TEST(csv_row({"+cmd|x"}) == "'+cmd|x\n");
  BOOST_TEST(csv_row({"@SUM(A1)"}) == "'@SUM(A1)\n");
  BOOST_TEST(csv_row({"-2+3"}) == "'-2+3\n");
  BOOST_TEST(csv_row({"\t=1"}) == "'\t=1\n");
  BOOST_TEST(csv_row({"\r=1"}) == "\"'\r=1\"\n");
  BOOST_TEST(csv_row({"-12.50", "+3", "-"}) == "-12.50,+3,'-\n");
  BOOST_TEST(csv_row({"=HYPERLINK(\"x\",\"y\")"}) == "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"\n");
}

BOOST_AUTO_TEST_CASE(what_is_written_reads_back) {
  std::mt19937 random(4180);
  for (int i = 0; i < 3000; ++i) {
    std::vector<std::string> cells(1 + random() % 4);
    for (std::string& cell : cells) {
      for (auto n = random() % 6; n > 0; --n) {
        const std::string pieces[] = {"a", ",", "\"", "\n", " ", "7", ".", "é"};
        cell += pieces[random() % 8];
      }
    }
    const Reading reading = read(csv_row(cells));
    BOOST_REQUIRE_EQUAL(report_text(reading.diagnostics), "");
    BOOST_REQUIRE_EQUAL(reading.rows.size(), 1u);
    BOOST_REQUIRE_EQUAL(reading.rows[0].cells.size(), cells.size());
    for (std::size_t c = 0; c < cells.size(); ++c) BOOST_REQUIRE_EQUAL(reading.rows[0].cells[c].text, cells[c]);
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
