#pragma once
// An Invocation's texts become typed wishes. Values that cannot be are diagnostics (tool/bad-value).
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "teetally/base.h"
#include "teetally/purchase.h"
#include "teetally/quote/shares.h"
#include "tool/command_line.h"

namespace teetally {

enum class Format { text, json, csv };

struct Request {
  const CommandRow* command = nullptr;
  std::vector<std::string> arguments;
  Format format = Format::text;
  std::optional<std::string> output;
  std::optional<UnitSystem> units;
  std::optional<std::string> dump;
  bool stats = false;
  std::optional<std::string> practice, vocabulary, on_hand;
  std::map<std::string, std::string> set;
  std::vector<std::string> catalogs;
  BuyLimits limits;
  bool near_misses = false;
  bool skip_bad = false;
  ShareRule share_rule = ShareRule::price_list;
  std::optional<std::string> plot;
  bool advise = false, rows = false;
  std::string today;  // ISO date
};

// `clock_date` is today's date by the clock, used where no --today is given.
std::optional<Request> read_request(const Invocation& invocation, const std::string& clock_date,
                                    Diagnostics& diagnostics);
bool is_date(std::string_view text);  // 2026-04-30, a day that exists

}  // namespace teetally
