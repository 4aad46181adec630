#include "render/json_parts.h"
#include "teetally/render/store.h"

namespace teetally {
namespace {

std::string happened(const Recording& recording) {
  if (!recording.changed) return "no change since " + recording.since;
  return recording.before ? "changed; before, from " + *recording.before : std::string("first recording");
}

}  // namespace

std::string recordings_text(const std::vector<Recording>& recordings, const Page& page) {
  TextTable table{{{"Supplier", Column::Side::left, true}, {"Id"}, {"Prices", Column::Side::right}, {"Recorded"}}, {}};
  for (const Recording& one : recordings) {
    table.rows.push_back({printable(one.name), printable(one.supplier), std::to_string(one.prices), happened(one)});
  }
  return laid_out(table, page.width, 0);
}

Json recordings_document(const std::vector<Recording>& recordings) {
  Json all = Json::array();
  for (const Recording& one : recordings) {
    all.push(Json::object()
                 .set("supplier", one.supplier)
                 .set("name", one.name)
                 .set("prices", one.prices)
                 .set("changed", one.changed)
                 .set("since", one.since)
                 .set("before", one.before ? Json(*one.before) : Json()));
  }
  return Json::object().set("document", "teetally/recordings").set("version", 1).set("recordings", std::move(all));
}

std::string recordings_csv(const std::vector<Recording>& recordings) {
  std::string out = csv_row({"supplier", "name", "prices", "changed", "since", "before"});
  for (const Recording& one : recordings) {
    out += csv_row({one.supplier, one.name, std::to_string(one.prices), one.changed ? "yes" : "no", one.since,
                    one.before.value_or("")});
  }
  return out;
}

}  // namespace teetally
