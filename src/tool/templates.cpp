#include "tool/templates.h"

#include <algorithm>
#include <filesystem>

#include "tool/commands.h"
#include "tool/new_folder.h"

namespace teetally {
namespace {

namespace fs = std::filesystem;

bool looks_like_one(const fs::path& file) { return file.extension() == ".mustache" || file.extension() == ".css"; }

// By name, so that messages come in the same order everywhere.
std::vector<fs::path> files_in(const std::string& folder, Diagnostics& diagnostics) {
  std::vector<fs::path> files;
  std::error_code failed;
  for (const auto& entry : fs::directory_iterator(folder, failed)) {
    if (looks_like_one(entry.path())) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  if (failed) {
    diagnostics.error("render/no-templates", {}, "cannot read the folder " + quoted(folder) + ": " + failed.message())
        .help = "teetally templates write FOLDER makes one";
  } else if (files.empty()) {
    diagnostics
        .error("render/no-templates", {},
               quoted(folder) + " has no templates; files such as order.mustache or style.css are expected")
        .help = "teetally templates write FOLDER makes a folder of them";
  }
  return files;
}

void read_one(const fs::path& file, OwnTemplates& own, Diagnostics& diagnostics) {
  const std::string name = file.filename().string();
  const std::vector<std::string> known = template_names();
  const Source source = read_source(file.string(), diagnostics);
  if (!source) return;
  if (std::find(known.begin(), known.end(), name) == known.end()) {
    Diagnostic& d = diagnostics.error("render/unknown-template", Place{source, 1, 1},
                                      "no page is made from " + quoted(name) + "; expected " + listed(known));
    if (const auto near = nearest_word(name, known)) d.help = "did you mean " + quoted(*near) + "?";
    return;
  }
  check_template(name, source, diagnostics);
  own[name] = source;
}

}  // namespace

std::optional<OwnTemplates> read_templates(const std::string& folder, Diagnostics& diagnostics) {
  Diagnostics found;
  OwnTemplates own;
  for (const fs::path& file : files_in(folder, found)) read_one(file, own, found);
  for (Diagnostic& d : found.in_order()) diagnostics.add(std::move(d));
  if (found.has_errors()) return std::nullopt;
  return own;
}

std::optional<OwnTemplates> templates_wanted(Session& session) {
  if (!session.request.templates) return OwnTemplates{};
  return read_templates(*session.request.templates, session.diagnostics);
}

Answer run_templates_check(Session& session) {
  const auto own = read_templates(session.request.arguments[0], session.diagnostics);
  if (!own) return stopped(session);
  std::string out;
  for (const auto& [name, source] : *own) out += name + ": sound\n";
  return {ExitCode::done, out};
}

Answer run_templates_write(Session& session) {
  const std::string& folder = session.request.arguments[0];
  if (folder.empty()) {
    session.diagnostics.error("tool/missing-argument", {}, "the folder's name is empty").help =
        "usage: teetally templates write FOLDER";
    return stopped(session);
  }
  if (!is_new_folder(folder, session.diagnostics)) return stopped(session);
  return {ExitCode::done, write_shipped("pages/", folder) +
                              next_steps({"edit the templates in " + folder, "teetally templates check " + folder})};
}

}  // namespace teetally
