#include "teetally/verify.h"

namespace teetally {
namespace {

Json numbers(const auto& list) {
  Json array = Json::array();
  for (const auto& one : list) array.push(one);
  return array;
}

// A list with one entry a line, so that a place in it says something.
class Text {
 public:
  void open(const std::string& name, bool first = false) { out_ += (first ? "" : ",\n ") + key(name) + "{"; }
  void close() { out_ += "}"; }
  void member(const std::string& name, const Json& value, bool first = false) {
    out_ += (first ? "\n  " : ",\n  ") + key(name) + to_text(value, -1);
  }
  void list(const std::string& name, const std::vector<Json>& entries, bool first = false) {
    out_ += (first ? "\n  " : ",\n  ") + key(name) + "[";
    for (std::size_t i = 0; i < entries.size(); ++i) out_ += (i == 0 ? "\n   " : ",\n   ") + to_text(entries[i], -1);
    out_ += "]";
  }
  std::string take(const std::string& header) && {
    return "{" + key("teetally") + '"' + header + "\",\n " + out_ + "}\n";
  }

 private:
  static std::string key(const std::string& name) { return '"' + name + "\": "; }
  std::string out_;
};

class Writer {
 public:
  Writer(const Certificate& certificate, const std::vector<const Catalog*>& catalogs)
      : certificate_(certificate), catalogs_(catalogs) {}

  std::string write() {
    write_question();
    write_order();
    write_bound();
    return std::move(text_).take("certificate 1");
  }

 private:
  const Catalog& catalog(int supplier) const { return *catalogs_[static_cast<std::size_t>(supplier)]; }
  const std::string& item(int supplier, int item) const {
    return catalog(supplier).items[static_cast<std::size_t>(item)].sku;
  }

  void write_question() {
    const OrderQuestion& question = certificate_.question;
    std::vector<Json> needs, servings;
    for (const StatedNeed& need : question.needs) {
      Json one = Json::object();
      one.set("need", need.id).set("amount", need.amount);
      if (!need.whole.empty()) one.set("whole", numbers(need.whole));
      if (need.joined > 0) one.set("joined", need.joined);
      if (!need.site.empty()) one.set("site", numbers(need.site));
      needs.push_back(std::move(one));
    }
    for (const StatedServing& serving : question.servings) {
      Json one = Json::object();
      one.set("need", question.needs[static_cast<std::size_t>(serving.need)].id);
      one.set("supplier", catalog(serving.supplier).id).set("item", item(serving.supplier, serving.item));
      Json when = Json::array();
      for (const StatedCondition& condition : serving.conditions) {
        when.push(Json::object().set("system", condition.system).set("families", numbers(condition.families)));
      }
      if (!serving.conditions.empty()) one.set("when", std::move(when));
      servings.push_back(std::move(one));
    }
    text_.open("question", true);
    text_.member("suppliers", numbers(question.suppliers), true);
    if (!certificate_.contents.empty()) text_.member("contents", numbers(certificate_.contents));
    text_.member("families", numbers(question.families));
    text_.member("limits", limits(question));
    text_.list("needs", needs);
    text_.list("servings", servings);
    text_.close();
  }

  static Json limits(const OrderQuestion& question) {
    Json limits = Json::object();
    if (!question.only.empty()) limits.set("only", numbers(question.only));
    if (!question.avoid.empty()) limits.set("avoid", numbers(question.avoid));
    if (question.most_suppliers) limits.set("most suppliers", *question.most_suppliers);
    if (question.no_bundles) limits.set("no bundles", true);
    if (question.take_bundle) limits.set("take bundle", *question.take_bundle);
    return limits;
  }

  Json line(const StatedLine& line) const {
    const Catalog& from = catalog(line.supplier);
    Json one = Json::object();
    one.set("supplier", from.id);
    if (line.bundle < 0) {
      const Item& bought = from.items[static_cast<std::size_t>(line.item)];
      one.set("item", bought.sku).set("pack", bought.packs[static_cast<std::size_t>(line.pack)].sku);
      return one.set("count", line.count);
    }
    one.set("bundle", from.bundles[static_cast<std::size_t>(line.bundle)].sku).set("count", line.count);
    Json changes = Json::array();
    for (const StatedChange& change : line.changes) {
      changes.push(Json::array().push(change.content).push(change.swap).push(change.times));
    }
    if (!line.changes.empty()) one.set("changes", std::move(changes));
    return one;
  }

  void write_order() {
    const StatedOrder& order = certificate_.order;
    std::vector<Json> lines, uses;
    for (const StatedLine& one : order.lines) lines.push_back(line(one));
    for (const StatedUse& use : order.uses) {
      Json one = Json::object();
      one.set("need", certificate_.question.needs[static_cast<std::size_t>(use.need)].id);
      one.set("supplier", catalog(use.supplier).id).set("item", item(use.supplier, use.item));
      uses.push_back(std::move(one.set("amount", use.amount)));
    }
    text_.open("order");
    text_.member("cost", order.cost, true);
    text_.member("families", numbers(order.families));
    text_.list("lines", lines);
    text_.list("uses", uses);
    if (!order.coils.empty()) text_.list("coils", coils());
    text_.close();
  }

  std::vector<Json> coils() const {
    const auto id = [&](int need) { return certificate_.question.needs[static_cast<std::size_t>(need)].id; };
    std::vector<Json> list;
    for (const StatedCoil& coil : certificate_.order.coils) {
      Json one = Json::object();
      if (coil.site >= 0) {
        one.set("site", id(coil.site));
      } else {
        one.set("supplier", catalog(coil.supplier).id).set("item", item(coil.supplier, coil.item));
      }
      Json cuts = Json::array();
      for (const StatedCut& cut : coil.cuts) cuts.push(Json::array().push(id(cut.need)).push(cut.length));
      list.push_back(one.set("length", coil.length).set("cuts", std::move(cuts)));
    }
    return list;
  }

  static Json case_entry(const StatedCase& one) {
    static constexpr const char* kNames[] = {"family", "goods", "bundle", "pack"};
    if (one.narrow) return Json::array().push("narrow").push(one.prices);
    if (one.prices >= 0) return one.prices;
    return Json::array().push(kNames[static_cast<int>(one.by)]).push(one.which).push(one.at);
  }

  static Json share_entry(const StatedShare& share) {
    if (share.values.empty()) return share.each;
    Json list = Json::array().push(share.first);
    for (const std::int64_t value : share.values) list.push(value);
    return list;
  }
  static Json rate_entry(const std::vector<StatedRate>& rates) {
    if (rates.size() == 1) return rates.front().rate;
    Json list = Json::array();
    for (const StatedRate& one : rates) list.push(Json::array().push(one.from).push(one.rate));
    return list;
  }

  void write_bound() {
    const StatedBound& bound = certificate_.bound;
    std::vector<Json> prices, cases;
    for (const PriceSplit& split : bound.prices) {
      Json shares = Json::array();
      for (const std::vector<StatedShare>& list : split.shares) {
        Json of = Json::array();
        for (const StatedShare& share : list) of.push(share_entry(share));
        shares.push(std::move(of));
      }
      Json rates = Json::array(), calls = Json::array();
      for (const std::vector<StatedRate>& list : split.rates) rates.push(rate_entry(list));
      for (const auto& of : split.calls) {
        Json needs = Json::array();
        for (const std::vector<std::int64_t>& values : of) needs.push(numbers(values));
        calls.push(std::move(needs));
      }
      Json entry = Json::object().set("rates", std::move(rates)).set("shares", std::move(shares));
      if (!split.calls.empty()) entry.set("calls", std::move(calls));
      prices.push_back(std::move(entry));
    }
    for (const StatedCase& one : bound.cases) cases.push_back(case_entry(one));
    text_.open("bound");
    text_.member("at least", bound.at_least, true);
    text_.member("steps", bound.steps);
    text_.list("prices", prices);
    text_.list("cases", cases);
    text_.close();
  }

  const Certificate& certificate_;
  const std::vector<const Catalog*>& catalogs_;
  Text text_;
};

}  // namespace

std::string certificate_text(const Certificate& certificate, const std::vector<const Catalog*>& catalogs) {
  return Writer(certificate, catalogs).write();
}

}  // namespace teetally
