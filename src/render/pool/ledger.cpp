#include <fmt/format.h>

#include "render/json_parts.h"
#include "render/phrases.h"
#include "render/pool/round_words.h"
#include "teetally/base/csv.h"
#include "teetally/render/round.h"

namespace teetally {
namespace {

constexpr auto kRight = Column::Side::right;

}  // namespace

const Plot& plot_of_line(const LedgerView& view, std::size_t line) {
  return view.result.pool.plots[static_cast<std::size_t>(view.result.plots[line].plot)];
}

std::string line_note(const RoundLine& line) {
  std::string note = line.has_left ? "left after the freeze" : "";
  if (line.pieces_short > 0) note += note.empty() ? "goes short" : ", goes short";
  return note;
}

std::string after_round(RoundState state) {
  switch (state) {
    case RoundState::open:
      return "Plots may still join or leave in the pool file. Then freeze: note the total in the round file.";
    case RoundState::frozen:
      return "Collect what is owed, then order.";
    case RoundState::ordered:
      return "What those who left would have had goes to the pool's stock, or to who takes it over from them.";
    case RoundState::received:
      return "Hand out by the pick lists; pay back or collect the differences.";
  }
  return {};
}

std::string round_words(const LedgerView& view) {
  return fmt::format("The round is {}. The suppliers get {} {}.", to_text(view.round.state),
                     view.result.pool.currency.code, to_text(view.settled.total, view.result.pool.currency));
}

std::string left_words(const LedgerView& view) {
  if (view.round.left.empty()) return {};
  std::vector<std::string> dropped;
  for (const int part : view.settled.not_bought) {
    dropped.push_back(quoted(printable(view.result.pool.plots[static_cast<std::size_t>(part)].name)));
  }
  return fmt::format(
      "Bought without those who left{} the order costs {} less. They owe what that does not cover; nobody else pays "
      "more.",
      dropped.empty() ? "" : ", and without " + listed(dropped) + ", which only they pay for,",
      to_text(view.settled.saved, view.result.pool.currency));
}

std::string ledger_text(const LedgerView& view, const Page& page) {
  const Currency& currency = view.result.pool.currency;
  const auto changed = [&](Money amount) { return amount == Money{} ? std::string() : to_text(amount, currency); };
  std::string text = title_line(view.result.pool.name, "Pool") + "\n";
  text += wrapped(round_words(view), page.width);
  TextTable table{{{"Plot"},
                   {"Member", Column::Side::left, true},
                   {"Share", kRight},
                   {"Leaving", kRight},
                   {"Deliveries", kRight},
                   {"Owes " + currency.code, kRight},
                   {"Note"}},
                  {}};
  for (std::size_t l = 0; l < view.settled.lines.size(); ++l) {
    const RoundLine& line = view.settled.lines[l];
    table.rows.push_back({printable(plot_of_line(view, l).name), printable(plot_of_line(view, l).member),
                          to_text(line.share, currency), changed(line.leaving), changed(line.deliveries),
                          to_text(line.owes(), currency), line_note(line)});
  }
  text += heading("Who owes what") + laid_out(table, page.width, 2);
  const std::string left = left_words(view);
  if (!left.empty()) text += "\n" + wrapped(left, page.width);
  return text + "\n" + wrapped(after_round(view.round.state), page.width);
}

std::string ledger_csv(const LedgerView& view) {
  const Currency& currency = view.result.pool.currency;
  std::string out = csv_row({"plot", "member", "share", "leaving", "deliveries", "owes", "currency", "note"});
  for (std::size_t l = 0; l < view.settled.lines.size(); ++l) {
    const RoundLine& line = view.settled.lines[l];
    out += csv_row({plot_of_line(view, l).name, plot_of_line(view, l).member, to_string(line.share, currency),
                    to_string(line.leaving, currency), to_string(line.deliveries, currency),
                    to_string(line.owes(), currency), currency.code, line_note(line)});
  }
  return out;
}

Json ledger_document(const LedgerView& view) {
  const auto money = [&](Money amount) { return Json(to_string(amount, view.result.pool.currency)); };
  Json plots = Json::array();
  for (std::size_t l = 0; l < view.settled.lines.size(); ++l) {
    const RoundLine& line = view.settled.lines[l];
    Json json = Json::object();
    json.set("name", plot_of_line(view, l).name).set("member", plot_of_line(view, l).member);
    json.set("share", money(line.share)).set("leaving", money(line.leaving)).set("deliveries", money(line.deliveries));
    json.set("owes", money(line.owes())).set("left", line.has_left);
    plots.push(json.set("short", line.pieces_short > 0));
  }
  Json json = document_start("teetally/ledger", view.result.pool.name);
  json.set("state", to_text(view.round.state)).set("currency", view.result.pool.currency.code);
  json.set("total", money(view.settled.total)).set("saved", money(view.settled.saved));
  return json.set("plots", std::move(plots));
}

}  // namespace teetally
