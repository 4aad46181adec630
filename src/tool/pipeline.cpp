#include "tool/pipeline.h"

#include <algorithm>

#include "tool/units_of_file.h"

namespace teetally {
namespace {

std::int64_t size_of(const auto& list) { return static_cast<std::int64_t>(list.size()); }

std::optional<Practice> practice_of(Session& session) {
  Practice practice = timed(session, "practice", [&] {
    if (!session.request.practice) return shipped_practice();
    const Source source = read_input(*session.request.practice, session.diagnostics);
    return source ? read_practice(source, session.diagnostics) : Practice{};
  });
  if (must_stop(session, "practice", [&] { return to_json(practice); })) return std::nullopt;
  return practice;
}

std::optional<Worked> work_out(Session& session, const Source& source, Vocabulary vocabulary) {
  Worked worked;
  worked.vocabulary = std::move(vocabulary);
  auto practice = practice_of(session);
  if (!practice) return std::nullopt;
  worked.practice = std::move(*practice);
  worked.site = timed(session, "design",
                      [&] { return read_design(source, worked.vocabulary, session.request.set, session.diagnostics); });
  if (must_stop(session, "design", [&] { return to_json(worked.site); })) return std::nullopt;
  worked.units = session.request.units.value_or(worked.site.units);
  Garden garden = timed(session, "garden", [&] { return lay_out(worked.site, worked.practice, session.diagnostics); });
  note_size(session, counted(size_of(garden.legs), "leg") + ", " + counted(size_of(garden.fittings), "fitting"));
  if (must_stop(session, "garden", [&] { return to_json(garden); })) return std::nullopt;
  worked.sized = timed(session, "hydraulics", [&] {
    return size_garden(std::move(garden), worked.practice, worked.units, session.diagnostics);
  });
  note_size(session, counted(size_of(worked.sized.runs), "run"));
  if (must_stop(session, "hydraulics", [&] { return to_json(worked.sized); })) return std::nullopt;
  return worked;
}

// What a file that is neither a design nor a parts list says it is; empty when it does not say.
std::string_view other_kind(FileKind kind) {
  switch (kind) {
    case FileKind::pool:
      return "a pool";
    case FileKind::catalog:
      return "a catalog";
    case FileKind::practice:
      return "a practice file";
    case FileKind::vocabulary:
      return "a vocabulary";
    case FileKind::on_hand:
      return "a list of parts on hand";
    default:
      return {};
  }
}

std::string_view help_with(FileKind kind) {
  if (kind == FileKind::pool) return "a pool of plots is bought with 'teetally pool'";
  if (kind == FileKind::catalog) return "look at it with 'teetally catalog check', and buy from it with --catalogs";
  return "its first line should be 'teetally: design 1' or 'teetally: parts list 1'";
}

// Whether the file is a list of parts; anything that is neither that nor a design is refused.
enum class Input { design, parts_list, neither };
Input kind_of_input(const Source& source, std::string_view expected, Diagnostics& diagnostics) {
  const FileKind kind = kind_of_file(source);
  switch (kind) {
    case FileKind::design:
      return Input::design;
    case FileKind::parts_list:
      return Input::parts_list;
    default:
      // A file that cannot be read at all does not say anything; what is wrong with it comes first.
      read_yaml(source, diagnostics);
      if (diagnostics.has_errors()) return Input::neither;
      const std::string_view other = other_kind(kind);
      std::string found = other.empty() ? "this file does not say that it is " : "this file is ";
      if (!other.empty()) found.append(other).append(", not ");
      diagnostics.error("tool/not-a-design", Place{source, 1, 1}, found.append(expected)).help = help_with(kind);
      return Input::neither;
  }
}

}  // namespace

std::optional<Vocabulary> read_vocabulary(Session& session) {
  Vocabulary vocabulary = timed(session, "vocabulary", [] { return shipped_vocabulary(); });
  if (session.request.vocabulary) {
    if (const Source source = read_input(*session.request.vocabulary, session.diagnostics)) {
      extend_vocabulary(vocabulary, read_yaml(source, session.diagnostics), session.diagnostics);
    }
  }
  note_size(session, counted(static_cast<std::int64_t>(vocabulary.kinds.size()), "kind"));
  if (session.diagnostics.has_errors()) return std::nullopt;
  return vocabulary;
}

std::optional<Worked> work_out(Session& session, const std::string& path) {
  const Source source = read_input(path, session.diagnostics);
  if (!source) return std::nullopt;
  auto vocabulary = read_vocabulary(session);
  if (!vocabulary) return std::nullopt;
  switch (kind_of_input(source, "a design", session.diagnostics)) {
    case Input::design:
      return work_out(session, source, std::move(*vocabulary));
    case Input::parts_list:
      session.diagnostics.error("tool/not-a-design", Place{source, 1, 1},
                                "a parts list has no tubing to check; a design is expected");
      return std::nullopt;
    case Input::neither:
      return std::nullopt;
  }
  return std::nullopt;
}

std::optional<Listed> list_needs(Session& session, const std::string& path) {
  const Source source = read_input(path, session.diagnostics);
  if (!source) return std::nullopt;
  auto vocabulary = read_vocabulary(session);
  if (!vocabulary) return std::nullopt;
  const Input input = kind_of_input(source, "a design or a parts list", session.diagnostics);
  if (input == Input::neither) return std::nullopt;
  Listed listed;
  if (input == Input::parts_list) {
    listed.units = session.request.units.value_or(units_of_file(source));
    auto takeoff = timed(session, "needs", [&] { return read_parts_list(source, *vocabulary, session.diagnostics); });
    if (takeoff) listed.takeoff = std::move(*takeoff);
    listed.vocabulary = std::move(*vocabulary);
  } else {
    auto worked = work_out(session, source, std::move(*vocabulary));
    if (!worked) return std::nullopt;
    listed.units = worked->units;
    listed.takeoff = timed(session, "needs", [&] {
      return take_off(worked->sized, worked->practice, worked->vocabulary, worked->units, session.diagnostics);
    });
    listed.site = std::move(worked->site);
    listed.sized = std::move(worked->sized);
    listed.vocabulary = std::move(worked->vocabulary);
  }
  note_size(session, counted(size_of(listed.takeoff.needs), "need"));
  if (must_stop(session, "needs", [&] { return to_json(listed.takeoff); })) return std::nullopt;
  return listed;
}

}  // namespace teetally
