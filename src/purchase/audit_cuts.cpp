// Every cut anew, in whole tenths of a millimetre, from the book and the purchase alone.
#include "purchase/audit_cuts.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace teetally {
namespace {

using PieceKey = std::pair<int, int>;  // need, piece
struct CoilKey {
  int catalog = -1, item = -1;
  std::int64_t length = 0;
  auto operator<=>(const CoilKey&) const = default;
};

struct PieceParts {
  std::int64_t length = 0, shortest = 0;
  int parts = 0;
};

class CutAudit {
 public:
  CutAudit(const OfferBook& book, const Purchase& purchase) : book_(book), purchase_(purchase) {}

  std::vector<std::string> run() {
    count_bought();
    for (const CutCoil& coil : purchase_.coils) check_coil(coil);
    for (const auto& [coil, count] : unlisted_) {
      if (count != 0 && serves_cut_need(coil)) wrong("{} coils more are bought than the cut list has", count);
    }
    for (std::size_t n = 0; n < book_.takeoff.needs.size(); ++n) {
      if (is_cut(static_cast<int>(n))) check_need(static_cast<int>(n));
    }
    check_joins();
    return std::move(wrong_);
  }

 private:
  template <typename... Args>
  void wrong(fmt::format_string<Args...> text, Args&&... args) {
    wrong_.push_back(fmt::format(text, std::forward<Args>(args)...));
  }

  bool is_cut(int need) const {
    const Need& asked = book_.takeoff.needs[need];
    return asked.by_length && asked.amount > 0 && !asked.pieces.empty();
  }

  void count_bought() {
    for (const SupplierOrder& order : purchase_.orders) {
      for (const OrderLine& line : order.lines) {
        const Catalog& catalog = *book_.catalogs[order.catalog];
        if (line.bundle < 0) {
          add(order.catalog, line.item, catalog.items[line.item].packs[line.pack].length, line.count);
          continue;
        }
        const std::vector<BundleContent>& contents = catalog.bundles[line.bundle].contents;
        for (const BundleContent& content : contents) add(order.catalog, content.item, content.length, line.count);
        for (const BundleChange& change : line.changes) {
          const BundleContent& content = contents[change.content];
          add(order.catalog, content.item, content.length, -change.times);
          if (change.swap >= 0) add(order.catalog, content.swaps[change.swap].item, content.length, change.times);
        }
      }
    }
  }
  void add(int catalog, int item, Length length, std::int64_t count) {
    if (length.tenths_mm > 0) unlisted_[{catalog, item, length.tenths_mm}] += count;
  }

  bool serves(int catalog, int item, int need) const {
    return std::any_of(book_.servings.begin(), book_.servings.end(), [&](const Serving& serving) {
      const BookItem& sold = book_.items[serving.item];
      return serving.need == need && sold.catalog == catalog && sold.item == item &&
             std::all_of(serving.conditions.begin(), serving.conditions.end(), [&](const FitCondition& condition) {
               const int family = purchase_.family_of_system[condition.system];
               return std::count(condition.families.begin(), condition.families.end(), family) > 0;
             });
    });
  }
  bool serves_cut_need(const CoilKey& coil) const {
    for (std::size_t n = 0; n < book_.takeoff.needs.size(); ++n) {
      if (is_cut(static_cast<int>(n)) && serves(coil.catalog, coil.item, static_cast<int>(n))) return true;
    }
    return false;
  }

  void check_coil(const CutCoil& coil) {
    std::int64_t sum = coil.left.tenths_mm;
    if (coil.left.tenths_mm < 0) wrong("a coil is cut to less than nothing");
    for (const CoilCut& cut : coil.cuts) {
      sum += cut.length.tenths_mm;
      check_cut(coil, cut);
    }
    if (sum != coil.length.tenths_mm) wrong("cuts and remainder add up to {}, not {}", sum, coil.length.tenths_mm);
    if (coil.catalog >= 0) {
      --unlisted_[{coil.catalog, coil.item, coil.length.tenths_mm}];
    } else {
      check_site_coil(coil);
    }
  }

  void check_cut(const CutCoil& coil, const CoilCut& cut) {
    if (cut.need < 0 || cut.need >= static_cast<int>(book_.takeoff.needs.size()) || !is_cut(cut.need) ||
        cut.piece < 0 || cut.piece >= static_cast<int>(book_.takeoff.needs[cut.need].pieces.size())) {
      return wrong("a cut is for no piece");
    }
    if (cut.length.tenths_mm < 1) wrong("a cut has no length");
    if (coil.catalog >= 0 && !serves(coil.catalog, coil.item, cut.need)) {
      wrong("a coil is cut for {}, which it does not serve", book_.takeoff.needs[cut.need].id);
    }
    PieceParts& parts = parts_[{cut.need, cut.piece}];
    if (++parts.parts != cut.part) wrong("part {} of a piece comes as number {}", cut.part, parts.parts);
    parts.length += cut.length.tenths_mm;
    if (parts.parts == 1 || cut.length.tenths_mm < parts.shortest) parts.shortest = cut.length.tenths_mm;
    if (coil.catalog >= 0) from_bought_[cut.need] += cut.length.tenths_mm;
  }

  void check_site_coil(const CutCoil& coil) {
    if (coil.cuts.empty()) return;
    const int need = coil.cuts[0].need;
    const auto owned = [&](const Reason& reason) {
      return reason.reason_class == ReasonClass::on_site && -reason.amount == coil.length.tenths_mm;
    };
    const auto& reasons = book_.takeoff.needs[need].reasons;
    const std::int64_t used = ++site_coils_[{need, coil.length.tenths_mm}];
    if (std::count_if(reasons.begin(), reasons.end(), owned) < used) wrong("the site has no such coil");
    for (const CoilCut& cut : coil.cuts) {
      if (cut.need != need) wrong("what the site has for one need is cut for another");
    }
  }

  void check_need(int n) {
    const Need& need = book_.takeoff.needs[n];
    std::int64_t sum = 0, wanted = need.amount;
    for (const Reason& reason : need.reasons) {
      if (reason.reason_class == ReasonClass::on_site) wanted -= reason.amount;
    }
    for (std::size_t p = 0; p < need.pieces.size(); ++p) {
      const NeededPiece& piece = need.pieces[p];
      const PieceParts& parts = parts_[{n, static_cast<int>(p)}];
      sum += parts.length;
      if (parts.length < piece.length.tenths_mm) {
        wrong("piece {} of {} is {} short", p, need.id, piece.length.tenths_mm - parts.length);
      }
      if (parts.parts < 2 || piece.any_cut) continue;
      if (!piece.may_join) wrong("piece {} of {} is joined", p, need.id);
      if (parts.shortest < book_.takeoff.cutting.least_joined.tenths_mm) {
        wrong("piece {} of {} has a part of only {}", p, need.id, parts.shortest);
      }
      couplings_[{n, static_cast<int>(p)}] = parts.parts - 1;
    }
    if (sum != wanted) wrong("{} of {} are cut, not {}", sum, need.id, wanted);
    std::int64_t served = 0;
    for (const Supply& supply : purchase_.supplies) served += supply.need == n ? supply.amount : 0;
    if (served != from_bought_[n]) wrong("{} is served {}, and {} are cut for it", need.id, served, from_bought_[n]);
  }

  void check_joins() {
    std::map<PieceKey, std::int64_t> stated;
    for (const JoinReason& join : purchase_.joins) {
      stated[{join.tubing_need, join.piece}] += join.amount;
      const auto n = static_cast<std::size_t>(join.tubing_need);
      if (n >= book_.coupling_need.size() || book_.coupling_need[n] != join.need || join.need < 0) {
        wrong("a join takes no coupling");
      }
    }
    if (stated != couplings_) wrong("the couplings counted are not the joins made");
  }

  const OfferBook& book_;
  const Purchase& purchase_;
  std::vector<std::string> wrong_;
  std::map<CoilKey, std::int64_t> unlisted_;
  std::map<PieceKey, PieceParts> parts_;
  std::map<PieceKey, std::int64_t> couplings_;
  std::map<int, std::int64_t> from_bought_;
  std::map<std::pair<int, std::int64_t>, std::int64_t> site_coils_;
};

}  // namespace

std::vector<std::string> audit_cuts(const OfferBook& book, const Purchase& purchase) {
  return CutAudit(book, purchase).run();
}

}  // namespace teetally
