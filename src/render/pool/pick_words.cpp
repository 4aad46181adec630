#include "render/pool/pick_words.h"

#include <fmt/format.h>

#include "render/order/cut_list.h"
#include "render/phrases.h"

namespace teetally {
namespace {

std::string sku_of(const PoolResult& result, const PackThere& pack) {
  const Catalog& catalog = *result.book.catalogs[static_cast<std::size_t>(pack.catalog)];
  if (pack.bundle >= 0) return catalog.bundles[static_cast<std::size_t>(pack.bundle)].sku;
  return catalog.items[static_cast<std::size_t>(pack.item)].packs[static_cast<std::size_t>(pack.pack)].sku;
}

// Of the same item, from the next pack of the same sku.
bool goes_on(const PoolResult&, const HandOut& out, const Pick& before, const Pick& pick) {
  if (before.pack < 0 || pick.pack < 0 || before.catalog != pick.catalog || before.item != pick.item) return false;
  const PackThere& last = out.packs[static_cast<std::size_t>(before.pack)];
  const PackThere& next = out.packs[static_cast<std::size_t>(pick.pack)];
  return same_sku(last, next) && (next.number == last.number || next.number == last.number + 1);
}

}  // namespace

bool same_sku(const PackThere& a, const PackThere& b) {
  return a.catalog == b.catalog && a.item == b.item && a.pack == b.pack && a.bundle == b.bundle;
}

const PlotShare& share_of(const PoolResult& result, int line) {
  const std::size_t plots = result.plots.size();
  const auto at = static_cast<std::size_t>(line);
  return at < plots ? result.plots[at] : result.shared[at - plots];
}

const Plot& plot_of(const PoolResult& result, int line) {
  return result.pool.plots[static_cast<std::size_t>(share_of(result, line).plot)];
}

std::string plot_title(const Plot& plot) {
  const std::string name = (plot.is_shared ? "shared part " : "plot ") + plot.name;
  return printable(plot.member.empty() ? name : name + ", " + plot.member);
}

std::string pack_label(const PoolResult& result, const PackThere& pack) {
  return fmt::format("{} no. {}", sku_of(result, pack), pack.number);
}

std::vector<PickWords> words_of(const PaperView& view, const std::vector<Pick>& picks, UnitSystem units) {
  const PoolResult& result = view.result;
  std::vector<PickWords> words;
  for (std::size_t p = 0; p < picks.size(); ++p) {
    const Pick& pick = picks[p];
    PickWords row;
    if (pick.catalog >= 0) {
      const Item& item =
          result.book.catalogs[static_cast<std::size_t>(pick.catalog)]->items[static_cast<std::size_t>(pick.item)];
      row.sku = item.sku;
      row.name = item.name;
    }
    if (pick.coil >= 0) {
      row.amount = to_text(Length{pick.amount}, units);
      row.from = fmt::format("coil {}{}", pick.coil + 1, pick.cut < 0 ? "" : fmt::format(", cut {}", pick.cut + 1));
      const CutCoil& coil = result.purchase.coils[static_cast<std::size_t>(pick.coil)];
      const OrderView order{result.book, result.purchase, nullptr};
      row.where = pick.cut < 0 ? left_words(coil) : place_words(order, coil.cuts[static_cast<std::size_t>(pick.cut)]);
      if (row.where == "any") row.where.clear();
      words.push_back(std::move(row));
      continue;
    }
    const PackThere& first = view.out.packs[static_cast<std::size_t>(pick.pack)];
    std::int64_t amount = pick.amount, last = first.number;
    while (p + 1 < picks.size() && goes_on(result, view.out, picks[p], picks[p + 1])) {
      ++p;
      amount += picks[p].amount;
      last = view.out.packs[static_cast<std::size_t>(picks[p].pack)].number;
    }
    row.amount = std::to_string(amount);
    row.from = pack_label(result, first) + (last == first.number ? "" : fmt::format(" to {}", last));
    words.push_back(std::move(row));
  }
  return words;
}

}  // namespace teetally
