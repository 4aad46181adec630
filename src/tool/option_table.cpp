#include <cassert>

#include "tool/command_table.h"

namespace teetally {
namespace {

using Repeats = OptionRow::Repeats;

std::vector<OptionRow> of_input_and_output() {
  return {
      {"catalogs", '\0', "PATH...", Repeats::rest, {}, "suppliers' catalogs: files, or folders of them"},
      {"format", 'f', "FORM", Repeats::once, {"text", "json", "csv", "html", "xlsx", "svg"}, "form of the result"},
      {"templates", '\0', "FOLDER", Repeats::once, {}, "your own page templates in place of shipped ones"},
      {"output", 'o', "FILE", Repeats::once, {}, "write the result to FILE instead of the screen"},
      {"units", 'u', "SYSTEM", Repeats::once, {"us", "metric"}, "units of the result; default: those of the file"},
      {"set", 's', "NAME=VALUE", Repeats::each, {}, "give a parameter of the design a value"},
      {"practice", '\0', "FILE", Repeats::once, {}, "your allowances and habits instead of the shipped ones"},
      {"vocabulary", '\0', "FILE", Repeats::once, {}, "kinds of part to add to the shipped ones"},
  };
}

std::vector<OptionRow> of_orders() {
  return {
      {"only", '\0', "SUPPLIER", Repeats::each, {}, "buy from this supplier only (repeat for more)"},
      {"avoid", '\0', "SUPPLIER", Repeats::each, {}, "never buy from this supplier"},
      {"most-suppliers", '\0', "N", Repeats::once, {}, "use at most N suppliers"},
      {"no-bundles", '\0', "", Repeats::once, {}, "buy parts loose, no bundles"},
      {"take-bundle", '\0', "SKU", Repeats::once, {}, "have this bundle in the order"},
      {"on-hand", '\0', "FILE", Repeats::once, {}, "parts you have already, used first and free"},
      {"layer",
       '\0',
       "WHAT",
       Repeats::once,
       {"lengths", "flow", "pressure"},
       "figures along the lines of the plan: lengths (default), flow or pressure"},
      {"by-place", '\0', "", Repeats::once, {}, "what goes to which place of the garden, instead of part by part"},
      {"cut-list",
       '\0',
       "",
       Repeats::once,
       {},
       "show which piece of tubing comes from which coil, instead of the order"},
      {"near-misses", '\0', "", Repeats::once, {}, "show items that nearly serve, and why they do not"},
      {"advise", '\0', "", Repeats::once, {}, "what to change, each change tried before it is offered"},
      {"rows", '\0', "", Repeats::once, {}, "every row, not just the least even one of each bed"},
  };
}

std::vector<OptionRow> of_pools() {
  return {
      {"shares",
       '\0',
       "RULE",
       Repeats::once,
       {"price-list", "alone", "use", "equal", "nucleolus", "equal-saving"},
       "how the order is shared out: price-list (default), alone, use, equal, nucleolus or equal-saving"},
      {"plot", '\0', "NAME", Repeats::once, {}, "this plot only: how its share comes about, or its paper"},
      {"round", '\0', "FILE", Repeats::once, {}, "where the order stands, who left, what did not come: who owes what"},
      {"book", '\0', "", Repeats::once, {}, "keep in the ledger what everybody owes (with --round)"},
      {"member", '\0', "NAME", Repeats::once, {}, "this member's account only"},
      {"folder",
       '\0',
       "FOLDER",
       Repeats::once,
       {},
       "with --paper picks or statements and --format html: pages of 100 sheets each, into a new folder"},
      {"paper",
       '\0',
       "PAPER",
       Repeats::once,
       {"summary", "orders", "cuts", "picks", "packing", "statements"},
       "summary (default), orders, cuts (coils), picks (what goes to whom), packing (in which sequence) or statements"},
      {"skip-bad", '\0', "", Repeats::once, {}, "go on without plots that have errors"},
  };
}

std::vector<OptionRow> of_the_rest() {
  return {
      {"certificate", '\0', "FILE", Repeats::once, {}, "write a proof that 'verify' can follow by itself to FILE"},
      {"why", '\0', "", Repeats::once, {}, "say what other orders would cost, and when each bundle pays"},
      {"deep", '\0', "", Repeats::once, {}, "also every pack, one more or fewer of each need, other orders"},
      {"seconds", '\0', "N", Repeats::once, {}, "stop searching after N seconds (default 60)"},
      {"engine", '\0', "NAME", Repeats::once, {}, "solver to use (default exact)"},
      {"today", '\0', "DATE", Repeats::once, {}, "date for the catalogs' validity, as 2026-04-30"},
      {"job", '\0', "FILE", Repeats::once, {}, "customer, labour, overhead, profit, tax and payments"},
      {"copy",
       '\0',
       "COPY",
       Repeats::once,
       {"customer", "internal"},
       "customer (default), or internal: with costs, suppliers and profit"},
      {"keep", '\0', "", Repeats::once, {}, "give the quote a number and keep it in the store"},
      {"revise", '\0', "N", Repeats::once, {}, "keep it as a new revision of quote N"},
      {"revision", '\0', "R", Repeats::once, {}, "revision R of the quote; default: the latest"},
      {"against",
       '\0',
       "R",
       Repeats::once,
       {},
       "compare with revision R; default: the one accepted, or the one before"},
      {"from-stock", '\0', "", Repeats::once, {}, "use the parts in the stock first, free"},
      {"report-only", '\0', "", Repeats::once, {}, "say what would change, and change nothing"},
      {"for", '\0', "WHY", Repeats::once, {}, "the job, or the reason"},
      {"store", '\0', "FILE", Repeats::once, {}, "the file of prices and quotes to use instead of your own"},
      {"dump", '\0', "STAGE", Repeats::once, {}, "print what STAGE made as JSON and stop"},
      {"stats", '\0', "", Repeats::once, {}, "time, size and memory of each stage, to standard error"},
      {"diagnostics", '\0', "FORM", Repeats::once, {"text", "json"}, "form of messages: text (default) or json lines"},
  };
}

}  // namespace

const std::vector<OptionRow>& option_rows() {
  static const std::vector<OptionRow> kRows = [] {
    std::vector<OptionRow> rows;
    for (const auto& part : {of_input_and_output(), of_orders(), of_pools(), of_the_rest()}) {
      rows.insert(rows.end(), part.begin(), part.end());
    }
    return rows;
  }();
  return kRows;
}

const OptionRow& option_row(std::string_view name) {
  for (const OptionRow& row : option_rows()) {
    if (row.name == name) return row;
  }
  assert(false && "an option that the table does not have");
  return option_rows().front();
}

}  // namespace teetally
