// How far certificates of seeded purchases reach: a line per instance, then a summary. The order comes from the engine
// named; the catalogs are made from the instance, so that what is verified is a certificate as anybody reads it.
//
//   certify_bench CLASS FIRST-SEED LAST-SEED VARIANTS SECONDS MOST-CASES ENGINE
//   certify_bench H 1 20 plain,tiers,families,both 30 2000 exact
#include "teetally/purchase/certify.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <string>

#include "bench/purchase/classes.h"
#include "purchase/solver.h"

using namespace teetally;
using namespace teetally::bench;

namespace {

struct Instance {
  std::vector<Catalog> catalogs;  // by supplier
  OrderQuestion question;
  std::vector<std::pair<int, int>> item_of;  // by product: supplier, item
};

int supplier_of(const PurchaseProblem& problem, int product) {
  for (const PackOffer& pack : problem.packs) {
    if (pack.product == product) return pack.supplier;
  }
  for (const BundleOffer& bundle : problem.bundles) {
    for (const BundlePart& part : bundle.parts) {
      if (part.product == product) return bundle.supplier;
    }
  }
  return 0;
}

Pack pack_of(const PackOffer& offer) {
  Pack pack;
  pack.count = offer.content / offer.packs_per_lot;
  pack.multiple = offer.packs_per_lot;
  pack.minimum = offer.prices.front().from * offer.packs_per_lot;
  for (const LotPrice& price : offer.prices) {
    const std::int64_t from = pack.prices.empty() ? 1 : price.from * offer.packs_per_lot;
    pack.prices.push_back({from, Money{price.each / offer.packs_per_lot}});
  }
  return pack;
}

// The same purchase as catalogs and a question. Swaps, discounts and taxes do not come up in the classes.
Instance instance_of(const PurchaseProblem& problem) {
  Instance made;
  for (std::size_t s = 0; s < problem.suppliers.size(); ++s) {
    Catalog& catalog = made.catalogs.emplace_back();
    catalog.id = fmt::format("s{}", s);
    for (const OrderBracket& bracket : problem.suppliers[s].brackets) {
      catalog.terms.shipping.push_back({Money{bracket.from}, Money{bracket.charge}});
    }
    made.question.suppliers.push_back(catalog.id);
  }
  for (std::size_t p = 0; p < problem.products.size(); ++p) {
    const int s = supplier_of(problem, static_cast<int>(p));
    std::vector<Item>& items = made.catalogs[static_cast<std::size_t>(s)].items;
    made.item_of.push_back({s, static_cast<int>(items.size())});
    items.emplace_back().sku = fmt::format("p{}", p);
  }
  for (const PackOffer& offer : problem.packs) {
    const auto [s, item] = made.item_of[static_cast<std::size_t>(offer.product)];
    std::vector<Pack>& packs = made.catalogs[static_cast<std::size_t>(s)].items[static_cast<std::size_t>(item)].packs;
    packs.push_back(pack_of(offer));
    packs.back().sku = fmt::format("p{}-{}", offer.product, packs.size());
  }
  for (const BundleOffer& offer : problem.bundles) {
    Bundle bundle;
    bundle.sku = fmt::format("b{}", &offer - problem.bundles.data());
    bundle.price = Money{offer.price};
    for (const BundlePart& part : offer.parts) {
      BundleContent content;
      content.item = made.item_of[static_cast<std::size_t>(part.product)].second;
      content.count = part.content;
      bundle.contents.push_back(std::move(content));
    }
    made.catalogs[static_cast<std::size_t>(offer.supplier)].bundles.push_back(std::move(bundle));
  }
  for (std::size_t n = 0; n < problem.needs.size(); ++n) {
    made.question.needs.push_back({fmt::format("n{}", n), problem.needs[n]});
  }
  made.question.families = problem.families;
  for (const ServingOption& serving : problem.servings) {
    const auto [s, item] = made.item_of[static_cast<std::size_t>(serving.product)];
    StatedServing stated{serving.need, s, item, {}};
    for (const FamilyCondition& condition : serving.conditions) {
      StatedCondition& one = stated.conditions.emplace_back();
      one.system = condition.system;
      for (std::size_t f = 0; f < condition.allowed.size(); ++f) {
        if (condition.allowed[f]) one.families.push_back(static_cast<int>(f));
      }
    }
    made.question.servings.push_back(std::move(stated));
  }
  return made;
}

double processor_seconds(std::clock_t since) { return static_cast<double>(std::clock() - since) / CLOCKS_PER_SEC; }

}  // namespace

int main(int count, char** words) {
  const std::vector<std::string> given(words + 1, words + count);
  const auto of = std::find_if(problem_classes().begin(), problem_classes().end(),
                               [&](const ProblemClass& c) { return !given.empty() && c.name == given[0]; });
  const Engine* engine = given.size() > 6 ? find_engine(given[6]) : nullptr;
  if (of == problem_classes().end() || engine == nullptr) {
    fmt::print("usage: certify_bench CLASS FIRST-SEED LAST-SEED VARIANTS SECONDS MOST-CASES ENGINE\n");
    return 2;
  }
  CertifyWishes wishes;
  wishes.seconds = std::strtod(given[4].c_str(), nullptr);
  wishes.most_cases = std::strtoul(given[5].c_str(), nullptr, 10);
  for (const std::string variant : {"plain", "tiers", "families", "both"}) {
    if (("," + given[3] + ",").find("," + variant + ",") == std::string::npos) continue;
    const bool both = variant == "both";
    int instances = 0, proven = 0;
    for (auto seed = std::strtoul(given[1].c_str(), nullptr, 10); seed <= std::strtoul(given[2].c_str(), nullptr, 10);
         ++seed) {
      const PurchaseProblem problem =
          generate(*of, static_cast<unsigned>(seed), both || variant == "tiers", both || variant == "families");
      const Solved solved = engine->solve(problem, {wishes.seconds, first_plan(problem)});
      const auto ranked = solved.plan ? rank(problem, *solved.plan) : std::nullopt;
      if (!ranked) continue;
      const Instance made = instance_of(problem);
      std::vector<const Catalog*> catalogs;
      for (const Catalog& catalog : made.catalogs) catalogs.push_back(&catalog);
      std::clock_t start = std::clock();
      Certificate certificate;
      certificate.question = made.question;
      certificate.order.cost = ranked->cost;
      certificate.bound = find_cases(open_market(made.question, catalogs), ranked->cost, wishes).bound;
      const double finding = processor_seconds(start);
      const std::string text = certificate_text(certificate, catalogs);
      start = std::clock();
      Diagnostics diagnostics;
      const auto file = read_certificate(source_from_text("certificate", text), made.catalogs, diagnostics);
      const Verified verified = file ? follow_cases(file->certificate, file->catalogs, diagnostics) : Verified{};
      const double following = processor_seconds(start);
      ++instances;
      proven += verified.proven;
      fmt::print(
          "{} {} {} cost {} ({}) at least {} {} cases {} open {} size {} found in {:.2f} s followed in {:.2f} s\n",
          of->name, variant, seed, ranked->cost, solved.proven ? "proven" : "open", verified.at_least.minor,
          verified.proven ? "certified" : "not certified", verified.cases, verified.open, text.size(), finding,
          following);
      for (const Diagnostic& wrong : diagnostics.in_order()) fmt::print("  refused: {}\n", wrong.message);
      std::fflush(stdout);
    }
    fmt::print("{} {}: {} of {} certified\n", of->name, variant, proven, instances);
  }
}
