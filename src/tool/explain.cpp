#include <algorithm>

#include "teetally/base/text.h"
#include "tool/commands.h"
#include "tool/pipeline.h"

namespace teetally {
namespace {

bool is_sku_of(const std::string& word, const Item& item) {
  return item.sku == word ||
         std::any_of(item.packs.begin(), item.packs.end(), [&](const Pack& pack) { return pack.sku == word; });
}

bool is_in_bundle(const std::string& word, const Catalog& catalog, int item) {
  return std::any_of(catalog.bundles.begin(), catalog.bundles.end(), [&](const Bundle& bundle) {
    return bundle.sku == word && std::any_of(bundle.contents.begin(), bundle.contents.end(),
                                             [&](const BundleContent& content) { return content.item == item; });
  });
}

std::vector<int> needs_served_by(const std::string& sku, const OfferBook& book) {
  std::vector<int> needs;
  for (const Serving& serving : book.servings) {
    const BookItem& sold = book.items[static_cast<std::size_t>(serving.item)];
    const Catalog& catalog = *book.catalogs[static_cast<std::size_t>(sold.catalog)];
    const Item& item = catalog.items[static_cast<std::size_t>(sold.item)];
    if (!is_sku_of(sku, item) && !is_in_bundle(sku, catalog, sold.item)) continue;
    if (needs.empty() || needs.back() != serving.need) needs.push_back(serving.need);
  }
  return needs;
}

template <typename Wanted>
std::vector<int> needs_that(const Takeoff& takeoff, Wanted wanted) {
  std::vector<int> needs;
  for (std::size_t n = 0; n < takeoff.needs.size(); ++n) {
    if (wanted(takeoff.needs[n])) needs.push_back(static_cast<int>(n));
  }
  return needs;
}

// By number, else by sku, else by kind ("tee", "tees", "tubing").
std::vector<int> needs_meant(const std::string& word, const Takeoff& takeoff, const OfferBook* book,
                             const Vocabulary& vocabulary) {
  const std::string small = lower_case(word);
  auto needs = needs_that(takeoff, [&](const Need& need) { return lower_case(need.id) == small; });
  if (needs.empty() && book != nullptr) needs = needs_served_by(word, *book);
  if (needs.empty()) {
    needs = needs_that(takeoff, [&](const Need& need) {
      const KindType* kind = vocabulary.find(need.part.kind);
      return need.part.kind == small || (kind != nullptr && kind->plural == small) || need.part.kind + "s" == small;
    });
  }
  if (!needs.empty()) return needs;
  return needs_that(takeoff, [&](const Need& need) { return need.part.kind.find(small) != std::string::npos; });
}

void nothing_meant(Session& session, const std::string& word, const Takeoff& takeoff, bool with_catalogs) {
  std::vector<std::string> known;
  for (const Need& need : takeoff.needs) {
    if (std::find(known.begin(), known.end(), need.part.kind) == known.end()) known.push_back(need.part.kind);
  }
  Diagnostic& d = session.diagnostics.error("tool/nothing-to-explain", {},
                                            quoted(word) + " is no need, no kind of part needed" +
                                                (with_catalogs ? " and no sku that serves one" : "") +
                                                "; the kinds are " + listed(known));
  if (const auto near = nearest_word(word, known)) {
    d.help = "did you mean " + quoted(*near) + "?";
  } else if (!with_catalogs) {
    d.help = "to explain a sku, give --catalogs too";
  }
}

struct Subject {
  Vocabulary vocabulary;
  Takeoff takeoff;               // without catalogs
  std::optional<Bought> bought;  // with them
  UnitSystem units = UnitSystem::us;
};

std::optional<Subject> subject_of(Session& session) {
  const std::string& file = session.request.arguments[0];
  Subject subject;
  if (session.request.catalogs.empty()) {
    auto listed = list_needs(session, file);
    if (!listed) return std::nullopt;
    subject.vocabulary = std::move(listed->vocabulary);
    subject.takeoff = std::move(listed->takeoff);
    subject.units = listed->units;
    return subject;
  }
  subject.bought = buy_all(session, file, true);
  if (!subject.bought) return std::nullopt;
  subject.vocabulary = subject.bought->vocabulary;
  subject.takeoff = subject.bought->book.takeoff;
  subject.units = subject.bought->units;
  return subject;
}

}  // namespace

Answer run_explain(Session& session) {
  const auto subject = subject_of(session);
  if (!subject) return stopped(session);
  const OfferBook* book = subject->bought ? &subject->bought->book : nullptr;
  const std::string& word = session.request.arguments[1];
  WalkView view{subject->takeoff, needs_meant(word, subject->takeoff, book, subject->vocabulary), book,
                subject->bought ? &subject->bought->purchase : nullptr};
  if (view.needs.empty()) {
    nothing_meant(session, word, subject->takeoff, book != nullptr);
    return stopped(session);
  }
  const UnitSystem units = subject->units;
  const std::string output = in_form(
      session,
      [&] {
        return walk_text(view, {session.width, units});
      },
      [&] { return walk_document(view, units); }, [&] { return walk_csv(view, units); });
  return {ExitCode::done, output};
}

}  // namespace teetally
