#include "render/plan/drawing.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/page/symbols.h"
#include "render/phrases.h"
#include "render/plan/tubing.h"

namespace teetally {
namespace {

constexpr double kNameSize = 10.5, kNarrowestName = 54, kUsualName = 200;

Box box_of(const Bed& bed, const GroundView& view) {
  const PlanSpot low = view.spot(bed.corner);
  const PlanSpot high = view.spot({bed.corner.east + bed.east_west, bed.corner.north + bed.north_south, {}});
  return {low.x, high.y, high.x, low.y};
}

std::string bed_elements(const PlanSubject& subject, const GroundView& view) {
  std::string out =
      fmt::format("<g fill=\"{}\" stroke=\"{}\" stroke-width=\"1.2\">\n", plan_ink::kSoil, plan_ink::kSide);
  for (const Bed& bed : subject.site.beds) {
    const Box box = box_of(bed, view);
    out += box_element(box, bed.height.tenths_mm > 0 ? "" : "stroke-dasharray=\"5 3\"");
    if (bed.height.tenths_mm > 0) {  // the thickness of its side
      const double in = std::min(3.0, std::min(box.width(), box.height()) / 5);
      out += box_element({box.left + in, box.top + in, box.right - in, box.bottom - in}, "stroke-width=\"0.6\"");
    }
  }
  return out + "</g>\n";
}

// Rows of one element that are equally long are told about once.
std::string rows_words(const PlanSubject& subject, const PlanNumbers& numbers, int element, UnitSystem units) {
  std::int64_t rows = 0;
  int need = -1;
  bool alike = true;
  Length length{-1};
  for (const Piece& piece : subject.sized.garden.pieces) {
    const Run& run = subject.sized.garden.runs[static_cast<std::size_t>(piece.run)];
    if (run.element != element || (run.role != LegRole::row && run.role != LegRole::tape)) continue;
    alike = alike && (length.tenths_mm < 0 || length == piece.length);
    length = piece.length;
    need = numbers.of_run(run);
    ++rows;
  }
  if (rows == 0) return {};
  std::string words = counted(rows, "row");
  if (alike) words += " of " + short_length(length, units);
  if (need >= 0) words += ", " + subject.takeoff.needs[static_cast<std::size_t>(need)].id;
  return words;
}

// The end of the leg nearest to the middle of an element's legs: where its name belongs when it is no bed.
PlanSpot middle_of(const Garden& garden, int element, const GroundView& view) {
  Box box{1e9, 1e9, -1e9, -1e9};
  for (const Leg& leg : garden.legs) {
    if (leg.element != element) continue;
    const PlanSpot at = view.spot(garden.nodes[static_cast<std::size_t>(leg.to)].at);
    box = {std::min(box.left, at.x), std::min(box.top, at.y), std::max(box.right, at.x), std::max(box.bottom, at.y)};
  }
  PlanSpot nearest = box.middle();
  double least = 1e9;
  for (const Leg& leg : garden.legs) {
    if (leg.element != element) continue;
    const PlanSpot at = view.spot(garden.nodes[static_cast<std::size_t>(leg.to)].at);
    if (distance(at, box.middle()) >= least) continue;
    least = distance(at, box.middle());
    nearest = at;
  }
  return nearest;
}

const Bed* bed_named(const Site& site, const std::string& element) {
  for (const Bed& bed : site.beds) {
    if (element == "bed " + quoted(bed.name)) return &bed;
  }
  return nullptr;
}

std::vector<ElementName> element_names(const PlanSubject& subject, const PlanNumbers& numbers, const GroundView& view,
                                       UnitSystem units) {
  const Garden& garden = subject.sized.garden;
  std::vector<ElementName> names;
  for (std::size_t i = 0; i < garden.elements.size(); ++i) {
    const Element& element = garden.elements[i];
    if (element.kind == "line" || element.kind == "source") continue;
    const int at = static_cast<int>(i);
    const std::string rows = rows_words(subject, numbers, at, units);
    const Bed* bed = bed_named(subject.site, element.name);
    if (bed == nullptr) {
      names.push_back({at, element.name, "", rows, middle_of(garden, at, view), kUsualName});
      continue;
    }
    const Box box = box_of(*bed, view);
    const std::string high = bed->height.tenths_mm > 0 ? short_length(bed->height, units) + " high" : "";
    names.push_back({at, bed->name, high, rows, box.middle(), std::max(box.width() - 8, kNarrowestName)});
  }
  return names;
}

std::vector<Label> name_labels(const std::vector<ElementName>& names) {
  std::vector<Label> labels;
  for (const ElementName& name : names) {
    std::vector<std::string> lines =
        wrap_text(name.name + (name.high.empty() ? "" : ", " + name.high), kNameSize, name.room);
    for (std::string& line : wrap_text(name.rows, kNameSize, name.room)) {
      if (!line.empty()) lines.push_back(std::move(line));
    }
    labels.push_back({lines, kNameSize, name.spot, 4, true, 180,
                      fmt::format("font-weight=\"600\" fill=\"{}\"", plan_ink::kRow), name.element});
  }
  return labels;
}

std::string label_elements(const LabelPlan& plan) {
  std::string out = fmt::format("<g stroke=\"{}\" stroke-width=\"0.7\">\n", plan_ink::kQuiet);
  for (const PlacedLabel& placed : plan.placed) {
    if (placed.leader) out += line_element(*placed.leader, "");
  }
  out += fmt::format(
      "</g>\n<g text-anchor=\"middle\" stroke=\"{}\" stroke-width=\"2.6\" "
      "stroke-linejoin=\"round\" paint-order=\"stroke\">\n",
      plan_ink::kPaper);
  for (const PlacedLabel& placed : plan.placed) out += label_element(placed);
  return out + "</g>\n";
}

LabelRoom room_on(const PlanSubject& subject, const GroundView& view, const std::vector<PlanPart>& drawn) {
  const Box& field = view.field;
  LabelRoom room{
      {field.left + 2, field.top + 2, field.right - 2, field.bottom - 14}, {}, tubing_strokes(subject, view)};
  for (const Bed& bed : subject.site.beds) {
    const Box box = box_of(bed, view);
    const PlanSpot corners[] = {
        {box.left, box.top}, {box.right, box.top}, {box.right, box.bottom}, {box.left, box.bottom}};
    for (std::size_t i = 0; i < 4; ++i) room.strokes.push_back({corners[i], corners[(i + 1) % 4]});
  }
  for (const PlanPart& part : drawn) {
    const double reach = part.kind == "barbed connector" ? 3.5 : kSymbolReach;
    room.symbols.push_back({part.spot.x - reach, part.spot.y - reach, part.spot.x + reach, part.spot.y + reach});
  }
  return room;
}

struct Labelled {
  LabelPlan plan;
  std::vector<NotedPlan::Line> notes;
};

// Everything beside what it tells about; where there is no room for that, what belongs to elements goes into notes.
Labelled labelled(const Label& tap, const std::vector<ElementName>& names, const std::vector<Label>& others,
                  const LabelRoom& room) {
  std::vector<Label> labels = name_labels(names);
  labels.insert(labels.begin(), tap);
  labels.insert(labels.end(), others.begin(), others.end());
  LabelPlan plan = place_labels(labels, room);
  if (plan.without_room.empty()) return {std::move(plan), {}};
  NotedPlan noted = with_notes(others, names);
  noted.labels.insert(noted.labels.begin(), tap);
  return {place_labels(noted.labels, room), std::move(noted.lines)};
}

std::string part_elements(const std::vector<PlanPart>& drawn) {
  std::string out = fmt::format("<g stroke=\"{}\" stroke-width=\"1.2\" stroke-linejoin=\"round\">\n", plan_ink::kInk);
  for (auto part = drawn.rbegin(); part != drawn.rend(); ++part) out += symbol_element(part->kind, part->spot);
  return out + "</g>\n";
}

}  // namespace

PlanDrawing draw_plan(const PlanSubject& subject, const PlanNumbers& numbers, PlanLayer layer, UnitSystem units,
                      double top) {
  const GroundView view = view_ground(subject, units, top);
  PlanDrawing drawing;
  drawing.field = view.field;
  drawing.parts = parts_on_plan(subject, numbers, view);
  std::vector<PlanPart> drawn = drawn_parts(drawing.parts);
  const SiteSource& source = subject.sized.garden.source;
  const PlanSpot tap = view.spot({source.east, source.north, source.up});
  drawn.insert(drawn.begin(), {"tap", tap});

  const Label tap_label{{source.name}, 12, tap, kSymbolReach + 1, false, 180, "font-weight=\"700\""};
  std::vector<Label> others = run_labels(subject, numbers, view);
  for (Label& label : part_labels(subject, drawing.parts)) others.push_back(std::move(label));
  for (Label& label : stretch_labels(subject, view, layer, units)) others.push_back(std::move(label));
  LabelRoom room = room_on(subject, view, drawn);
  Labelled all = labelled(tap_label, element_names(subject, numbers, view, units), others, room);
  drawing.symbols = std::move(room.symbols);
  drawing.labels = std::move(all.plan);
  drawing.notes = std::move(all.notes);

  const double below = view.field.bottom + 12;
  drawing.elements = grid_elements(view, units) + bed_elements(subject, view) + tubing_elements(subject, view, layer);
  drawing.elements +=
      part_elements(drawn) + label_elements(drawing.labels) + scale_bar(view, units, {kSheetMargin, below});
  drawing.bottom = below + 22;
  return drawing;
}

std::string without_room_words(const PlanDrawing& drawing) {
  const std::vector<Label>& left_out = drawing.labels.without_room;
  if (left_out.empty()) return {};
  return counted(static_cast<std::int64_t>(left_out.size()), "label") +
         " found no room; the list of parts names every place.";
}

std::string plan_description(const PlanSubject& subject) {
  std::vector<std::string> names;
  for (const Element& element : subject.sized.garden.elements) names.push_back(element.name);
  return "Plan of the watering, north up, to scale. It shows the tap and " + listed(names) + ".";
}

}  // namespace teetally
