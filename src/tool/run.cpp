#include "tool/run.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>

#include "teetally/catalog/read_with.h"
#include "tool/command_line_checks.h"
#include "tool/commands.h"
#include "tool/progress.h"
#include "tool/terminal.h"

namespace teetally {
namespace {

using Clock = std::chrono::steady_clock;

Answer run_command(Session& session) {
  static const std::map<std::string_view, Answer (*)(Session&)> kCommands = {
      {"init", run_init},
      {"check", run_check},
      {"run-card", run_run_card},
      {"takeoff", run_takeoff},
      {"buy", run_buy},
      {"verify", run_verify},
      {"compare", run_compare},
      {"explain", run_explain},
      {"plan", run_plan},
      {"catalog check", run_catalog_check},
      {"quote", run_quote},
      {"pool", run_pool},
      {"catalog record", run_catalog_record},
      {"catalog import", run_catalog_import},
      {"catalog history", run_catalog_history},
      {"store backup", run_store_backup},
      {"stock list", run_stock_list},
      {"stock add", run_stock_add},
      {"stock receive", run_stock_receive},
      {"stock use", run_stock_use},
      {"stock count", run_stock_count},
      {"stock adjust", run_stock_adjust},
      {"ledger list", run_ledger_list},
      {"ledger show", run_ledger_show},
      {"ledger pay", run_ledger_pay},
      {"ledger refund", run_ledger_refund},
      {"ledger cancel", run_ledger_cancel},
      {"templates write", run_templates_write},
      {"templates check", run_templates_check},
      {"quote list", run_quote_list},
      {"quote show", run_quote_show},
      {"quote again", run_quote_again},
      {"quote change", run_quote_change},
      {"quote accept", run_quote_accept},
      {"quote withdraw", run_quote_withdraw},
      {"help", run_help},
      {"version", run_version},
  };
  return kCommands.at(session.request.command->name)(session);
}

// Read off the words themselves, so that a faulty command line is reported in the form it asks for.
bool wants_json_lines(const std::vector<std::string>& words) {
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == "--diagnostics=json") return true;
    if (words[i] == "--diagnostics" && i + 1 < words.size() && words[i + 1] == "json") return true;
  }
  return false;
}

void report(const Diagnostics& diagnostics, bool json_lines) {
  print_message(json_lines ? report_json_lines(diagnostics) : report_text(diagnostics));
}

// Stages that can be asked for with --dump; a command that never reaches the one asked for says so.
const std::vector<std::string>& stage_names() {
  static const std::vector<std::string> kNames = {"practice", "design",  "garden", "hydraulics",
                                                  "needs",    "catalog", "offers", "purchase"};
  return kNames;
}

void check_dump(const Session& session, Diagnostics& diagnostics) {
  if (!session.request.dump || diagnostics.has_errors()) return;
  const std::string& stage = *session.request.dump;
  const std::vector<std::string>& known = stage_names();
  if (std::find(known.begin(), known.end(), stage) == known.end()) {
    Diagnostic& d =
        diagnostics.error("tool/bad-value", {}, "--dump is " + quoted(stage) + "; expected " + either(known));
    if (const auto near = nearest_word(stage, known)) d.help = "did you mean " + quoted(*near) + "?";
  } else if (!session.dumped) {
    diagnostics.error("tool/stage-not-reached", {},
                      quoted(session.request.command->name) + " of this file has no stage " + quoted(stage));
  }
}

// Writing over a file that was read would destroy the user's own work.
void check_output(const Request& request, std::string_view option, const std::optional<std::string>& output,
                  Diagnostics& diagnostics) {
  if (!output || *output == "-") return;
  std::vector<std::string> inputs = request.arguments;
  inputs.push_back(request.store);
  Diagnostics unheard;  // the reader of the catalogs says it
  for (const std::string& file : catalog_files(request.catalogs, unheard)) inputs.push_back(file);
  for (const auto& one : {request.practice, request.vocabulary, request.on_hand, request.job, request.round}) {
    if (one) inputs.push_back(*one);
  }
  for (const std::string& input : inputs) {
    std::error_code unknown;  // a file that is not there is no clash
    if (!std::filesystem::equivalent(input, *output, unknown)) continue;
    diagnostics
        .error("tool/output-over-input", {},
               "--" + std::string(option) + " would overwrite " + quoted(input) + ", which is read")
        .help = "name another file";
  }
}

// The order would take the place of its certificate.
void check_certificate(const Request& request, Diagnostics& diagnostics) {
  if (!request.output || !request.certificate || *request.output != *request.certificate) return;
  diagnostics
      .error("tool/options-disagree", {},
             "--output and --certificate name the same file, " + quoted(printable(*request.output)))
      .help = "give each a file of its own";
}

std::string stats_text(const Session& session, Clock::time_point start) {
  std::string out;
  for (const StageTime& stage : session.times) {
    out += fmt::format("{:<12} {:>9.2f} ms  {}\n", stage.name, stage.milliseconds, stage.size);
  }
  const std::chrono::duration<double, std::milli> all = Clock::now() - start;
  out += fmt::format("{:<12} {:>9.2f} ms  {:.1f} MiB at most\n", "all", all.count(),
                     static_cast<double>(peak_memory_kib()) / 1024.0);
  return out;
}

void hand_over(const Answer& answer, const Request& request) {
  if (request.output && *request.output != "-") {
    write_file(*request.output, answer.output);
    print_result("wrote " + printable(*request.output) + "\n");
  } else {
    print_result(answer.output);
  }
}

}  // namespace

ExitCode run(const std::vector<std::string>& words) {
  const Clock::time_point start = Clock::now();
  const bool json_lines = wants_json_lines(words);
  Session session;
  const auto invocation = read_command_line(words, session.diagnostics);
  const auto request = invocation ? read_request(*invocation, {clock_date(), usual_store()}, session.diagnostics)
                                  : std::optional<Request>();
  if (request) {
    check_output(*request, "output", request->output, session.diagnostics);
    check_output(*request, "certificate", request->certificate, session.diagnostics);
    check_certificate(*request, session.diagnostics);
  }
  if (session.diagnostics.has_errors()) {
    report(session.diagnostics, json_lines);
    return ExitCode::your_input;
  }
  session.request = *request;
  session.width = terminal_width();
  Progress progress;
  session.progress = &progress;
  Answer answer = run_command(session);
  progress.end();
  check_dump(session, session.diagnostics);
  if (session.diagnostics.has_errors()) answer = {ExitCode::your_input, {}};
  report(session.diagnostics, json_lines);
  if (!answer.output.empty()) hand_over(answer, session.request);
  if (session.request.stats) print_message(stats_text(session, start));
  return answer.code;
}

}  // namespace teetally
