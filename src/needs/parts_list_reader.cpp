#include <fmt/format.h>

#include <algorithm>

#include "needs/parts_list.h"

namespace teetally {
namespace {

constexpr std::int64_t kMostPieces = 1'000'000;
constexpr std::int64_t kMostCuts = 10'000;      // pieces of one length in one entry
constexpr Length kLongest = metres(1'000'000);  // of one piece; keeps every sum far inside 64 bits

void check_version(Fields& list, Diagnostics& diagnostics) {
  if (list.require("teetally") == nullptr) return;
  const auto version = list.text("teetally");
  if (!version || *version == "parts list 1") return;
  diagnostics
      .error("needs/wrong-version", list.place_of("teetally"),
             fmt::format("found {}, expected 'parts list 1'", quoted(*version)))
      .help = "this program reads parts lists of version 1";
}

// Pieces, a total length, or so many pieces of one length.
void read_amount(Fields& fields, bool by_length, ListedPart& listed, Diagnostics& diagnostics) {
  const bool has_count = fields.has("count");
  const bool has_length = fields.has("length");
  if (const auto count = fields.count("count", 1, by_length ? kMostCuts : kMostPieces)) listed.count = *count;
  const auto length = fields.length("length");
  if (length) listed.length = *length;
  listed.is_total = !has_count;
  if (by_length) listed.may_join = fields.yes_no("may be joined").value_or(false);
  const std::string noun = quoted(listed.part.kind);
  if (by_length && !has_length) {
    diagnostics.error("needs/no-amount", listed.place, fmt::format("{} is cut by length and none is given", noun))
        .help = "add its length, as in: length: 84 ft 6 in";
  } else if (by_length && length && (length->tenths_mm <= 0 || *length > kLongest)) {
    diagnostics.error("needs/bad-amount", fields.place_of("length"),
                      fmt::format("the length of {} must be more than nothing and at most 1,000 km", noun));
  } else if (!by_length && !has_count) {
    diagnostics.error("needs/no-amount", listed.place, fmt::format("no count is given for {}", noun)).help =
        "add how many, as in: count: 3";
  } else if (!by_length && has_length) {
    diagnostics
        .error("needs/bad-amount", fields.place_of("length"),
               fmt::format("{} is counted in pieces, but a length is given", noun))
        .help = "give a count, or name a kind that is cut by length";
  }
}

std::optional<ListedPart> read_listed_part(const YamlNode& node, std::size_t number, const BareUnits& bare,
                                           const Vocabulary& vocabulary, Diagnostics& diagnostics) {
  Fields fields(node, "needs", fmt::format("part {}", number), bare, diagnostics);
  if (!fields.is_mapping()) return std::nullopt;
  ListedPart listed;
  listed.place = fields.place();
  listed.purpose = fields.text("for").value_or("");
  listed.system = fields.text("system").value_or("");
  const auto part = read_part(fields, vocabulary, bare, diagnostics);
  if (part) {
    listed.part = *part;
    read_amount(fields, vocabulary.find(part->kind)->by_length, listed, diagnostics);
  }
  fields.finish();
  if (!part) return std::nullopt;
  return listed;
}

}  // namespace

std::optional<PartsList> read_parts(const YamlNode& root, const Vocabulary& vocabulary, Diagnostics& diagnostics) {
  const BareUnits none;
  PartsList list;
  Fields fields(root, "needs", "parts list", none, diagnostics);
  if (!fields.is_mapping()) return std::nullopt;
  check_version(fields, diagnostics);
  list.name = fields.text("name").value_or("");
  list.connected = fields.yes_no("connected").value_or(true);
  const BareUnits bare = read_bare_units(fields, "needs", diagnostics);
  if (fields.require("parts") != nullptr) {
    const auto nodes = fields.list("parts");
    for (std::size_t i = 0; i < nodes.size(); ++i) {
      if (auto listed = read_listed_part(*nodes[i], i + 1, bare, vocabulary, diagnostics)) {
        list.parts.push_back(std::move(*listed));
      }
    }
    if (nodes.empty() && !diagnostics.has_errors()) {
      diagnostics.error("needs/no-parts", fields.place_of("parts"), "the list has no parts").help =
          "add entries such as: {kind: tee, size: 1/2 in, branch size: 1/2 in, count: 3}";
    }
  }
  fields.finish();
  if (diagnostics.has_errors()) return std::nullopt;
  return list;
}

}  // namespace teetally
