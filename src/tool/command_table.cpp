#include "tool/command_table.h"

#include <cassert>

namespace teetally {

const std::vector<OptionRow>& option_rows() {
  using Repeats = OptionRow::Repeats;
  static const std::vector<OptionRow> kRows = {
      {"catalogs", '\0', "PATH...", Repeats::rest, {}, "suppliers' catalogs: files, or folders of them"},
      {"format",
       'f',
       "FORM",
       Repeats::once,
       {"text", "json", "csv", "html"},
       "form of the result: text (default), json or csv; html, a page to print, where the command makes one"},
      {"templates", '\0', "FOLDER", Repeats::once, {}, "your own page templates in place of shipped ones"},
      {"output", 'o', "FILE", Repeats::once, {}, "write the result to FILE instead of the screen"},
      {"units", 'u', "SYSTEM", Repeats::once, {"us", "metric"}, "units of the result; default: those of the file"},
      {"set", 's', "NAME=VALUE", Repeats::each, {}, "give a parameter of the design a value"},
      {"practice", '\0', "FILE", Repeats::once, {}, "your allowances and habits instead of the shipped ones"},
      {"vocabulary", '\0', "FILE", Repeats::once, {}, "kinds of part to add to the shipped ones"},
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
      {"cut-list",
       '\0',
       "",
       Repeats::once,
       {},
       "show which piece of tubing comes from which coil, instead of the order"},
      {"near-misses", '\0', "", Repeats::once, {}, "show items that nearly serve, and why they do not"},
      {"advise", '\0', "", Repeats::once, {}, "what to change, each change tried before it is offered"},
      {"rows", '\0', "", Repeats::once, {}, "every row, not just the least even one of each bed"},
      {"shares",
       '\0',
       "RULE",
       Repeats::once,
       {"price-list", "alone", "use", "equal", "nucleolus", "equal-saving"},
       "how the order is shared out: price-list (default), alone, use, equal, nucleolus or equal-saving"},
      {"plot", '\0', "NAME", Repeats::once, {}, "how this plot's share comes about, in four lines"},
      {"skip-bad", '\0', "", Repeats::once, {}, "go on without plots that have errors"},
      {"seconds", '\0', "N", Repeats::once, {}, "stop searching after N seconds (default 60)"},
      {"engine", '\0', "NAME", Repeats::once, {}, "solver to use (default cbc)"},
      {"today", '\0', "DATE", Repeats::once, {}, "date for the catalogs' validity, as 2026-04-30"},
      {"job", '\0', "FILE", Repeats::once, {}, "customer, labour, overhead, profit, tax and payments"},
      {"copy",
       '\0',
       "COPY",
       Repeats::once,
       {"customer", "internal"},
       "customer (default), or internal: with costs, suppliers and profit"},
      {"store", '\0', "FILE", Repeats::once, {}, "the file of prices and quotes to use instead of your own"},
      {"dump", '\0', "STAGE", Repeats::once, {}, "print what STAGE made as JSON and stop"},
      {"stats", '\0', "", Repeats::once, {}, "time, size and memory of each stage, to standard error"},
      {"diagnostics", '\0', "FORM", Repeats::once, {"text", "json"}, "form of messages: text (default) or json lines"},
  };
  return kRows;
}

const OptionRow& option_row(std::string_view name) {
  for (const OptionRow& row : option_rows()) {
    if (row.name == name) return row;
  }
  assert(false && "an option that the table does not have");
  return option_rows().front();
}

namespace {

const std::vector<CommandRow> kCommandRows = {
    {"init",
     "FOLDER",
     1,
     1,
     "write a starter garden to edit",
     "Makes FOLDER with a small garden, a practice file, an invented supplier's catalog and schemas for editors, "
     "each "
     "explained by comments. The folder must be new or empty: nothing is ever overwritten.",
     {"diagnostics"},
     {{"teetally init my-garden", "then edit my-garden/garden.yaml"}}},
    {"check",
     "DESIGN",
     1,
     1,
     "does the garden work at its tap?",
     "Reads the design, lays out its tubing in three dimensions, computes flows and pressures and says for every "
     "zone "
     "whether it works, with what to change where it does not. Needs no catalogs.",
     {"advise", "rows", "set", "practice", "vocabulary", "format", "output", "units", "dump", "stats", "diagnostics"},
     {{"teetally check garden.yaml", "the verdict, zone by zone"},
      {"teetally check garden.yaml --advise", "and what to change, as lines to paste into the design"},
      {"teetally check garden.yaml --set rows=4", "with another value of a parameter"}}},
    {"run-card",
     "DESIGN",
     1,
     1,
     "how long to water each zone, on one page",
     "Reads the design, computes what each zone gives, and says how many starts a week it needs and how many minutes "
     "each. How much the plants are to get, and what the soil holds, is for you to state in a practice file.",
     {"practice", "set", "vocabulary", "format", "output", "units", "dump", "stats", "diagnostics"},
     {{"teetally run-card garden.yaml --practice practice.yaml", "with 'water a week' stated there"}}},
    {"takeoff",
     "DESIGN|PARTS",
     1,
     1,
     "list every part, with the reasons for each",
     "Lists every part the garden needs, with the reasons that add up to its count. Waste and spares stand apart; "
     "what the site has already is deducted. Needs no catalogs.",
     {"set", "practice", "vocabulary", "format", "output", "units", "dump", "stats", "diagnostics"},
     {{"teetally takeoff garden.yaml", "the list, to read"},
      {"teetally takeoff garden.yaml --format csv -o parts.csv", "the list, to calculate on"}}},
    {"buy",
     "DESIGN|PARTS",
     1,
     1,
     "find the cheapest order for all of it",
     "Finds the order with the lowest total cost (goods, discounts, shipping, fees and tax) that brings every part "
     "needed, from one supplier or several, loose or in bundles, and says how sure that is. A parts list may stand "
     "in for a design.",
     {"catalogs",    "only",    "avoid",  "most-suppliers", "no-bundles", "take-bundle", "on-hand",    "cut-list",
      "near-misses", "seconds", "engine", "today",          "set",        "practice",    "vocabulary", "format",
      "templates",   "output",  "units",  "dump",           "stats",      "diagnostics"},
     {{"teetally buy garden.yaml --catalogs catalogs", "from every catalog in a folder"},
      {"teetally buy parts.csv --catalogs a.yaml b.yaml --most-suppliers 1", "one supplier, whichever is cheaper"},
      {"teetally buy garden.yaml --catalogs catalogs --format csv -o order.csv", "the order, to send"},
      {"teetally buy garden.yaml --catalogs catalogs --format html -o order.html", "a page to print, to take along"}},
     {"html"}},
    {"explain",
     "DESIGN|PARTS WORD",
     2,
     2,
     "why is this part here?",
     "Walks parts back: order line, offer, need, reason, and the line of the file that asked for it. WORD is a "
     "need's "
     "number (N07), a sku, or the name of a kind of part. Without catalogs the walk starts at the need.",
     {"catalogs", "only", "avoid", "most-suppliers", "no-bundles", "take-bundle", "on-hand", "seconds", "engine",
      "today", "set", "practice", "vocabulary", "format", "output", "units", "stats", "diagnostics"},
     {{"teetally explain garden.yaml tee", "every tee, back to the design"},
      {"teetally explain garden.yaml N07 --catalogs catalogs", "and what could have served instead"}}},
    {"plan",
     "DESIGN",
     1,
     1,
     "draw the garden from above, to scale",
     "Draws beds, tubing and every fitting as an SVG picture with the numbers of the takeoff, lengths, a scale and a "
     "key. It prints on one sheet. Needs no catalogs.",
     {"layer", "set", "practice", "vocabulary", "output", "units", "stats", "diagnostics"},
     {{"teetally plan garden.yaml -o plan.svg", "the plan, to print or to look at in a browser"},
      {"teetally plan garden.yaml --layer pressure -o pressure.svg", "with pressures instead of lengths"}}},
    {"catalog check",
     "FILE...",
     1,
     -1,
     "are these catalogs sound?",
     "Reads catalogs and reports everything that is wrong with them, with places; then what each holds.",
     {"vocabulary", "today", "format", "output", "units", "stats", "diagnostics"},
     {{"teetally catalog check catalogs", "every catalog in a folder"}}},
    {"catalog record",
     "FILE...",
     1,
     -1,
     "keep today's prices",
     "Reads catalogs as 'catalog check' does and keeps their files and prices in the store, with the date. Recording "
     "the same file again only notes that its prices still hold.",
     {"vocabulary", "today", "store", "format", "output", "stats", "diagnostics"},
     {{"teetally catalog record catalogs", "every catalog in a folder"}}},
    {"catalog history",
     "SKU",
     1,
     1,
     "what did this cost, and when?",
     "Shows every price of a sku that was recorded, by supplier and pack, with the days from when to when.",
     {"store", "format", "output", "units", "stats", "diagnostics"},
     {{"teetally catalog history FH-TE50", "each price it has had"}}},
    {"quote",
     "DESIGN|PARTS",
     1,
     1,
     "what to ask for the work",
     "Buys as buy does, adds labour, charges, overhead, contingency, profit and tax from a job file, and writes the "
     "customer's copy, which shows no cost, supplier or profit, or the internal one, which shows everything.",
     {"catalogs", "job",     "copy",   "only",       "avoid", "most-suppliers", "no-bundles", "take-bundle",
      "on-hand",  "seconds", "engine", "today",      "set",   "practice",       "vocabulary", "format",
      "output",   "units",   "stats",  "diagnostics"},
     {{"teetally quote garden.yaml --job job.yaml --catalogs catalogs", "the customer's copy"},
      {"teetally quote garden.yaml --job job.yaml --catalogs catalogs --copy internal", "with all costs"}}},
    {"store backup",
     "FILE",
     1,
     1,
     "copy the store to a file",
     "Copies all that the store keeps into one file, which may be used as a store itself. A file of that name is "
     "replaced, whole or not at all.",
     {"store", "diagnostics"},
     {{"teetally store backup prices-and-quotes.sqlite", ""}}},
    {"templates write",
     "FOLDER",
     1,
     1,
     "write out the page templates, to edit",
     "Writes the templates and the style sheet of which pages are made into FOLDER, which must be new or empty. Keep "
     "those that you change; the shipped ones stand in for the others.",
     {"diagnostics"},
     {{"teetally templates write my-pages", "then edit my-pages/order.mustache"}}},
    {"templates check",
     "FOLDER",
     1,
     1,
     "are these page templates sound?",
     "Reads the templates in FOLDER and says, with the line, which names no page knows and which tags do not close.",
     {"diagnostics"},
     {{"teetally templates check my-pages", ""}}},
    {"pool",
     "POOL",
     1,
     1,
     "many plots, one order, fair shares",
     "Reads a pool file of plots and members, works out every design, buys all parts of all plots in one cheapest "
     "order, and shares out what it costs so that nobody pays more than alone. Equal plots are worked out once.",
     {"catalogs", "shares", "plot", "skip-bad", "only", "avoid", "most-suppliers", "no-bundles", "seconds", "engine",
      "today", "practice", "vocabulary", "format", "output", "units", "stats", "diagnostics"},
     {{"teetally pool pool.yaml --catalogs catalogs", "the order and everybody's share"},
      {"teetally pool pool.yaml --catalogs catalogs --plot A1", "how plot A1's share comes about"}}},
    {"help", "[COMMAND]", 0, 2, "this page, or the page of a command", "", {}, {{"teetally help buy", ""}}},
    {"version", "", 0, 0, "the program's version", "", {}, {}},
};

}  // namespace

const std::vector<CommandRow>& command_rows() { return kCommandRows; }

const CommandRow* find_command(std::string_view name) {
  for (const CommandRow& row : command_rows()) {
    if (row.name == name) return &row;
  }
  return nullptr;
}

}  // namespace teetally
