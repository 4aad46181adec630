// The pool file as values: designs by name, plots one by one or in series, shared parts. Judges nothing but form.
#include "quote/pool_reader.h"

#include <fmt/format.h>

#include <algorithm>

namespace teetally {
namespace {

constexpr std::int64_t kMostPlots = 200'000;  // in one series
constexpr std::int64_t kMostPieces = 1'000'000;
constexpr std::string_view kNumberMark = "{n}";
const BareUnits kNoUnits;

class PoolReader {
 public:
  PoolReader(const Vocabulary& vocabulary, BadPlots bad, Diagnostics& diagnostics)
      : vocabulary_(vocabulary), bad_(bad), diagnostics_(diagnostics) {}

  PoolFile read(const YamlNode& root) {
    Fields fields(root, "quote", "the pool", kNoUnits, diagnostics_);
    if (!fields.is_mapping()) return std::move(pool_);
    if (!is_pool(fields)) return std::move(pool_);
    pool_.name = fields.text("name").value_or("");
    read_currency(fields);
    pool_.families_per_plot =
        fields.one_of("fit families", {"common", "per plot"}).value_or("common") == std::string("per plot");
    if (fields.one_of("leftovers", {"stock", "by use"}).value_or("stock") == std::string("by use")) {
      pool_.leftovers = LeftoverRule::by_use;
    }
    if (const YamlNode* node = fields.require("designs")) read_designs(*node);
    for (const YamlNode* node : fields.list("plots")) read_plots(*node);
    if (const auto file = fields.text("members")) {
      pool_.members_file = *file;
      pool_.members_place = fields.place_of("members");
    }
    for (const YamlNode* node : fields.list("shared")) read_shared(*node);
    fields.finish();
    return std::move(pool_);
  }

 private:
  // Of another kind of file nothing else is complained of.
  bool is_pool(Fields& fields) {
    if (fields.require("teetally") == nullptr) return true;
    const auto version = fields.text("teetally");
    if (!version || *version == "pool 1") return true;
    diagnostics_
        .error("quote/not-a-pool", fields.place_of("teetally"),
               fmt::format("found {}, expected 'pool 1'", quoted(*version)))
        .help = "the first line of a pool file is 'teetally: pool 1'";
    fields.forgive();
    return false;
  }

  void read_currency(Fields& fields) {
    const auto code = fields.text("currency");
    if (!code) return;
    const auto currency = find_currency(*code);
    if (currency) {
      pool_.currency = *currency;
      pool_.currency_place = fields.place_of("currency");
    }
    if (!currency) diagnostics_.error("quote/bad-value", fields.place_of("currency"), currency.error());
  }

  // What plots and designs have in common; `works` holds what the design named says already.
  void read_works(Fields& fields, PlotWorks& works, Diagnostics& found) {
    if (const YamlNode* set = fields.find("set")) {
      Fields values(*set, "quote", "set", kNoUnits, found);
      for (const YamlEntry& entry : set->entries) {
        if (const auto value = values.text(entry.key)) works.set[entry.key] = *value;
      }
    }
    for (const std::string& kind : fields.texts("without")) {
      do_without(works, kind, fields.place_of("without"), vocabulary_, found);
    }
    for (const YamlNode* node : fields.list("has")) read_part_there(*node, works, found);
  }

  void read_part_there(const YamlNode& node, PlotWorks& works, Diagnostics& found) {
    Fields fields(node, "quote", "a part that is there", kNoUnits, found);
    if (!fields.is_mapping()) return;
    PartThere there;
    there.place = fields.place();
    there.count = fields.count("count", 1, kMostPieces).value_or(1);
    there.length = fields.length("length").value_or(Length{});
    const auto part = read_part(fields, vocabulary_, kNoUnits, found);
    fields.finish();
    if (!part) return;
    there.part = *part;
    works.has.push_back(std::move(there));
  }

  void read_designs(const YamlNode& node) {
    if (node.kind != YamlNode::Kind::mapping) {
      diagnostics_.error("quote/wrong-type", node.place,
                         fmt::format("'designs' is {}; expected a mapping of names to files", describe(node)));
      return;
    }
    for (const YamlEntry& entry : node.entries) {
      PlotWorks works;
      if (entry.value.kind == YamlNode::Kind::scalar) {
        works.file = entry.value.text;
      } else {
        Fields fields(entry.value, "quote", "design " + quoted(entry.key), kNoUnits, diagnostics_);
        if (fields.require("file") != nullptr) works.file = fields.text("file").value_or("");
        read_works(fields, works, diagnostics_);
        fields.finish();
      }
      pool_.designs[entry.key] = works;
      pool_.design_names.push_back(entry.key);
    }
  }

  std::optional<PlotWorks> works_of(Fields& fields, Diagnostics& found) {
    if (fields.require("design") == nullptr) return std::nullopt;
    const auto name = fields.text("design");
    auto works = name ? design_called(pool_, *name, fields.place_of("design"), found) : std::nullopt;
    PlotWorks other;
    read_works(fields, works ? *works : other, found);
    return works;
  }

  // Numbers for a series of plots; a single plot is a series of one.
  struct Series {
    std::string pattern;
    std::int64_t from = 1, to = 1;
    bool numbered = false;
  };
  static Series series_of(Fields& fields, Diagnostics& found) {
    Series series;
    series.numbered = fields.has("series");
    if (!series.numbered) {
      if (fields.require("plot") != nullptr) series.pattern = fields.text("plot").value_or("");
      return series;
    }
    series.pattern = fields.text("series").value_or("");
    series.from = fields.count("from", 0, kMostPlots).value_or(1);
    series.to = fields.count("to", 0, kMostPlots).value_or(0);
    if (series.pattern.find(kNumberMark) == std::string::npos || series.to < series.from) {
      found.error("quote/bad-series", fields.place_of("series"), "a series needs {n} in its name, and 'from' <= 'to'")
          .help = "write for example: {series: \"B{n}\", from: 1, to: 12, design: bed}";
    }
    return series;
  }

  void read_plots(const YamlNode& node) {
    Diagnostics found;
    Fields fields(node, "quote", "a plot", kNoUnits, found);
    Plot plot;
    plot.place = fields.is_mapping() ? fields.place() : node.place;
    plot.member = fields.text("member").value_or("");
    plot.takes_part = fields.yes_no("in").value_or(true);
    plot.cash_limit = fields.money("cash limit", pool_.currency);
    auto works = works_of(fields, found);
    const Series series = series_of(fields, found);
    fields.finish();
    const bool sound = report_plot(found, bad_, diagnostics_) && works;
    if (!sound) pool_.refused += static_cast<int>(std::max<std::int64_t>(1, series.to - series.from + 1));
    if (sound) plot.works = add_works(pool_, std::move(*works));
    for (std::int64_t n = series.from; n <= series.to; ++n) {
      plot.name = name_of(series, n);
      if (!sound) pool_.refused_names.insert(plot.name);
      if (sound) pool_.plots.push_back(plot);
    }
  }

  static std::string name_of(const Series& series, std::int64_t number) {
    std::string name = series.pattern;
    const std::size_t mark = series.numbered ? name.find(kNumberMark) : std::string::npos;
    if (mark != std::string::npos) name.replace(mark, kNumberMark.size(), std::to_string(number));
    return name;
  }

  void read_shared(const YamlNode& node) {
    Fields fields(node, "quote", "a shared part", kNoUnits, diagnostics_);
    if (!fields.is_mapping()) return;
    Plot plot;
    plot.place = fields.place();
    plot.is_shared = true;
    if (fields.require("name") != nullptr) plot.name = fields.text("name").value_or("");
    plot.paid_by = fields.texts("paid by");
    plot.paid_by_place = fields.place_of("paid by");
    if (fields.has("paid by") && plot.paid_by.empty()) {
      diagnostics_
          .error("quote/no-payer", plot.paid_by_place,
                 fmt::format("{} is paid by nobody; expected names of plots", quoted(plot.name)))
          .help = "name plots of this pool; without 'paid by' all plots pay";
    }
    auto works = works_of(fields, diagnostics_);
    fields.finish();
    if (!works) return;
    plot.works = add_works(pool_, std::move(*works));
    pool_.plots.push_back(std::move(plot));
  }

  const Vocabulary& vocabulary_;
  BadPlots bad_;
  Diagnostics& diagnostics_;
  PoolFile pool_;
};

}  // namespace

bool report_plot(const Diagnostics& found, BadPlots bad, Diagnostics& diagnostics) {
  for (Diagnostic& d : found.in_order()) {
    if (bad == BadPlots::leave_out) d.severity = Severity::warning;
    diagnostics.add(std::move(d));
  }
  return !found.has_errors();
}

std::optional<PlotWorks> design_called(const PoolFile& pool, const std::string& name, const Place& place,
                                       Diagnostics& diagnostics) {
  const auto found = pool.designs.find(name);
  if (found != pool.designs.end()) return found->second;
  Diagnostic& d = diagnostics.error("quote/unknown-design", place,
                                    fmt::format("no design of this pool is called {}", quoted(name)));
  if (const auto near = nearest_word(name, pool.design_names)) d.help = "did you mean " + quoted(*near) + "?";
  return std::nullopt;
}

namespace {

bool is_kind(const std::string& kind, const Place& place, const Vocabulary& vocabulary, Diagnostics& diagnostics) {
  if (vocabulary.find(kind) != nullptr) return true;
  Diagnostic& d = diagnostics.error("quote/unknown-kind", place, fmt::format("unknown kind of part {}", quoted(kind)));
  if (const auto near = nearest_word(kind, vocabulary.kind_names())) d.help = "did you mean " + quoted(*near) + "?";
  return false;
}

}  // namespace

void do_without(PlotWorks& works, const std::string& kind, const Place& place, const Vocabulary& vocabulary,
                Diagnostics& diagnostics) {
  if (is_kind(kind, place, vocabulary, diagnostics)) works.without.push_back(kind);
}

void has_one(PlotWorks& works, const std::string& kind, const Place& place, const Vocabulary& vocabulary,
             Diagnostics& diagnostics) {
  if (!is_kind(kind, place, vocabulary, diagnostics)) return;
  if (vocabulary.find(kind)->by_length) {
    diagnostics
        .error("quote/bad-value", place, fmt::format("'has' is {}, which goes by length; no length fits here", kind))
        .help = "say how much in the pool file: has: [{kind: " + kind + ", size: 1/2 in, length: 20 ft}]";
    return;
  }
  PartThere there;
  there.part.kind = kind;
  there.place = place;
  works.has.push_back(std::move(there));
}

int add_works(PoolFile& pool, PlotWorks works) {
  pool.works.push_back(std::move(works));
  return static_cast<int>(pool.works.size()) - 1;
}

std::optional<PoolFile> read_pool(const Source& source, const Vocabulary& vocabulary, BadPlots bad,
                                  Diagnostics& diagnostics) {
  const YamlNode root = read_yaml(source, diagnostics);
  if (root.kind == YamlNode::Kind::null && diagnostics.has_errors()) return std::nullopt;
  PoolFile pool = PoolReader(vocabulary, bad, diagnostics).read(root);
  pool.source = source;
  if (diagnostics.has_errors()) return std::nullopt;
  return pool;
}

}  // namespace teetally
