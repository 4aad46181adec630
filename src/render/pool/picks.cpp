// Pick lists and the packing sequence.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "render/json_parts.h"
#include "render/phrases.h"
#include "render/pool/parts.h"
#include "render/pool/pick_words.h"
#include "teetally/base/csv.h"

namespace teetally {
namespace {

constexpr std::size_t kMostOpenedShown = 8;

bool shown(const PaperView& view, const PlotPicks& plot) {
  return !view.plot || plot_of(view.result, plot.line).name == *view.plot;
}

std::string pick_list(const PaperView& view, const PlotPicks& plot, std::size_t position, const Page& page) {
  std::string text = fmt::format("{}. Pick list: {}\n", position, plot_title(plot_of(view.result, plot.line)));
  TextTable table{{{""}, {"Amount", Column::Side::right}, {"What", Column::Side::left, true}, {"From"}}, {}};
  for (const PickWords& row : words_of(view, plot.picks, page.units)) {
    table.rows.push_back({"[ ]", row.amount, printable(row.where.empty() ? row.name : row.name + ": " + row.where),
                          printable(row.from)});
  }
  text += table.rows.empty() ? "  nothing to pick\n" : laid_out(table, page.width, 2);
  return text + "\n  Packed by ____________  Received by ____________  Date ________\n";
}

std::string stock_text(const PaperView& view, const Page& page) {
  TextTable table{{{""}, {"Amount", Column::Side::right}, {"What", Column::Side::left, true}, {"From"}}, {}};
  for (const PickWords& row : words_of(view, view.out.stock, page.units)) {
    table.rows.push_back({"[ ]", row.amount, printable(row.where.empty() ? row.name : row.name + ": " + row.where),
                          printable(row.from)});
  }
  return table.rows.empty() ? "" : heading("To the pool's stock") + laid_out(table, page.width, 2);
}

}  // namespace

std::vector<PackingStep> packing_steps(const PaperView& view) {
  std::vector<PackingStep> steps;
  for (std::size_t p = 0; p < view.out.sequence.size(); ++p) {
    const auto basket = [&](std::size_t at) { return share_of(view.result, view.out.sequence[at].line).basket; };
    if (!steps.empty() && basket(steps.back().last) == basket(p))
      steps.back().last = p;
    else
      steps.push_back({p, p});
  }
  return steps;
}

std::vector<PackThere> newly_opened(const PaperView& view, const PackingStep& step, std::set<int>& begun) {
  std::vector<PackThere> packs;
  for (std::size_t p = step.first; p <= step.last; ++p) {
    for (const Pick& pick : view.out.sequence[p].picks) {
      if (pick.pack < 0 || !begun.insert(pick.pack).second) continue;
      packs.push_back(view.out.packs[static_cast<std::size_t>(pick.pack)]);
    }
  }
  return packs;
}

std::vector<std::string> pack_ranges(const PoolResult& result, const std::vector<PackThere>& packs) {
  struct Range {
    PackThere first;
    std::int64_t last = 0;
  };
  std::vector<Range> ranges;
  for (const PackThere& pack : packs) {
    const auto before = std::find_if(ranges.begin(), ranges.end(), [&](const Range& range) {
      return same_sku(range.first, pack) && range.last + 1 == pack.number;
    });
    if (before != ranges.end()) before->last = pack.number;
    if (before == ranges.end()) ranges.push_back({pack, pack.number});
  }
  std::vector<std::string> labels;
  for (const Range& range : ranges) {
    const std::string to = range.last == range.first.number ? "" : fmt::format(" to {}", range.last);
    labels.push_back(pack_label(result, range.first) + to);
  }
  return labels;
}

std::string opened_words(const PoolResult& result, const std::vector<PackThere>& packs) {
  if (packs.empty()) return "nothing new";
  if (packs.size() > kMostOpenedShown) return counted(size_of(packs), "pack");
  return listed(pack_ranges(result, packs));
}

std::string step_names(const PaperView& view, const PackingStep& step) {
  const std::string first = printable(plot_of(view.result, view.out.sequence[step.first].line).name);
  if (step.first == step.last) return first;
  const std::string last = printable(plot_of(view.result, view.out.sequence[step.last].line).name);
  return fmt::format("{} to {} ({} alike)", first, last, step.last - step.first + 1);
}

std::string picks_text(const PaperView& view, const Page& page) {
  std::string text;
  for (std::size_t p = 0; p < view.out.sequence.size(); ++p) {
    if (!shown(view, view.out.sequence[p])) continue;
    text += (text.empty() ? "" : "\n") + pick_list(view, view.out.sequence[p], p + 1, page);
  }
  return view.plot ? text : text + stock_text(view, page);
}

std::string picks_csv(const PaperView& view, UnitSystem units) {
  std::string out = csv_row({"position", "plot", "member", "amount", "sku", "name", "from", "piece"});
  const auto rows = [&](const std::vector<std::string>& start, const std::vector<Pick>& picks) {
    for (const PickWords& row : words_of(view, picks, units)) {
      std::vector<std::string> cells = start;
      cells.insert(cells.end(), {row.amount, row.sku, row.name, row.from, row.where});
      out += csv_row(cells);
    }
  };
  for (std::size_t p = 0; p < view.out.sequence.size(); ++p) {
    if (!shown(view, view.out.sequence[p])) continue;
    const Plot& plot = plot_of(view.result, view.out.sequence[p].line);
    rows({std::to_string(p + 1), plot.name, plot.member}, view.out.sequence[p].picks);
  }
  if (!view.plot) rows({"", "", "the pool's stock"}, view.out.stock);
  return out;
}

std::string packing_words(const PaperView& view) {
  std::string open;
  if (view.out.most_open > 0) {
    open = fmt::format(
        " At most {} open at once{}.", counted(view.out.most_open, "pack stands", "packs stand"),
        view.out.most_open == view.out.most_open_as_listed
            ? ""
            : fmt::format(" in this sequence; in the order of the file it would be {}", view.out.most_open_as_listed));
  }
  return fmt::format("Packing sequence: {}. Cut the coils first and label each piece with its plot.{}",
                     view.result.shared.empty()
                         ? counted(size_of(view.out.sequence), "plot")
                         : counted(size_of(view.out.sequence), "plot and shared part", "plots and shared parts"),
                     open);
}

std::string packing_text(const PaperView& view, const Page& page) {
  std::string text = title_line(view.result.pool.name, "Pool") + "\n";
  text += wrapped(packing_words(view), page.width);
  TextTable table{{{"", Column::Side::right}, {"Pack"}, {"Opens", Column::Side::left, true}}, {}};
  std::set<int> begun;
  for (const PackingStep& step : packing_steps(view)) {
    table.rows.push_back({std::to_string(step.first + 1), step_names(view, step),
                          printable(opened_words(view.result, newly_opened(view, step, begun)))});
  }
  return text + heading("Sequence") + laid_out(table, page.width, 2) + stock_text(view, page);
}

std::string packing_csv(const PaperView& view) {
  std::string out = csv_row({"position", "plot", "member", "opens"});
  std::set<int> begun;
  for (std::size_t p = 0; p < view.out.sequence.size(); ++p) {
    const Plot& plot = plot_of(view.result, view.out.sequence[p].line);
    const std::vector<std::string> labels = pack_ranges(view.result, newly_opened(view, {p, p}, begun));
    out += csv_row({std::to_string(p + 1), plot.name, plot.member, labels.empty() ? "" : listed(labels)});
  }
  return out;
}

Json hand_out_document(const PaperView& view, UnitSystem units) {
  const auto picks_json = [&](const std::vector<Pick>& picks) {
    Json rows = Json::array();
    for (const PickWords& row : words_of(view, picks, units)) {
      Json json = Json::object();
      json.set("amount", row.amount).set("sku", row.sku).set("name", row.name).set("from", row.from);
      rows.push(json.set("piece", row.where.empty() ? Json() : Json(row.where)));
    }
    return rows;
  };
  Json plots = Json::array();
  for (std::size_t p = 0; p < view.out.sequence.size(); ++p) {
    if (!shown(view, view.out.sequence[p])) continue;
    const Plot& plot = plot_of(view.result, view.out.sequence[p].line);
    Json json = Json::object();
    json.set("position", p + 1).set("name", plot.name).set("member", plot.member);
    plots.push(json.set("picks", picks_json(view.out.sequence[p].picks)));
  }
  Json json = document_start("teetally/hand-out", view.result.pool.name);
  json.set("most_open", view.out.most_open).set("most_open_as_listed", view.out.most_open_as_listed);
  return json.set("plots", std::move(plots)).set("stock", picks_json(view.out.stock));
}

}  // namespace teetally
