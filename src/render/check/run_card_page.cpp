// The run card as a page to hang up beside the tap.
#include "render/check/run_card_words.h"
#include "render/page/template.h"
#include "render/page/values.h"
#include "render/phrases.h"

namespace teetally {

Json run_card_page_values(const RunCard& card, UnitSystem units) {
  Json zones = Json::array();
  for (const ZoneRun& run : card.zones) {
    const ZoneWords words = zone_words(run, units);
    Json zone = Json::object();
    zone.set("zone", words.zone).set("starts", words.starts).set("each", words.each).set("in_all", words.in_all);
    zones.push(zone.set("water", words.water).set("onto", words.onto).set("rate", words.rate));
  }
  Json values = Json::object();
  values.set("name", page_title(card.name, "Garden"));
  values.set("warning", card.verdict == Verdict::works ? "" : verdict_sentence(card.verdict, card.words));
  values.set("zones", std::move(zones)).set("reckoning", plain_texts(run_card_reckoning(card)));
  return values.set("cautions", plain_texts(card.cautions));
}

std::string run_card_page(const RunCard& card, UnitSystem units, const OwnTemplates& own, Diagnostics& diagnostics) {
  return fill_paper(Paper::run_card, run_card_page_values(card, units), own, diagnostics);
}

}  // namespace teetally
