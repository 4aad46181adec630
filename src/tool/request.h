#pragma once
// An Invocation's texts become typed wishes. Values that cannot be are diagnostics (tool/bad-value).
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "teetally/base.h"
#include "teetally/purchase.h"
#include "teetally/quote/pool.h"
#include "teetally/render/plan.h"
#include "tool/command_line.h"

namespace teetally {

enum class Format { text, json, csv, html, svg, xlsx };

struct Request {
  const CommandRow* command = nullptr;
  std::vector<std::string> arguments;
  std::optional<std::string> output, dump;
  std::optional<std::string> practice, vocabulary, on_hand, job, templates;
  std::map<std::string, std::string> set;
  std::vector<std::string> catalogs;
  BuyLimits limits;
  std::optional<std::string> plot, round, member, folder;
  std::string paper = "summary";
  std::optional<std::string> reason;                      // of a change of the stock
  std::optional<std::int64_t> revise, revision, against;  // of quotes
  std::optional<std::string> certificate;                 // where to write one
  std::string today;                                      // ISO date
  std::string store;                                      // the file; empty: no place for one is known
  std::optional<UnitSystem> units;
  Format format = Format::text;
  BadPlots bad_plots = BadPlots::stop;
  ShareRule share_rule = ShareRule::price_list;
  PlanLayer layer = PlanLayer::lengths;
  bool stats = false, near_misses = false, cut_list = false, by_place = false, advise = false, rows = false;
  bool internal_copy = false;
  bool keep = false, book = false, from_stock = false;  // in the store
  bool report_only = false;
  bool why = false, deep = false;
};

// What holds where no option says otherwise: today's date by the clock, the store in the user's data folder.
struct Surroundings {
  std::string clock_date, store;
};
std::optional<Request> read_request(const Invocation& invocation, const Surroundings& around, Diagnostics& diagnostics);

}  // namespace teetally
