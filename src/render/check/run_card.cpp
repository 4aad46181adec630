// The run card: as text, as a JSON document and as rows.
#include "teetally/render/run_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "render/check/run_card_words.h"
#include "render/json_parts.h"
#include "render/phrases.h"
#include "teetally/base/csv.h"

namespace teetally {
namespace {

constexpr double kSquareFoot = 0.3048 * 0.3048, kGallon = 3.785411784;  // m2, l

// To whole minutes, but never nothing where there is something.
std::string minutes_phrase(double minutes) {
  const auto whole = static_cast<std::int64_t>(std::max(1.0, std::round(minutes)));
  if (whole < 60) return fmt::format("{} min", whole);
  return whole % 60 == 0 ? fmt::format("{} h", whole / 60) : fmt::format("{} h {} min", whole / 60, whole % 60);
}

std::string water_phrase(double litres, UnitSystem units) {
  return units == UnitSystem::metric ? fmt::format("{:.0f} l", litres) : fmt::format("{:.0f} gal", litres / kGallon);
}

std::string area_phrase(double m2, UnitSystem units) {
  return units == UnitSystem::metric ? fmt::format("{:.1f} m2", m2) : fmt::format("{:.0f} ft2", m2 / kSquareFoot);
}

std::string rate_phrase(double mm_per_h, UnitSystem units) {
  return units == UnitSystem::metric ? fmt::format("{:.1f} mm/h", mm_per_h)
                                     : fmt::format("{:.2f} in/h", mm_per_h / 25.4);
}

double rounded(double value, double steps) { return std::round(value * steps) / steps; }

TextTable zones_table(const RunCard& card, UnitSystem units) {
  TextTable table{{{"Zone", Column::Side::left, true},
                   {"Starts a week", Column::Side::right},
                   {"Each", Column::Side::right},
                   {"In all", Column::Side::right},
                   {"Water a week", Column::Side::right},
                   {"Onto", Column::Side::right},
                   {"Rate", Column::Side::right}},
                  {}};
  for (const ZoneRun& run : card.zones) {
    const ZoneWords words = zone_words(run, units);
    table.rows.push_back(
        {printable(words.zone), words.starts, words.each, words.in_all, words.water, words.onto, words.rate});
  }
  return table;
}

using Said = std::vector<std::pair<std::string, std::vector<std::string>>>;

// Sentences that hold for several zones are said once, with their names.
void say_of_zones(const RunCard& card, std::string_view what,
                  const std::function<std::vector<std::string>(const ZoneRun&)>& sentences,
                  std::vector<std::string>& words) {
  Said said;
  for (const ZoneRun& run : card.zones) {
    for (const std::string& sentence : sentences(run)) {
      const auto same = std::find_if(said.begin(), said.end(), [&](const auto& one) { return one.first == sentence; });
      if (same == said.end()) {
        said.push_back({sentence, {quoted(run.zone)}});
      } else {
        same->second.push_back(quoted(run.zone));
      }
    }
  }
  for (const auto& [sentence, zones] : said) {
    const std::string whose = zones.size() == card.zones.size() ? "" : " in " + listed(zones);
    words.push_back(fmt::format("{}{}: {}.", what, whose, sentence));
  }
}

}  // namespace

std::vector<std::string> run_card_reckoning(const RunCard& card) {
  std::vector<std::string> words;
  if (!card.left_out.empty()) {
    std::vector<std::string> names;
    for (const std::string& zone : card.left_out) names.push_back("zone " + quoted(zone));
    words.push_back(fmt::format("not on this card: {}, of which no area is known.", listed(names)));
  }
  say_of_zones(
      card, "wanted", [](const ZoneRun& run) { return std::vector{run.wanted_words}; }, words);
  say_of_zones(
      card, "lost on the way", [](const ZoneRun& run) { return std::vector{run.efficiency_words}; }, words);
  const auto soil = [](const ZoneRun& run) {
    return run.soil_minutes > 0 ? std::vector{"takes up " + minutes_phrase(run.soil_minutes) + " at one start"}
                                : std::vector<std::string>{};
  };
  say_of_zones(card, "soil", soil, words);
  say_of_zones(
      card, "note", [](const ZoneRun& run) { return run.notes; }, words);
  return words;
}

ZoneWords zone_words(const ZoneRun& run, UnitSystem units) {
  const bool any = run.time.starts_per_week > 0;
  return {run.zone,
          any ? std::to_string(run.time.starts_per_week) : "-",
          any ? minutes_phrase(run.time.minutes_per_start) : "-",
          any ? minutes_phrase(run.time.minutes_per_week) : "-",
          water_phrase(run.time.litres_per_week, units),
          area_phrase(run.m2, units),
          rate_phrase(run.mm_per_h, units)};
}

std::string run_card_text(const RunCard& card, const Page& page) {
  std::string out = title_line(card.name, "Garden") + "Run card\n";
  if (card.verdict != Verdict::works) out += "\n" + wrapped(verdict_sentence(card.verdict, card.words), page.width);
  out += "\n" + laid_out(zones_table(card, page.units), page.width, 2) + heading("How it is reckoned");
  for (const std::string& words : run_card_reckoning(card)) out += wrapped(printable(words), page.width, 2, 4);
  return out + cautions_text(card.cautions, page);
}

Json run_card_document(const RunCard& card, UnitSystem units) {
  Json json = document_start("teetally/run-card", card.name);
  json.set("verdict", to_text(card.verdict));
  json.set("words", card.words);
  Json zones = Json::array();
  for (const ZoneRun& run : card.zones) {
    Json zone = Json::object();
    zone.set("name", run.zone);
    zone.set("starts_per_week", run.time.starts_per_week);
    zone.set("minutes_per_start", rounded(run.time.minutes_per_start, 10));
    zone.set("minutes_per_week", rounded(run.time.minutes_per_week, 10));
    zone.set("litres_per_week", rounded(run.time.litres_per_week, 10));
    zone.set("wanted_mm_per_week", rounded(run.wanted_mm, 100));
    zone.set("wanted", run.wanted_words);
    zone.set("area_m2", rounded(run.m2, 1000));
    zone.set("flow_l_per_h", rounded(run.flow_m3_per_s * 3.6e6, 100));
    zone.set("rate_mm_per_h", rounded(run.mm_per_h, 100));
    zone.set("rate", rate_phrase(run.mm_per_h, units));
    zone.set("efficiency", rounded(run.efficiency, 10000));
    zone.set("efficiency_words", run.efficiency_words);
    zone.set("soil_minutes", run.soil_minutes > 0 ? Json(rounded(run.soil_minutes, 10)) : Json());
    zone.set("soil_overfull", run.time.soil_overfull);
    zone.set("notes", words_json(run.notes));
    zones.push(std::move(zone));
  }
  json.set("zones", std::move(zones));
  json.set("left_out", words_json(card.left_out));
  json.set("cautions", words_json(card.cautions));
  return json;
}

std::string run_card_csv(const RunCard& card, UnitSystem units) {
  std::string out = csv_row({"zone", "starts a week", "minutes each", "minutes a week", "litres a week",
                             "wanted mm a week", "area m2", "rate", "notes"});
  for (const ZoneRun& run : card.zones) {
    out += csv_row({run.zone, std::to_string(run.time.starts_per_week),
                    fmt::format("{:.0f}", run.time.minutes_per_start), fmt::format("{:.0f}", run.time.minutes_per_week),
                    fmt::format("{:.0f}", run.time.litres_per_week), fmt::format("{:.1f}", run.wanted_mm),
                    fmt::format("{:.2f}", run.m2), rate_phrase(run.mm_per_h, units), listed(run.notes)});
  }
  return out;
}

}  // namespace teetally
