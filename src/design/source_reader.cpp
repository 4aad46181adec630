// `source:` the tap, what it gives, and what is on it already.
#include <fmt/format.h>

#include <cmath>

#include "design/elements_reader.h"
#include "design/measures.h"

namespace teetally::design {

namespace {

constexpr double kLongestTest = 86400;  // seconds

// "5 gal in 50 s" as a flow.
void read_bucket(const YamlNode& node, const Reading& reading, UnitSystem units, SiteSource& source) {
  if (!has_keys(node, "bucket", "{volume: 5 gal, seconds: 60}", reading.diagnostics)) return;
  Fields fields(node, "design", "bucket", reading.bare, reading.diagnostics);
  fields.require("volume");
  fields.require("seconds");
  const std::optional<Volume> volume = fields.volume("volume");
  const std::optional<double> seconds = fields.number("seconds", 1, kLongestTest);
  fields.finish();
  if (!volume || !seconds) return;
  if (volume->ul <= 0) {
    reading.diagnostics.error("design/bad-value", fields.place_of("volume"), "'volume' must be more than nothing");
    return;
  }
  // Microlitres to nanolitres, seconds to hours.
  const double flow = static_cast<double>(volume->ul) * 1000.0 * 3600.0 / *seconds;
  if (flow > 1e17) {
    reading.diagnostics.error("design/bad-value", fields.place_of("volume"), "no garden tap gives that much");
    return;
  }
  source.flow = Flow{std::llround(flow)};
  source.flow_origin = fmt::format("bucket test: {} in {} s", to_text(*volume, units), *seconds);
}

void read_existing(Fields& fields, const Reading& reading, Site& site) {
  for (const YamlNode* item : fields.list("existing")) {
    Fields part(*item, "design", "existing part", reading.bare, reading.diagnostics);
    if (!part.is_mapping()) continue;
    std::optional<PartSpec> spec = read_part(part, reading.vocabulary, reading.bare, reading.diagnostics);
    OwnedPart owned;
    owned.place = part.place();
    const KindType* kind = spec ? reading.vocabulary.find(spec->kind) : nullptr;
    if (kind && kind->by_length) {
      part.require("length");
      owned.length = length_above_zero(part, "length", reading.diagnostics).value_or(Length{});
    } else if (kind) {
      owned.count = part.count("count", 1, 1'000'000).value_or(1);
    } else {
      part.has("count");
      part.has("length");
      continue;
    }
    part.finish();
    owned.part = std::move(*spec);
    site.existing.push_back(std::move(owned));
  }
}

}  // namespace

void read_source_and_existing(const YamlNode& node, const Reading& reading, Site& site) {
  Fields fields(node, "design", "source", reading.bare, reading.diagnostics);
  SiteSource& source = site.source;
  source.place = node.place;
  if (!fields.is_mapping()) return;
  if (const auto name = fields.text("name")) source.name = *name;
  if (const YamlNode* at = fields.find("at")) {
    const Point point = read_point(*at, reading.bare, reading.diagnostics).value_or(Point{});
    source.east = point.east;
    source.north = point.north;
    source.up = point.up;
  }
  fields.require("thread");
  source.thread = fields.text("thread").value_or("");
  source.static_pressure = pressure_above_zero(fields, "pressure", reading.diagnostics);
  source.flow = flow_above_zero(fields, "flow", reading.diagnostics);
  if (source.flow) source.flow_origin = "stated";
  const YamlNode* bucket = fields.find("bucket");
  if (bucket && fields.has("flow")) {
    reading.diagnostics
        .error("design/contradiction", fields.place_of("bucket"), "both 'flow' and 'bucket' say what the tap gives")
        .help = "keep the one you trust";
  } else if (bucket) {
    read_bucket(*bucket, reading, site.units, source);
  }
  source.timer = fields.yes_no("timer").value_or(false);
  source.injector = fields.yes_no("injector").value_or(false);
  if (fields.has("existing")) read_existing(fields, reading, site);
  fields.finish();
}

}  // namespace teetally::design
