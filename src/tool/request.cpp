#include "tool/request.h"

#include <algorithm>
#include <chrono>

#include "teetally/base/iso_date.h"

namespace teetally {
namespace {

constexpr double kLongestSearch = 86400;  // seconds; a day
constexpr int kMostSuppliers = 1000;

void bad_value(std::string_view option, const std::string& value, const std::string& expected,
               Diagnostics& diagnostics) {
  diagnostics.error("tool/bad-value", {},
                    "--" + std::string(option) + " is " + quoted(value) + "; expected " + expected);
}

// A workbook is no text for the screen.
void check_workbook(const Request& request, Diagnostics& diagnostics) {
  if (request.format != Format::xlsx) return;
  const bool of_pool = request.command->name == "pool";
  if (of_pool && request.paper != "orders" && request.paper != "cuts") {
    diagnostics.error("tool/options-disagree", {}, "only the papers 'orders' and 'cuts' of a pool make workbooks")
        .help = "add --paper orders or --paper cuts, or use another form: --format csv";
  }
  if (request.output) return;
  diagnostics.error("tool/no-output", {}, "a workbook cannot be shown on the screen; a file to write it to is expected")
      .help = "name it: -o " + std::string(request.command->name.substr(0, request.command->name.find(' '))) + ".xlsx";
}

Format format_of(std::string_view word) {
  if (word == "json") return Format::json;
  if (word == "csv") return Format::csv;
  if (word == "xlsx") return Format::xlsx;
  if (word == "svg") return Format::svg;
  return word == "html" ? Format::html : Format::text;
}

std::optional<double> seconds_of(const Invocation& invocation, Diagnostics& diagnostics) {
  const auto text = invocation.value("seconds");
  if (!text) return std::nullopt;
  const auto number = parse_number(*text);
  if (number && *number > 0 && *number <= kLongestSearch) return *number;
  bad_value("seconds", *text, "a number above 0, at most 86400", diagnostics);
  return std::nullopt;
}

std::optional<int> most_suppliers_of(const Invocation& invocation, Diagnostics& diagnostics) {
  const auto text = invocation.value("most-suppliers");
  if (!text) return std::nullopt;
  const auto number = parse_count(*text);
  if (number && *number >= 1 && *number <= kMostSuppliers) return static_cast<int>(*number);
  bad_value("most-suppliers", *text, "a whole number from 1 on", diagnostics);
  return std::nullopt;
}

// The number of a quote or a revision.
std::optional<std::int64_t> number_of(const Invocation& invocation, std::string_view option, Diagnostics& diagnostics) {
  const auto text = invocation.value(option);
  if (!text) return std::nullopt;
  const auto number = parse_count(*text);
  if (number && *number >= 1) return *number;
  bad_value(option, *text, "a number from 1 on", diagnostics);
  return std::nullopt;
}

std::map<std::string, std::string> parameters_of(const Invocation& invocation, Diagnostics& diagnostics) {
  std::map<std::string, std::string> set;
  for (const std::string& text : invocation.values("set")) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos || equals == 0) {
      bad_value("set", text, "NAME=VALUE, as in --set rows=4", diagnostics);
    } else if (!set.emplace(text.substr(0, equals), text.substr(equals + 1)).second) {
      diagnostics.error("tool/given-twice", {}, "--set gives " + quoted(text.substr(0, equals)) + " two values");
    }
  }
  return set;
}

BuyLimits limits_of(const Invocation& invocation, Diagnostics& diagnostics) {
  BuyLimits limits;
  limits.only_suppliers = invocation.values("only");
  limits.avoid_suppliers = invocation.values("avoid");
  limits.most_suppliers = most_suppliers_of(invocation, diagnostics);
  limits.no_bundles = invocation.has("no-bundles");
  limits.take_bundle = invocation.value("take-bundle");
  if (limits.no_bundles && limits.take_bundle) {
    diagnostics.error("tool/options-disagree", {}, "--no-bundles and --take-bundle exclude each other");
  }
  limits.seconds = seconds_of(invocation, diagnostics).value_or(limits.seconds);
  limits.engine = invocation.value("engine").value_or(limits.engine);
  return limits;
}

// What is kept in the store, or taken from it.
void read_keeping(const Invocation& invocation, Request& request, Diagnostics& found) {
  request.keep = invocation.has("keep");
  request.reason = invocation.value("for");
  request.from_stock = invocation.has("from-stock");
  request.report_only = invocation.has("report-only");
  if (request.from_stock && request.on_hand) {
    found.error("tool/options-disagree", {}, "--from-stock and --on-hand exclude each other").help =
        "'teetally stock add FILE' puts the parts of a list into the stock";
  }
  request.revise = number_of(invocation, "revise", found);
  request.revision = number_of(invocation, "revision", found);
  request.against = number_of(invocation, "against", found);
  if (request.keep && request.revise) {
    found.error("tool/options-disagree", {}, "--keep and --revise exclude each other: a revision is kept anyway");
  }
}

void check_folder(const Request& request, Diagnostics& found) {
  const bool in_sheets = request.paper == "picks" || request.paper == "statements";
  if (!request.folder || (in_sheets && request.format == Format::html && !request.plot)) return;
  found.error("tool/options-disagree", {}, "--folder is for the pages of all pick lists or all statements").help =
      "say --paper picks --format html, or --paper statements --format html";
}

}  // namespace

std::optional<Request> read_request(const Invocation& invocation, const Surroundings& around,
                                    Diagnostics& diagnostics) {
  Diagnostics found;
  Request request;
  request.command = invocation.command;
  request.arguments = invocation.arguments;
  request.format = format_of(invocation.value("format").value_or(std::string(invocation.command->forms.front())));
  const std::string layer = invocation.value("layer").value_or("lengths");
  request.layer = layer == "flow" ? PlanLayer::flow : layer == "pressure" ? PlanLayer::pressure : PlanLayer::lengths;
  request.output = invocation.value("output");
  if (const auto units = invocation.value("units")) {
    request.units = *units == "metric" ? UnitSystem::metric : UnitSystem::us;
  }
  request.dump = invocation.value("dump");
  request.stats = invocation.has("stats");
  request.practice = invocation.value("practice");
  request.vocabulary = invocation.value("vocabulary");
  request.on_hand = invocation.value("on-hand");
  request.job = invocation.value("job");
  request.templates = invocation.value("templates");
  request.internal_copy = invocation.value("copy") == "internal";
  read_keeping(invocation, request, found);
  request.set = parameters_of(invocation, found);
  request.catalogs = invocation.values("catalogs");
  request.limits = limits_of(invocation, found);
  request.advise = invocation.has("advise");
  request.rows = invocation.has("rows");
  request.bad_plots = invocation.has("skip-bad") ? BadPlots::leave_out : BadPlots::stop;
  std::string rule = invocation.value("shares").value_or("price-list");
  std::replace(rule.begin(), rule.end(), '-', ' ');
  request.share_rule = share_rule(rule).value_or(ShareRule::price_list);
  request.plot = invocation.value("plot");
  request.round = invocation.value("round");
  request.member = invocation.value("member");
  request.book = invocation.has("book");
  if (request.book && !request.round) {
    found.error("tool/options-disagree", {}, "--book books what a round says, and none is given").help =
        "name its file: --round FILE";
  }
  request.certificate = invocation.value("certificate");
  request.paper = invocation.value("paper").value_or("summary");
  request.folder = invocation.value("folder");
  check_folder(request, found);
  request.near_misses = invocation.has("near-misses");
  request.cut_list = invocation.has("cut-list");
  request.by_place = invocation.has("by-place");
  request.why = invocation.has("why");
  request.deep = invocation.has("deep");
  check_workbook(request, found);
  request.today = invocation.value("today").value_or(around.clock_date);
  request.store = invocation.value("store").value_or(around.store);
  if (!is_iso_date(request.today)) bad_value("today", request.today, "a date such as 2026-04-30", found);
  for (Diagnostic& d : found.in_order()) diagnostics.add(std::move(d));
  if (found.has_errors()) return std::nullopt;
  return request;
}

}  // namespace teetally
