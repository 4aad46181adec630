// Pages of a pooled order: the committee's summary, pick lists, the packing sequence, members' statements, who owes
// what.
#include <fmt/format.h>

#include <algorithm>

#include "render/page/template.h"
#include "render/page/values.h"
#include "render/phrases.h"
#include "render/pool/parts.h"
#include "render/pool/pick_words.h"
#include "render/pool/round_words.h"
#include "render/pool/words.h"
#include "teetally/render/pool_pages.h"

namespace teetally {
namespace {

std::string money_if_any(Money amount, const Currency& currency) {
  return amount == Money{} ? std::string() : to_text(amount, currency);
}

const Alone& alone_of(const PoolResult& result, const PlotShare& line) {
  return result.alone[static_cast<std::size_t>(line.basket)];
}

std::string alone_words(const PoolResult& result, const PlotShare& line) {
  const Alone& alone = alone_of(result, line);
  return alone.outcome == Outcome::bought ? to_text(alone.cost, result.pool.currency) : "?";
}

const Plot& plot_in(const PoolResult& result, const PlotShare& line) {
  return result.pool.plots[static_cast<std::size_t>(line.plot)];
}

Json suppliers_values(const PoolResult& result) {
  Json list = Json::array();
  for (const SupplierOrder& order : result.purchase.orders) {
    const Catalog& catalog = *result.book.catalogs[static_cast<std::size_t>(order.catalog)];
    Json values = Json::object();
    values.set("supplier", catalog.name).set("lines", std::to_string(order.lines.size()));
    list.push(values.set("supplier_total", to_text(order.cost.total, result.pool.currency)));
  }
  return list;
}

Json plots_values(const PoolResult& result) {
  const Currency& currency = result.pool.currency;
  Json list = Json::array();
  for (const PlotShare& line : result.plots) {
    const Alone& alone = alone_of(result, line);
    const bool known = alone.outcome == Outcome::bought;
    Json values = Json::object();
    values.set("plot", plot_in(result, line).name).set("member", plot_in(result, line).member);
    values.set("alone", alone_words(result, line)).set("own_parts", to_text(line.share.paid, currency));
    values.set("saves", known ? to_text(alone.cost - line.share.paid, currency) : "?");
    values.set("saves_percent", known && alone.cost > Money{}
                                    ? fmt::format("{:.0f} %", percent_of(alone.cost - line.share.paid, alone.cost))
                                    : "");
    values.set("shared_parts", money_if_any(line.for_shared, currency));
    list.push(values.set("pays", to_text(line.pays(), currency)));
  }
  return list;
}

Json shared_values(const PoolResult& result) {
  Json list = Json::array();
  for (const PlotShare& line : result.shared) {
    Json values = Json::object();
    values.set("part", plot_in(result, line).name).set("alone", alone_words(result, line));
    values.set("costs", to_text(line.share.paid, result.pool.currency));
    list.push(values.set("paid_by", payers_words(plot_in(result, line))));
  }
  return list;
}

Json left_over_values(const PoolResult& result, UnitSystem units) {
  Json list = Json::array();
  for (const LeftWords& left : left_over_words(result, units)) {
    list.push(Json::object().set("what", left.what).set("amount", left.amount));
  }
  return list;
}

Json picks_values(const PaperView& view, const std::vector<Pick>& picks, UnitSystem units) {
  Json list = Json::array();
  for (const PickWords& row : words_of(view, picks, units)) {
    Json values = Json::object();
    values.set("amount", row.amount).set("what", row.name).set("where", row.where);
    list.push(values.set("from", row.from));
  }
  return list;
}

// Ends of coils that are scrap are counted, and not told one by one.
Json stock_values(const PaperView& view, UnitSystem units) {
  std::vector<Pick> kept;
  std::int64_t scraps = 0;
  for (const Pick& pick : view.out.stock) {
    const bool is_end = pick.coil >= 0 && pick.cut < 0;
    const bool is_scrap = is_end && !view.result.purchase.coils[static_cast<std::size_t>(pick.coil)].spare;
    is_scrap ? void(++scraps) : kept.push_back(pick);
  }
  Json list = picks_values(view, kept, units);
  if (scraps > 0) {
    Json values = Json::object();
    values.set("amount", std::to_string(scraps)).set("what", scraps == 1 ? "end of a coil" : "ends of coils");
    list.push(values.set("where", "too short to keep: scrap").set("from", ""));
  }
  return list;
}

// None, or one that holds them all, so that a template can leave out the heading.
Json to_stock_values(const PaperView& view, UnitSystem units) {
  Json list = Json::array();
  const bool to_the_end = view.to >= view.out.sequence.size();
  if (!view.plot && to_the_end && !view.out.stock.empty())
    list.push(Json::object().set("stock", stock_values(view, units)));
  return list;
}

// Plots of a member that pay alike are explained once.
Json explained_values(const PoolResult& result, const MemberAccount& account) {
  const auto alike = [](const PlotShare& a, const PlotShare& b) {
    return a.basket == b.basket && a.share.paid == b.share.paid && a.for_shared == b.for_shared;
  };
  std::vector<std::pair<const PlotShare*, std::vector<std::string>>> groups;
  for (const PlotShare* line : account.plots) {
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const auto& g) { return alike(*g.first, *line); });
    auto& names = same == groups.end() ? groups.emplace_back(line, std::vector<std::string>()).second : same->second;
    names.push_back(plot_in(result, *line).name);
  }
  Json list = Json::array();
  for (const auto& [line, names] : groups) {
    const std::string each = names.size() == 1 ? "Plot " : "Each of the plots ";
    list.push(Json::object().set("whose", each + listed(names)).set("steps", plain_texts(share_lines(result, *line))));
  }
  return list;
}

Json statement_values(const PoolResult& result, const MemberAccount& account) {
  const Currency& currency = result.pool.currency;
  Json plots = Json::array();
  for (const PlotShare* line : account.plots) {
    Json values = Json::object();
    values.set("plot", plot_in(result, *line).name).set("alone", alone_words(result, *line));
    values.set("own_parts", to_text(line->share.paid, currency));
    values.set("shared_parts", money_if_any(line->for_shared, currency));
    plots.push(values.set("pays", to_text(line->pays(), currency)));
  }
  Json values = Json::object();
  values.set("member", account.member).set("plots", std::move(plots));
  values.set("to_pay", to_text(account.own + account.shared, currency));
  values.set("saves_words", member_saving_words(account, currency));
  return values.set("explained", explained_values(result, account));
}

}  // namespace

Json pool_page_values(const PoolResult& result, const std::vector<NextStep>& steps, UnitSystem units) {
  std::vector<std::string> within;
  for (std::size_t s = 0; s < std::min(steps.size(), kMostSteps); ++s) within.push_back(step_words(result, steps[s]));
  Json values = Json::object();
  values.set("name", page_title(result.pool.name, "Pooled order")).set("lead", pool_summary(result));
  values.set("currency", result.pool.currency.code).set("proof", sureness(result.purchase.proof));
  std::vector<std::string> limits = limit_words(result);
  for (std::string& minimum : minimum_words(result)) limits.push_back(std::move(minimum));
  values.set("absences", plain_texts(absence_words(result))).set("orders", suppliers_values(result));
  values.set("total", to_text(result.purchase.total, result.pool.currency)).set("plots", plots_values(result));
  values.set("rule", to_text(result.shares.rule)).set("shared", shared_values(result));
  values.set("fairness", fairness_words(result)).set("limits", plain_texts(limits));
  values.set("savings", savings_words(result)).set("within_reach", plain_texts(within));
  values.set("left_over", left_over_values(result, units));
  return values.set("cautions", plain_texts(result.book.takeoff.cautions));
}

Json picks_page_values(const PaperView& view, UnitSystem units) {
  Json sheets = Json::array();
  for (std::size_t p = view.from; p < std::min(view.to, view.out.sequence.size()); ++p) {
    const PlotPicks& picks = view.out.sequence[p];
    const Plot& plot = plot_of(view.result, picks.line);
    if (view.plot && plot.name != *view.plot) continue;
    Json values = Json::object();
    values.set("position", std::to_string(p + 1)).set("kind", plot.is_shared ? "Shared part" : "Plot");
    values.set("plot", plot.name).set("member", plot.member);
    sheets.push(values.set("picks", picks_values(view, picks.picks, units)));
  }
  Json values = Json::object();
  values.set("name", page_title(view.result.pool.name, "Pool"));
  values.set("in_all", std::to_string(view.out.sequence.size())).set("sheets", std::move(sheets));
  return values.set("to_stock", to_stock_values(view, units));
}

Json packing_page_values(const PaperView& view, UnitSystem units) {
  Json steps = Json::array();
  std::set<int> begun;
  for (const PackingStep& step : packing_steps(view)) {
    Json values = Json::object();
    values.set("position", std::to_string(step.first + 1)).set("who", step_names(view, step));
    steps.push(values.set("opens", plain_texts(pack_ranges(view.result, newly_opened(view, step, begun)))));
  }
  Json values = Json::object();
  values.set("name", page_title(view.result.pool.name, "Pool")).set("lead", packing_words(view));
  return values.set("steps", std::move(steps)).set("to_stock", to_stock_values(view, units));
}

Json statements_page_values(const PaperView& view) {
  Json members = Json::array();
  const std::vector<MemberAccount> accounts = member_accounts(view);
  for (std::size_t a = view.from; a < std::min(view.to, accounts.size()); ++a) {
    members.push(statement_values(view.result, accounts[a]));
  }
  Json values = Json::object();
  values.set("name", page_title(view.result.pool.name, "Pool")).set("currency", view.result.pool.currency.code);
  return values.set("members", std::move(members));
}

Json round_page_values(const LedgerView& view) {
  const Currency& currency = view.result.pool.currency;
  Json lines = Json::array();
  for (std::size_t l = 0; l < view.settled.lines.size(); ++l) {
    const RoundLine& line = view.settled.lines[l];
    Json values = Json::object();
    values.set("plot", plot_of_line(view, l).name).set("member", plot_of_line(view, l).member);
    values.set("share", to_text(line.share, currency)).set("leaving", money_if_any(line.leaving, currency));
    values.set("deliveries", money_if_any(line.deliveries, currency)).set("owes", to_text(line.owes(), currency));
    lines.push(values.set("note", line_note(line)));
  }
  Json values = Json::object();
  values.set("name", page_title(view.result.pool.name, "Pool")).set("round", view.round.name);
  values.set("lead", round_words(view)).set("currency", currency.code).set("lines", std::move(lines));
  values.set("total", to_text(view.settled.total, currency)).set("left", left_words(view));
  return values.set("next", after_round(view.round.state));
}

std::string pool_page(const PoolResult& result, const std::vector<NextStep>& steps, UnitSystem units,
                      const OwnTemplates& own, Diagnostics& diagnostics) {
  return fill_paper(Paper::pool, pool_page_values(result, steps, units), own, diagnostics);
}

std::string picks_page(const PaperView& view, UnitSystem units, const OwnTemplates& own, Diagnostics& diagnostics) {
  return fill_paper(Paper::picks, picks_page_values(view, units), own, diagnostics);
}

std::string packing_page(const PaperView& view, UnitSystem units, const OwnTemplates& own, Diagnostics& diagnostics) {
  return fill_paper(Paper::packing, packing_page_values(view, units), own, diagnostics);
}

std::string statements_page(const PaperView& view, const OwnTemplates& own, Diagnostics& diagnostics) {
  return fill_paper(Paper::statements, statements_page_values(view), own, diagnostics);
}

std::string round_page(const LedgerView& view, const OwnTemplates& own, Diagnostics& diagnostics) {
  return fill_paper(Paper::round, round_page_values(view), own, diagnostics);
}

}  // namespace teetally
