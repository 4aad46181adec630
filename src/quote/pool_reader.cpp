// The pool file as values: designs by name, plots one by one or in series, shared parts. Judges nothing but form.
#include <fmt/format.h>

#include <algorithm>

#include "teetally/quote/pool.h"

namespace teetally {
namespace {

constexpr std::int64_t kMostPlots = 200'000;  // in one series
constexpr std::int64_t kMostPieces = 1'000'000;
const BareUnits kNoUnits;

class PoolReader {
 public:
  PoolReader(const Vocabulary& vocabulary, Diagnostics& diagnostics)
      : vocabulary_(vocabulary), diagnostics_(diagnostics) {}

  PoolFile read(const YamlNode& root) {
    Fields fields(root, "quote", "the pool", kNoUnits, diagnostics_);
    if (!fields.is_mapping()) return std::move(pool_);
    check_version(fields);
    pool_.name = fields.text("name").value_or("");
    read_currency(fields);
    pool_.families_per_plot =
        fields.one_of("fit families", {"common", "per plot"}).value_or("common") == std::string("per plot");
    if (const YamlNode* node = fields.require("designs")) read_designs(*node);
    for (const YamlNode* node : fields.list("plots")) read_plots(*node);
    if (const auto file = fields.text("members")) {
      pool_.members_file = *file;
      pool_.members_place = fields.place_of("members");
    }
    std::vector<const YamlNode*> shared = fields.list("shared");
    for (const YamlNode* node : shared) read_shared(*node);
    fields.finish();
    return std::move(pool_);
  }

 private:
  void check_version(Fields& fields) {
    if (fields.require("teetally") == nullptr) return;
    const auto version = fields.text("teetally");
    if (!version || *version == "pool 1") return;
    diagnostics_
        .error("quote/wrong-version", fields.place_of("teetally"),
               fmt::format("found {}, expected 'pool 1'", quoted(*version)))
        .help = "this program reads pool files of version 1";
  }

  void read_currency(Fields& fields) {
    const auto code = fields.text("currency");
    if (!code) return;
    const auto currency = find_currency(*code);
    if (currency) {
      pool_.currency = *currency;
    } else {
      diagnostics_.error("quote/bad-value", fields.place_of("currency"), currency.error());
    }
  }

  // What plots and designs have in common; `works` holds what the design named says already.
  void read_works(Fields& fields, PlotWorks& works) {
    if (const YamlNode* set = fields.find("set")) {
      Fields values(*set, "quote", "set", kNoUnits, diagnostics_);
      for (const YamlEntry& entry : set->entries) {
        if (const auto value = values.text(entry.key)) works.set[entry.key] = *value;
      }
    }
    for (const std::string& kind : fields.texts("without")) {
      if (vocabulary_.find(kind) != nullptr) {
        works.without.push_back(kind);
        continue;
      }
      Diagnostic& d = diagnostics_.error("quote/unknown-kind", fields.place_of("without"),
                                         fmt::format("no kind of part is called {}", quoted(kind)));
      if (const auto near = nearest_word(kind, vocabulary_.kind_names()))
        d.help = "did you mean " + quoted(*near) + "?";
    }
    for (const YamlNode* node : fields.list("has")) read_owned(*node, works);
  }

  void read_owned(const YamlNode& node, PlotWorks& works) {
    Fields fields(node, "quote", "a part that is there", kNoUnits, diagnostics_);
    if (!fields.is_mapping()) return;
    OwnedPart owned;
    owned.place = fields.place();
    owned.count = fields.count("count", 1, kMostPieces).value_or(1);
    owned.length = fields.length("length").value_or(Length{});
    const auto part = read_part(fields, vocabulary_, kNoUnits, diagnostics_);
    fields.finish();
    if (!part) return;
    owned.part = *part;
    works.has.push_back(std::move(owned));
  }

  void read_designs(const YamlNode& node) {
    if (node.kind != YamlNode::Kind::mapping) {
      diagnostics_.error("quote/wrong-type", node.place,
                         fmt::format("designs is {}; expected a mapping of names to designs", describe(node)));
      return;
    }
    for (const YamlEntry& entry : node.entries) {
      PlotWorks works;
      if (entry.value.kind == YamlNode::Kind::scalar) {
        works.file = entry.value.text;
      } else {
        Fields fields(entry.value, "quote", "design " + quoted(entry.key), kNoUnits, diagnostics_);
        if (fields.require("file") != nullptr) works.file = fields.text("file").value_or("");
        read_works(fields, works);
        fields.finish();
      }
      pool_.designs[entry.key] = works;
      pool_.design_names.push_back(entry.key);
    }
  }

  std::optional<PlotWorks> named_design(Fields& fields) {
    if (fields.require("design") == nullptr) return std::nullopt;
    const auto name = fields.text("design");
    if (!name) return std::nullopt;
    return design_called(pool_, *name, fields.place_of("design"), diagnostics_);
  }

 public:
  static std::optional<PlotWorks> design_called(const PoolFile& pool, const std::string& name, const Place& place,
                                                Diagnostics& diagnostics) {
    const auto found = pool.designs.find(name);
    if (found != pool.designs.end()) return found->second;
    Diagnostic& d = diagnostics.error("quote/unknown-design", place,
                                      fmt::format("no design of this pool is called {}", quoted(name)));
    if (const auto near = nearest_word(name, pool.design_names)) d.help = "did you mean " + quoted(*near) + "?";
    return std::nullopt;
  }

 private:
  int number_of(PlotWorks works) {
    pool_.works.push_back(std::move(works));
    return static_cast<int>(pool_.works.size()) - 1;
  }

  void read_plots(const YamlNode& node) {
    Fields fields(node, "quote", "a plot", kNoUnits, diagnostics_);
    if (!fields.is_mapping()) return;
    Plot plot;
    plot.place = fields.place();
    plot.member = fields.text("member").value_or("");
    plot.takes_part = fields.yes_no("in").value_or(true);
    plot.cash_limit = fields.money("cash limit", pool_.currency);
    auto works = named_design(fields);
    if (works) read_works(fields, *works);
    const bool series = fields.has("series");
    if (!series && fields.require("plot") != nullptr) plot.name = fields.text("plot").value_or("");
    const std::string pattern = fields.text("series").value_or("");
    const std::int64_t from = fields.count("from", 0, kMostPlots).value_or(1);
    const std::int64_t to = fields.count("to", 0, kMostPlots).value_or(0);
    if (series && (pattern.find("{n}") == std::string::npos || to < from)) {
      diagnostics_
          .error("quote/bad-series", fields.place_of("series"), "a series needs {n} in its name, and from <= to")
          .help = "write it as: series: B{n}, from: 1, to: 12";
    }
    fields.finish();
    if (!works) return;
    plot.works = number_of(std::move(*works));
    if (!series) return pool_.plots.push_back(std::move(plot));
    for (std::int64_t n = from; n <= to && pattern.find("{n}") != std::string::npos; ++n) {
      plot.name = pattern;
      plot.name.replace(pattern.find("{n}"), 3, std::to_string(n));
      pool_.plots.push_back(plot);
    }
  }

  void read_shared(const YamlNode& node) {
    Fields fields(node, "quote", "a shared part", kNoUnits, diagnostics_);
    if (!fields.is_mapping()) return;
    Plot plot;
    plot.place = fields.place();
    plot.is_shared = true;
    if (fields.require("name") != nullptr) plot.name = fields.text("name").value_or("");
    plot.paid_by = fields.texts("paid by");
    auto works = named_design(fields);
    if (works) read_works(fields, *works);
    fields.finish();
    if (!works) return;
    plot.works = number_of(std::move(*works));
    pool_.plots.push_back(std::move(plot));
  }

  const Vocabulary& vocabulary_;
  Diagnostics& diagnostics_;
  PoolFile pool_;
};

}  // namespace

std::optional<PoolFile> read_pool(const Source& source, const Vocabulary& vocabulary, Diagnostics& diagnostics) {
  const YamlNode root = read_yaml(source, diagnostics);
  if (root.kind == YamlNode::Kind::null && diagnostics.has_errors()) return std::nullopt;
  PoolFile pool = PoolReader(vocabulary, diagnostics).read(root);
  pool.source = source;
  if (diagnostics.has_errors()) return std::nullopt;
  return pool;
}

void add_members(PoolFile& pool, const Source& csv, Diagnostics& diagnostics) {
  const std::vector<CsvRow> rows = read_csv(csv, diagnostics);
  if (rows.empty()) return;
  const std::vector<CsvCell>& head = rows[0].cells;
  for (const CsvCell& cell : head) {
    const bool known = cell.text == "plot" || cell.text == "member" || cell.text == "design" || cell.text == "in" ||
                       cell.text == "cash limit" || cell.text.rfind("set ", 0) == 0;
    if (!known) {
      diagnostics
          .error("quote/unknown-column", cell.place, fmt::format("no column of plots is called {}", quoted(cell.text)))
          .help = "columns are plot, member, design, in, cash limit, and 'set NAME' for a parameter";
    }
  }
  for (std::size_t r = 1; r < rows.size(); ++r) {
    Plot plot;
    plot.place = rows[r].place;
    std::optional<PlotWorks> works;
    std::map<std::string, std::string> set;
    for (std::size_t c = 0; c < head.size(); ++c) {
      const std::string& column = head[c].text;
      const CsvCell& cell = rows[r].cells[c];
      if (column == "plot") plot.name = cell.text;
      if (column == "member") plot.member = cell.text;
      if (column == "design") works = PoolReader::design_called(pool, cell.text, cell.place, diagnostics);
      if (column == "in") plot.takes_part = cell.text != "no";
      if (column.rfind("set ", 0) == 0 && !cell.text.empty()) set[column.substr(4)] = cell.text;
      if (column != "cash limit" || cell.text.empty()) continue;
      const auto money = parse_money(cell.text, pool.currency);
      if (money) plot.cash_limit = *money;
      if (!money) diagnostics.error("quote/bad-value", cell.place, money.error());
    }
    if (!works) continue;
    for (const auto& [name, value] : set) works->set[name] = value;
    plot.works = static_cast<int>(pool.works.size());
    pool.works.push_back(std::move(*works));
    pool.plots.push_back(std::move(plot));
  }
}

void check_pool(const PoolFile& pool, Diagnostics& diagnostics) {
  std::map<std::string, Place> names;
  bool somebody = false;
  for (const Plot& plot : pool.plots) {
    if (plot.name.empty()) diagnostics.error("quote/no-name", plot.place, "a plot has no name");
    const auto [first, is_new] = names.emplace(plot.name, plot.place);
    if (!is_new) {
      diagnostics.error("quote/plot-twice", plot.place, fmt::format("two plots are called {}", quoted(plot.name)))
          .notes.push_back({"the first is here", first->second});
    }
    somebody = somebody || (plot.takes_part && !plot.is_shared);
  }
  if (!somebody) {
    diagnostics.error("quote/no-plots", Place{pool.source, 1, 1}, "nobody takes part: no plot is in this pool").help =
        "name plots under 'plots', or a CSV file under 'members'";
  }
  for (const Plot& plot : pool.plots) {
    for (const std::string& payer : plot.paid_by) {
      if (names.contains(payer)) continue;
      diagnostics.error("quote/unknown-plot", plot.place,
                        fmt::format("{} is paid by {}, and no plot is called that", quoted(plot.name), quoted(payer)));
    }
  }
}

}  // namespace teetally
