#include "verify/check_cuts.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

namespace teetally {
namespace {

using CoilKind = std::tuple<int, int, std::int64_t>;  // supplier, item, length

class CutCheck {
 public:
  CutCheck(const Certificate& certificate, const std::vector<const Catalog*>& catalogs, Diagnostics& diagnostics)
      : question_(certificate.question), order_(certificate.order), catalogs_(catalogs), diagnostics_(diagnostics) {}

  void run() {
    for (const StatedLine& line : order_.lines) count_coils(line);
    cuts_.resize(question_.needs.size());
    for (const StatedCoil& coil : order_.coils) check_coil(coil);
    for (std::size_t n = 0; n < question_.needs.size(); ++n) check_need(question_.needs[n], cuts_[n]);
  }

 private:
  template <typename... Args>
  void wrong(const Place& place, fmt::format_string<Args...> text, Args&&... args) {
    diagnostics_.error("verify/bad-cut-list", place, fmt::format(text, std::forward<Args>(args)...));
  }

  void count_coils(const StatedLine& line) {
    const Catalog& catalog = *catalogs_[static_cast<std::size_t>(line.supplier)];
    if (line.bundle < 0) {
      const Item& item = catalog.items[static_cast<std::size_t>(line.item)];
      const Pack& pack = item.packs[static_cast<std::size_t>(line.pack)];
      bought_[{line.supplier, line.item, pack.length.tenths_mm}] += line.count;
      return;
    }
    const Bundle& bundle = catalog.bundles[static_cast<std::size_t>(line.bundle)];
    for (const BundleContent& content : bundle.contents) {
      bought_[{line.supplier, content.item, content.length.tenths_mm}] += line.count;
    }
    for (const StatedChange& change : line.changes) count_change(line, bundle, change);
  }

  void count_change(const StatedLine& line, const Bundle& bundle, const StatedChange& change) {
    if (change.content < 0 || static_cast<std::size_t>(change.content) >= bundle.contents.size()) return;
    const BundleContent& content = bundle.contents[static_cast<std::size_t>(change.content)];
    bought_[{line.supplier, content.item, content.length.tenths_mm}] -= change.times;
    if (change.swap < 0 || static_cast<std::size_t>(change.swap) >= content.swaps.size()) return;
    const Swap& swap = content.swaps[static_cast<std::size_t>(change.swap)];
    bought_[{line.supplier, swap.item, content.length.tenths_mm}] += change.times;
  }

  void check_coil(const StatedCoil& coil) {
    if (coil.site >= 0) {
      take_from_site(coil);
    } else if (--bought_[{coil.supplier, coil.item, coil.length}] < 0) {
      wrong(coil.place, "more coils of this length are cut than are bought");
    }
    std::int64_t left = coil.length;
    for (const StatedCut& cut : coil.cuts) {
      left -= std::min(left + 1, cut.length);
      if (!serves(coil, cut.need)) {
        wrong(coil.place, "this coil does not serve {}", question_.needs[static_cast<std::size_t>(cut.need)].id);
      }
      cuts_[static_cast<std::size_t>(cut.need)].push_back(cut.length);
      if (left < 0) return wrong(coil.place, "more is cut from this coil than the {} it holds", coil.length);
    }
  }

  void take_from_site(const StatedCoil& coil) {
    const std::vector<std::int64_t>& there = question_.needs[static_cast<std::size_t>(coil.site)].site;
    const std::int64_t used = ++site_used_[{coil.site, coil.length}];
    if (used > std::count(there.begin(), there.end(), coil.length)) {
      wrong(coil.place, "the site has no such coil, or not as many");
    }
  }

  bool serves(const StatedCoil& coil, int need) const {
    if (coil.site >= 0) return coil.site == need;
    return std::any_of(question_.servings.begin(), question_.servings.end(), [&](const StatedServing& serving) {
      return serving.need == need && serving.supplier == coil.supplier && serving.item == coil.item &&
             std::all_of(serving.conditions.begin(), serving.conditions.end(), [&](const StatedCondition& condition) {
               const auto system = static_cast<std::size_t>(condition.system);
               return system < order_.families.size() &&
                      std::count(condition.families.begin(), condition.families.end(), order_.families[system]) > 0;
             });
    });
  }

  // Each piece that must be whole is one of the cuts; the other cuts are as long as the rest of the need.
  void check_need(const StatedNeed& need, std::vector<std::int64_t>& cuts) {
    std::int64_t joined = 0;
    std::vector<std::int64_t> whole = need.whole;
    std::sort(whole.begin(), whole.end());
    std::sort(cuts.begin(), cuts.end());
    std::size_t found = 0;
    for (const std::int64_t cut : cuts) {
      if (found < whole.size() && whole[found] == cut) {
        ++found;
      } else {
        joined += cut;
      }
    }
    if (found < whole.size()) {
      wrong(order_.place, "{} needs a piece of {} from one coil; it is not in the cut list", need.id, whole[found]);
    } else if (joined < need.joined) {
      wrong(order_.place, "{} needs {} that may be joined, {} in the cut list", need.id, need.joined, joined);
    }
  }

  const OrderQuestion& question_;
  const StatedOrder& order_;
  const std::vector<const Catalog*>& catalogs_;
  Diagnostics& diagnostics_;
  std::map<CoilKind, std::int64_t> bought_;
  std::map<std::pair<int, std::int64_t>, std::int64_t> site_used_;
  std::vector<std::vector<std::int64_t>> cuts_;  // by need
};

}  // namespace

void check_stated_cuts(const Certificate& certificate, const std::vector<const Catalog*>& catalogs,
                       Diagnostics& diagnostics) {
  if (!certificate.order.coils.empty()) CutCheck(certificate, catalogs, diagnostics).run();
}

}  // namespace teetally
