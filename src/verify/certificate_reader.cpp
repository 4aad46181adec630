#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <map>

#include "teetally/verify.h"
#include "teetally/verify/bound.h"

namespace teetally {
namespace {

constexpr std::string_view kHeader = "certificate 1";

// Numbers, names and skus of one file. What is not as it should be is an error once, and reads as nothing.
class Reading {
 public:
  Reading(Source source, const std::vector<Catalog>& catalogs, Diagnostics& diagnostics)
      : source_(std::move(source)), catalogs_(catalogs), diagnostics_(diagnostics) {}

  std::optional<CertificateFile> read() {
    const YamlNode root = read_yaml(source_, diagnostics_);
    if (root.kind == YamlNode::Kind::null && diagnostics_.has_errors()) return std::nullopt;
    Fields fields(root, "verify", "the certificate", bare_, diagnostics_);
    if (!fields.is_mapping() || !is_certificate(fields)) return std::nullopt;
    if (const YamlNode* question = fields.require("question")) read_question(*question);
    if (diagnostics_.has_errors()) return std::nullopt;  // the rest speaks of what the question names
    if (const YamlNode* order = fields.require("order")) read_order(*order);
    if (const YamlNode* bound = fields.require("bound")) read_bound(*bound);
    fields.finish();
    if (diagnostics_.has_errors()) return std::nullopt;
    return std::move(file_);
  }

 private:
  using Kind = YamlNode::Kind;

  bool is_certificate(Fields& fields) {
    const YamlNode* header = fields.find("teetally");
    if (header != nullptr && header->kind == Kind::scalar && header->text == kHeader) return true;
    diagnostics_
        .error("verify/not-a-certificate", fields.place_of("teetally"),
               "this is not a certificate: it does not say \"teetally\": \"certificate 1\"")
        .help = "write one with: teetally buy FILE --catalogs PATH --certificate FILE";
    return false;
  }

  Fields fields_of(const YamlNode& node, std::string what) {
    return Fields(node, "verify", std::move(what), bare_, diagnostics_);
  }

  std::int64_t whole(const YamlNode& node, std::int64_t least, std::int64_t most) {
    std::int64_t value = 0;
    const char* end = node.text.data() + node.text.size();
    const auto read = std::from_chars(node.text.data(), end, value);
    if (node.kind == Kind::scalar && read.ec == std::errc() && read.ptr == end && value >= least && value <= most) {
      return value;
    }
    diagnostics_.error("verify/bad-value", node.place,
                       fmt::format("found {}; expected a whole number from {} to {}", describe(node), least, most));
    return least;
  }
  std::int64_t whole(Fields& fields, std::string_view key, std::int64_t least, std::int64_t most) {
    const YamlNode* node = fields.require(key);
    return node != nullptr ? whole(*node, least, most) : least;
  }

  const std::vector<YamlNode>& list_in(const YamlNode& node) {
    if (node.kind != Kind::sequence) {
      diagnostics_.error("verify/wrong-type", node.place, "found " + describe(node) + "; expected a list");
    }
    return node.items;
  }
  template <typename Number>
  std::vector<Number> wholes(const YamlNode& node, std::int64_t least, std::int64_t most) {
    std::vector<Number> values;
    for (const YamlNode& one : list_in(node)) values.push_back(static_cast<Number>(whole(one, least, most)));
    return values;
  }

  std::string text(Fields& fields, std::string_view key) {
    fields.require(key);
    return fields.text(key).value_or("");
  }

  int index_of(const std::map<std::string, int>& names, const std::string& name, const Place& place,
               std::string_view what) {
    const auto found = names.find(name);
    if (found != names.end()) return found->second;
    diagnostics_.error("verify/unknown-name", place, fmt::format("there is no {} {}", what, quoted(printable(name))));
    return -1;
  }

  // Every catalog given must be named, and every one named be given: another supplier may be cheaper.
  void match_catalogs(const Fields& fields) {
    for (const std::string& id : file_.certificate.question.suppliers) {
      const auto found =
          std::find_if(catalogs_.begin(), catalogs_.end(), [&](const Catalog& catalog) { return catalog.id == id; });
      if (found == catalogs_.end()) {
        diagnostics_.error(
            "verify/other-catalogs", fields.place_of("suppliers"),
            "the certificate is about the supplier " + quoted(printable(id)) + ", whose catalog is not given");
      } else if (!supplier_.emplace(id, static_cast<int>(file_.catalogs.size())).second) {
        diagnostics_.error("verify/other-catalogs", fields.place_of("suppliers"),
                           "the supplier " + quoted(id) + " is named twice");
      } else {
        file_.catalogs.push_back(&*found);
        note_skus(*found);
      }
    }
    for (const Catalog& catalog : catalogs_) {
      if (supplier_.contains(catalog.id)) continue;
      diagnostics_.error(
          "verify/other-catalogs", fields.place_of("suppliers"),
          "the certificate says nothing of the supplier " + quoted(catalog.id) + ", whose catalog is given");
    }
  }

  void note_skus(const Catalog& catalog) {
    std::map<std::string, int>& items = items_.emplace_back();
    std::map<std::string, int>& bundles = bundles_.emplace_back();
    for (std::size_t i = 0; i < catalog.items.size(); ++i) items.emplace(catalog.items[i].sku, static_cast<int>(i));
    for (std::size_t b = 0; b < catalog.bundles.size(); ++b) {
      bundles.emplace(catalog.bundles[b].sku, static_cast<int>(b));
    }
  }

  int read_supplier(Fields& fields) {
    return index_of(supplier_, text(fields, "supplier"), fields.place_of("supplier"), "supplier");
  }
  int read_item(Fields& fields, int supplier) {
    const std::string sku = text(fields, "item");
    return supplier < 0 ? -1
                        : index_of(items_[static_cast<std::size_t>(supplier)], sku, fields.place_of("item"), "item");
  }
  int read_need(Fields& fields) { return index_of(need_, text(fields, "need"), fields.place_of("need"), "need"); }

  void read_question(const YamlNode& node) {
    OrderQuestion& question = file_.certificate.question;
    Fields fields = fields_of(node, "the question");
    if (!fields.is_mapping()) return;
    question.suppliers = fields.texts("suppliers");
    match_catalogs(fields);
    read_contents(fields);
    if (const YamlNode* families = fields.require("families"))
      question.families = wholes<int>(*families, 0, kMostFamilies);
    if (const YamlNode* limits = fields.find("limits")) read_limits(*limits);
    for (const YamlNode* need : fields.list("needs")) read_stated_need(*need);
    if (diagnostics_.has_errors()) return;
    for (const YamlNode* serving : fields.list("servings")) read_serving(*serving);
    fields.finish();
  }

  void read_contents(Fields& fields) {
    if (!fields.has("contents")) return;
    std::vector<std::string>& contents = file_.certificate.contents;
    contents = fields.texts("contents");
    file_.certificate.contents_place = fields.place_of("contents");
    const std::size_t suppliers = file_.certificate.question.suppliers.size();
    if (contents.size() == suppliers) return;
    diagnostics_.error(
        "verify/bad-value", fields.place_of("contents"),
        fmt::format("found {} contents; expected one for each of {} suppliers", contents.size(), suppliers));
  }

  void read_limits(const YamlNode& node) {
    OrderQuestion& question = file_.certificate.question;
    Fields fields = fields_of(node, "the limits");
    if (!fields.is_mapping()) return;
    question.only = fields.texts("only");
    question.avoid = fields.texts("avoid");
    if (fields.has("most suppliers")) question.most_suppliers = whole(fields, "most suppliers", 0, kMostCount);
    question.no_bundles = fields.yes_no("no bundles").value_or(false);
    question.take_bundle = fields.text("take bundle");
    fields.finish();
  }

  void read_stated_need(const YamlNode& node) {
    Fields fields = fields_of(node, "a need");
    if (!fields.is_mapping()) return;
    StatedNeed need{text(fields, "need"), whole(fields, "amount", 0, kMostCount)};
    if (const YamlNode* pieces = fields.find("whole")) need.whole = wholes<std::int64_t>(*pieces, 1, kMostLength);
    if (fields.has("joined")) need.joined = whole(fields, "joined", 0, kMostCount);
    if (const YamlNode* coils = fields.find("site")) need.site = wholes<std::int64_t>(*coils, 1, kMostLength);
    std::vector<StatedNeed>& needs = file_.certificate.question.needs;
    if (!need_.emplace(need.id, static_cast<int>(needs.size())).second) {
      diagnostics_.error("verify/bad-value", fields.place_of("need"),
                         quoted(printable(need.id)) + " stands here twice");
    }
    needs.push_back(std::move(need));
    fields.finish();
  }

  void read_serving(const YamlNode& node) {
    OrderQuestion& question = file_.certificate.question;
    Fields fields = fields_of(node, "a serving");
    if (!fields.is_mapping()) return;
    StatedServing serving;
    serving.need = read_need(fields);
    serving.supplier = read_supplier(fields);
    serving.item = read_item(fields, serving.supplier);
    for (const YamlNode* when : fields.list("when")) {
      Fields condition = fields_of(*when, "a condition");
      if (!condition.is_mapping()) continue;
      StatedCondition one;
      one.system = static_cast<int>(whole(
          condition, "system", 0, std::max<std::int64_t>(0, static_cast<std::int64_t>(question.families.size()) - 1)));
      if (question.families.empty()) {
        diagnostics_.error("verify/bad-value", when->place, "there is no tubing system to choose a family for");
      }
      if (const YamlNode* families = condition.require("families")) {
        one.families = wholes<int>(*families, 0, kMostFamilies);
      }
      condition.finish();
      serving.conditions.push_back(std::move(one));
    }
    fields.finish();
    question.servings.push_back(std::move(serving));
  }

  void read_order(const YamlNode& node) {
    StatedOrder& order = file_.certificate.order;
    Fields fields = fields_of(node, "the order");
    if (!fields.is_mapping()) return;
    order.place = node.place;
    order.cost = whole(fields, "cost", 0, kMostOfAll);
    if (const YamlNode* families = fields.require("families"))
      order.families = wholes<int>(*families, -1, kMostFamilies);
    for (const YamlNode* line : fields.list("lines")) read_line(*line);
    for (const YamlNode* use : fields.list("uses")) read_use(*use);
    for (const YamlNode* coil : fields.list("coils")) read_coil(*coil);
    fields.finish();
  }

  void read_line(const YamlNode& node) {
    Fields fields = fields_of(node, "a line of the order");
    if (!fields.is_mapping()) return;
    StatedLine line;
    line.place = node.place;
    line.supplier = read_supplier(fields);
    line.count = whole(fields, "count", 1, kMostPacks);
    if (line.supplier >= 0 && fields.has("bundle")) {
      line.bundle = index_of(bundles_[static_cast<std::size_t>(line.supplier)], text(fields, "bundle"),
                             fields.place_of("bundle"), "bundle");
    } else {
      line.item = read_item(fields, line.supplier);
      line.pack = read_pack(fields, line);
    }
    for (const YamlNode* change : fields.list("changes")) {
      const auto numbers = wholes<std::int64_t>(*change, -1, kMostPacks);
      if (numbers.size() == 3) {
        line.changes.push_back({static_cast<int>(numbers[0]), static_cast<int>(numbers[1]), numbers[2], change->place});
      } else {
        diagnostics_.error("verify/bad-value", change->place,
                           "found a list of " + std::to_string(numbers.size()) + "; expected content, swap and times");
      }
    }
    fields.finish();
    file_.certificate.order.lines.push_back(std::move(line));
  }

  int read_pack(Fields& fields, const StatedLine& line) {
    const std::string sku = text(fields, "pack");
    if (line.item < 0) return -1;
    const Item& item =
        file_.catalogs[static_cast<std::size_t>(line.supplier)]->items[static_cast<std::size_t>(line.item)];
    for (std::size_t p = 0; p < item.packs.size(); ++p) {
      if (item.packs[p].sku == sku) return static_cast<int>(p);
    }
    return index_of({}, sku, fields.place_of("pack"), "pack");
  }

  void read_use(const YamlNode& node) {
    Fields fields = fields_of(node, "a use");
    if (!fields.is_mapping()) return;
    StatedUse use;
    use.place = node.place;
    use.need = read_need(fields);
    use.supplier = read_supplier(fields);
    use.item = read_item(fields, use.supplier);
    use.amount = whole(fields, "amount", 0, kMostCount);
    fields.finish();
    file_.certificate.order.uses.push_back(use);
  }

  void read_coil(const YamlNode& node) {
    Fields fields = fields_of(node, "a coil");
    if (!fields.is_mapping()) return;
    StatedCoil coil;
    coil.place = node.place;
    if (fields.has("site")) {
      coil.site = index_of(need_, text(fields, "site"), fields.place_of("site"), "need");
    } else {
      coil.supplier = read_supplier(fields);
      coil.item = read_item(fields, coil.supplier);
    }
    coil.length = whole(fields, "length", 1, kMostLength);
    for (const YamlNode* cut : fields.list("cuts")) {
      if (cut->kind == Kind::sequence && cut->items.size() == 2 && cut->items[0].kind == Kind::scalar) {
        coil.cuts.push_back(
            {index_of(need_, cut->items[0].text, cut->place, "need"), whole(cut->items[1], 1, kMostLength)});
      } else {
        diagnostics_.error("verify/bad-value", cut->place,
                           "found " + describe(*cut) + "; expected a need and a length");
      }
    }
    fields.finish();
    file_.certificate.order.coils.push_back(std::move(coil));
  }

  void read_bound(const YamlNode& node) {
    StatedBound& bound = file_.certificate.bound;
    Fields fields = fields_of(node, "the bound");
    if (!fields.is_mapping()) return;
    bound.place = node.place;
    bound.at_least = whole(fields, "at least", 0, kMostOfAll);
    bound.steps = whole(fields, "steps", 1, kMostCount);
    for (const YamlNode* prices : fields.list("prices")) read_prices(*prices);
    for (const YamlNode* one : fields.list("cases")) read_case(*one);
    fields.finish();
  }

  void read_prices(const YamlNode& node) {
    Fields fields = fields_of(node, "prices of a case");
    if (!fields.is_mapping()) return;
    PriceSplit prices;
    prices.place = node.place;
    if (const YamlNode* rates = fields.require("rates")) {
      for (const YamlNode& one : list_in(*rates)) prices.rates.push_back(read_rates(one));
    }
    for (const YamlNode* shares : fields.list("shares")) {
      std::vector<StatedShare>& list = prices.shares.emplace_back();
      for (const YamlNode& one : list_in(*shares)) list.push_back(read_share(one));
    }
    for (const YamlNode* of : fields.list("calls")) {
      auto& calls = prices.calls.emplace_back();
      for (const YamlNode& one : list_in(*of)) calls.push_back(wholes<std::int64_t>(one, -kDearest, kDearest));
    }
    fields.finish();
    file_.certificate.bound.prices.push_back(std::move(prices));
  }

  // A number, or pairs of goods and rate.
  std::vector<StatedRate> read_rates(const YamlNode& node) {
    if (node.kind == Kind::scalar) return {{0, whole(node, 0, kDearest)}};
    std::vector<StatedRate> rates;
    for (const YamlNode& one : list_in(node)) {
      const auto pair = wholes<std::int64_t>(one, 0, kDearest);
      if (pair.size() == 2) {
        rates.push_back({pair[0], pair[1]});
      } else {
        diagnostics_.error("verify/bad-value", one.place, "found " + describe(one) + "; expected goods and a rate");
      }
    }
    return rates;
  }

  // A number for each, or the first count and what is paid for it and each count after it.
  StatedShare read_share(const YamlNode& node) {
    if (node.kind == Kind::scalar) return {whole(node, 0, kDearest)};
    StatedShare share;
    share.values = wholes<std::int64_t>(node, -kDearest, kDearest);
    if (share.values.size() < 2) {
      diagnostics_.error("verify/bad-value", node.place,
                         "found " + describe(node) + "; expected a count and what is paid from it on");
      return {};
    }
    share.first = share.values.front();
    share.values.erase(share.values.begin());
    return share;
  }

  void read_case(const YamlNode& node) {
    static const std::map<std::string, int> kKinds = {{"family", 0}, {"goods", 1}, {"bundle", 2}, {"pack", 3}};
    StatedCase one;
    one.place = node.place;
    if (node.kind == Kind::scalar) {
      one.prices = static_cast<int>(whole(node, 0, kMostFamilies));
    } else if (node.kind == Kind::sequence && node.items.size() == 2 && node.items[0].text == "narrow") {
      one.narrow = true;
      one.prices = static_cast<int>(whole(node.items[1], 0, kMostFamilies));
    } else if (node.kind == Kind::sequence && node.items.size() == 3 && node.items[0].kind == Kind::scalar) {
      one.by = static_cast<Splits>(std::max(0, index_of(kKinds, node.items[0].text, node.place, "kind of split")));
      one.which = static_cast<int>(whole(node.items[1], 0, kMostFamilies));
      one.at = whole(node.items[2], 0, kMostOfAll);
    } else {
      diagnostics_.error(
          "verify/bad-value", node.place,
          "found " + describe(node) + "; expected the number of its prices, a split of three or to narrow");
    }
    file_.certificate.bound.cases.push_back(std::move(one));
  }

  static constexpr std::int64_t kMostFamilies = 1'000'000, kMostCount = 1'000'000'000'000;
  static constexpr std::int64_t kMostLength = 1'000'000'000;  // 100 km
  static constexpr std::int64_t kMostPacks = 1'000'000;

  Source source_;
  const std::vector<Catalog>& catalogs_;
  Diagnostics& diagnostics_;
  const BareUnits bare_;
  CertificateFile file_;
  std::map<std::string, int> supplier_, need_;
  std::vector<std::map<std::string, int>> items_, bundles_;  // by supplier
};

}  // namespace

std::optional<CertificateFile> read_certificate(const Source& source, const std::vector<Catalog>& catalogs,
                                                Diagnostics& diagnostics) {
  return Reading(source, catalogs, diagnostics).read();
}

}  // namespace teetally
