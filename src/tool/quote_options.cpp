#include "tool/quote_options.h"

namespace teetally {
namespace {

// A design of its own has parameters of its own; other values of the same design come on top of those given.
std::optional<Bought> buy_option(Session& session, const JobOption& option) {
  const std::map<std::string, std::string> given = session.request.set;
  if (!option.design.empty()) session.request.set.clear();
  for (const auto& [name, value] : option.set) session.request.set[name] = value;
  const std::string path =
      option.design.empty() ? session.request.arguments[0] : beside(*session.request.job, option.design);
  auto bought = buy_all(session, path, false);
  session.request.set = given;
  return bought;
}

void check_option(const JobOption& option, const Bought& bought, Diagnostics& diagnostics) {
  const bool works = !bought.sized || bought.sized->verdict != Verdict::will_not_work;
  if (works && bought.purchase.outcome == Outcome::bought) return;
  diagnostics
      .error("quote/option-without-order", option.place,
             "option " + quoted(option.name) +
                 " cannot be quoted: " + (works ? "no order was found for it" : "its garden will not work as drawn"))
      .help = works ? "'teetally buy' with its design says what is in the way"
                    : "'teetally check' with its design says what to change";
}

}  // namespace

std::optional<std::int64_t> beds_of(const Bought& bought) {
  if (!bought.site) return std::nullopt;
  return static_cast<std::int64_t>(bought.site->beds.size());
}

std::vector<Bought> buy_options(Session& session, const Job& job) {
  std::vector<Bought> all;
  for (const JobOption& option : job.options) {
    if (option.is_quoted_design()) continue;
    auto bought = buy_option(session, option);
    if (!bought) return {};
    check_option(option, *bought, session.diagnostics);
    all.push_back(std::move(*bought));
  }
  return all;
}

}  // namespace teetally
