#include "teetally/purchase/certify.h"

#include <algorithm>

#include "purchase/cut/cutting.h"

namespace teetally {
namespace {

StatedServing stated(const OfferBook& book, const Serving& serving) {
  const BookItem& item = book.items[static_cast<std::size_t>(serving.item)];
  StatedServing made{serving.need, item.catalog, item.item, {}};
  for (const FitCondition& condition : serving.conditions) {
    made.conditions.push_back({condition.system, condition.families});
  }
  return made;
}

StatedNeed stated(const Need& need) {
  StatedNeed made{need.id, std::max<std::int64_t>(0, need.amount)};
  if (!need.by_length || made.amount == 0) return made;
  const std::vector<std::int64_t> lengths = cut_lengths(need);
  for (std::size_t p = 0; p < lengths.size(); ++p) {
    if (need.pieces[p].may_join || need.pieces[p].any_cut) {
      made.joined += lengths[p];
    } else if (lengths[p] > 0) {
      made.whole.push_back(lengths[p]);
    }
  }
  for (const Reason& reason : need.reasons) {
    if (reason.reason_class == ReasonClass::on_site) made.site.push_back(-reason.amount);
  }
  return made;
}

StatedLine stated(const OrderLine& line) {
  StatedLine made;
  made.supplier = line.catalog;
  made.item = line.bundle < 0 ? line.item : -1;
  made.pack = line.bundle < 0 ? line.pack : -1;
  made.bundle = line.bundle;
  made.count = line.count;
  for (const BundleChange& change : line.changes) {
    made.changes.push_back({change.content, change.swap, change.times, {}});
  }
  return made;
}

StatedCoil stated(const CutCoil& coil) {
  StatedCoil made{coil.catalog,          coil.item, coil.catalog < 0 ? coil.cuts.front().need : -1,
                  coil.length.tenths_mm, {},        {}};
  for (const CoilCut& cut : coil.cuts) made.cuts.push_back({cut.need, cut.length.tenths_mm});
  return made;
}

StatedOrder stated(const OfferBook& book, const Purchase& purchase) {
  StatedOrder order;
  order.cost = purchase.total.minor;
  for (const int family : purchase.family_of_system) order.families.push_back(std::max(family, 0));
  for (const SupplierOrder& from : purchase.orders) {
    for (const OrderLine& line : from.lines) order.lines.push_back(stated(line));
  }
  for (const Supply& supply : purchase.supplies) {
    const BookItem& item = book.items[static_cast<std::size_t>(supply.item)];
    order.uses.push_back({supply.need, item.catalog, item.item, supply.amount, {}});
  }
  for (const CutCoil& coil : purchase.coils) {
    if (!coil.cuts.empty()) order.coils.push_back(stated(coil));
  }
  return order;
}

}  // namespace

OrderQuestion question_of(const OfferBook& book, const BuyLimits& limits) {
  OrderQuestion question;
  for (const auto& catalog : book.catalogs) question.suppliers.push_back(catalog->id);
  for (const Need& need : book.takeoff.needs) {
    question.needs.push_back(stated(need));
  }
  for (const SystemFamilies& system : book.systems) {
    question.families.push_back(static_cast<int>(system.families.size()));
  }
  for (const Serving& serving : book.servings) question.servings.push_back(stated(book, serving));
  question.only = limits.only_suppliers;
  question.avoid = limits.avoid_suppliers;
  if (limits.most_suppliers) question.most_suppliers = *limits.most_suppliers;
  question.no_bundles = limits.no_bundles;
  question.take_bundle = limits.take_bundle;
  return question;
}

Certificate certify(const OfferBook& book, const BuyLimits& limits, const Purchase& purchase,
                    const CertifyWishes& wishes) {
  Certificate certificate;
  certificate.question = question_of(book, limits);
  certificate.order = stated(book, purchase);
  std::vector<const Catalog*> catalogs;
  for (const auto& catalog : book.catalogs) catalogs.push_back(catalog.get());
  const Market market = open_market(certificate.question, catalogs);
  certificate.bound = find_cases(market, purchase.total.minor, wishes).bound;
  return certificate;
}

}  // namespace teetally
