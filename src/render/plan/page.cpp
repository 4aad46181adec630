// The plan as a page: the drawing by itself, so that it is as large as the sheet allows; the key and the notes are text
// that flows over sheets and can be read on a phone.
#include <fmt/format.h>

#include "render/page/pictures.h"
#include "render/page/symbols.h"
#include "render/page/template.h"
#include "render/page/values.h"
#include "render/phrases.h"
#include "render/plan/drawing.h"
#include "render/plan/key.h"

namespace teetally {
namespace {

constexpr double kTop = 8, kEdge = 4;

std::string drawing_svg(const PlanSubject& subject, const PlanDrawing& drawing) {
  const double left = kSheetMargin - kEdge, width = kSheetWidth - 2 * left, height = drawing.bottom + 30;
  std::string out = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"{0} 0 {1} {2}\" width=\"{1}\" height=\"{2}\" role=\"img\" "
      "font-family=\"Helvetica, Arial, sans-serif\" fill=\"{3}\">\n<title>Plan: {4}</title>\n<desc>{5}</desc>\n",
      sheet_number(left), sheet_number(width), sheet_number(height), plan_ink::kInk,
      escape_markup(subject.sized.garden.name), escape_markup(plan_description(subject)));
  return out + drawing.elements + north_arrow({kSheetWidth - kSheetMargin - 14, drawing.field.bottom + 24}) +
         "</svg>\n";
}

Json signs_values(const std::vector<SignMeaning>& signs) {
  Json list = Json::array();
  for (const SignMeaning& one : signs) {
    std::string sign = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"-16 -10 32 20\" width=\"32\" height=\"20\" "
        "aria-hidden=\"true\"><g stroke=\"{}\" stroke-width=\"1.2\" fill=\"{}\">{}</g></svg>",
        plan_ink::kInk, plan_ink::kInk, one.sign);
    list.push(Json::object().set("sign", std::move(sign)).set("words", one.words));
  }
  return list;
}

// None, or one that holds them all, so that a template can leave out the heading.
Json noted_values(const std::vector<NotedPlan::Line>& lines) {
  Json notes = Json::array();
  for (const NotedPlan::Line& line : lines) {
    notes.push(Json::object().set("numbers", line.numbers).set("words", line.words));
  }
  Json noted = Json::array();
  if (!lines.empty()) noted.push(Json::object().set("notes", std::move(notes)));
  return noted;
}

Json points_values(const std::vector<PathPoint>& path, UnitSystem units) {
  Json list = Json::array();
  for (const PathPoint* point : points_to_show(path)) {
    Json values = Json::object();
    values.set("where", point->where).set("along", to_text(point->along, units)).set("up", to_text(point->up, units));
    list.push(values.set("pressure", pressure_phrase(point->pa, units)));
  }
  return list;
}

Json pressures_values(const SizedGarden& sized, UnitSystem units) {
  Json list = Json::array();
  for (const ZoneHydraulics& zone : sized.zones) {
    std::string curve = pressure_picture(zone, units);
    if (curve.empty()) continue;
    const bool alone = zone.zone < 0 || sized.garden.zones.size() == 1;
    const std::string name = alone ? "" : sized.garden.zones[static_cast<std::size_t>(zone.zone)].name;
    Json values = Json::object();
    values.set("zone", name).set("curve", std::move(curve));
    list.push(values.set("points", points_values(zone.worst_path, units)));
  }
  return list;
}

}  // namespace

Json plan_page_values(const PlanSubject& subject, PlanLayer layer, UnitSystem units) {
  const PlanNumbers numbers(subject);
  const PlanDrawing drawing = draw_plan(subject, numbers, layer, units, kTop);
  Json values = Json::object();
  values.set("name", page_title(subject.sized.garden.name, "Garden"));
  values.set("verdict", verdict_sentence(subject.sized)).set("drawing", drawing_svg(subject, drawing));
  values.set("left_out", without_room_words(drawing));
  values.set("signs", signs_values(sign_meanings(subject, numbers, drawing.parts, units)));
  values.set("figures", layer_words(layer)).set("noted", noted_values(drawing.notes));
  values.set("pressures", pressures_values(subject.sized, units));
  return values.set("cautions", plain_texts(subject.takeoff.cautions));
}

std::string plan_page(const PlanSubject& subject, PlanLayer layer, UnitSystem units, const OwnTemplates& own,
                      Diagnostics& diagnostics) {
  return fill_paper(Paper::plan, plan_page_values(subject, layer, units), own, diagnostics);
}

}  // namespace teetally
