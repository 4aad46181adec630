// The cut list as a page: a table for each coil, to tick off while cutting.
#include "render/order/cut_list.h"
#include "render/order/words.h"
#include "render/page/template.h"
#include "render/page/values.h"

namespace teetally {
namespace {

Json cuts_values(const OrderView& view, const CutCoil& coil, UnitSystem units) {
  Json list = Json::array();
  int number = 0;
  for (const CoilCut& cut : coil.cuts) {
    Json values = Json::object();
    values.set("cut", std::to_string(++number)).set("piece_length", to_text(cut.length, units));
    values.set("need", view.book.takeoff.needs[static_cast<std::size_t>(cut.need)].id);
    list.push(values.set("where", place_words(view, cut)));
  }
  return list;
}

}  // namespace

Json cut_list_page_values(const OrderView& view, UnitSystem units) {
  Json coils = Json::array();
  int number = 0;
  for (const CutCoil& coil : view.purchase.coils) {
    const CoilWords words = words_of(view, coil);
    Json values = Json::object();
    values.set("number", std::to_string(++number)).set("length", to_text(coil.length, units)).set("what", words.what);
    const Catalog* catalog =
        coil.catalog < 0 ? nullptr : view.book.catalogs[static_cast<std::size_t>(coil.catalog)].get();
    values.set("sku", words.sku).set("supplier", catalog == nullptr ? "" : supplier_words(*catalog));
    values.set("left", coil.left.tenths_mm == 0 ? "" : to_text(coil.left, units)).set("left_words", left_words(coil));
    coils.push(values.set("cuts", cuts_values(view, coil, units)));
  }
  Json values = Json::object();
  values.set("name", page_title(view.book.takeoff.name, "Parts")).set("summary", cut_list_summary(view));
  return values.set("coils", std::move(coils)).set("joins", joins_values(view, units));
}

std::string cut_list_page(const OrderView& view, UnitSystem units, const OwnTemplates& own, Diagnostics& diagnostics) {
  return fill_paper(Paper::cut_list, cut_list_page_values(view, units), own, diagnostics);
}

}  // namespace teetally
