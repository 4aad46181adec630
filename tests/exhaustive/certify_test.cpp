// Certificates of tiny random purchases, against brute force: whatever the cases prove must be true, and most
// purchases are proven. Then certificates with numbers changed: each is refused, or what it says is still true.
#include "teetally/purchase/certify.h"

#include <boost/test/unit_test.hpp>
#include <random>

#include "exhaustive/brute_force.h"
#include "exhaustive/random_book.h"
#include "places.h"

using namespace teetally;
using namespace teetally::test;

namespace {

constexpr unsigned kBooks = 1200;

std::vector<Catalog> catalogs_of(const OfferBook& book) {
  std::vector<Catalog> catalogs;
  for (const auto& catalog : book.catalogs) catalogs.push_back(*catalog);
  return catalogs;
}

// Written down, read again and followed.
std::optional<Verified> followed(const std::string& text, const std::vector<Catalog>& catalogs,
                                 Diagnostics& diagnostics) {
  const auto file = read_certificate(source_from_text("certificate", text), catalogs, diagnostics);
  if (!file) return std::nullopt;
  const Verified verified = verify(file->certificate, file->catalogs, diagnostics);
  return diagnostics.has_errors() ? std::nullopt : std::optional(verified);
}

std::string first_complaint(const Diagnostics& diagnostics) {
  const std::vector<Diagnostic> all = diagnostics.in_order();
  return all.empty() ? "" : all.front().slug + ": " + all.front().message;
}

struct Certified {
  OfferBook book;
  std::int64_t cheapest = 0;  // by brute force
  std::vector<Catalog> catalogs;
  Certificate certificate;
  std::string text;
};

std::optional<Certified> certified(unsigned seed) {
  RandomPurchase random = random_purchase(seed);
  random.limits.engine = "exact";
  random.limits.seconds = 10;
  Certified made{random.made.book(), 0, {}, {}, {}};
  const BruteAnswer brute = brute_force(made.book, random.limits);
  if (!brute.finished || !brute.best) return std::nullopt;
  const Purchase purchase = buy(made.book, random.limits);
  if (purchase.outcome != Outcome::bought) return std::nullopt;
  made.cheapest = brute.best->cost;
  made.catalogs = catalogs_of(made.book);
  made.certificate = certify(made.book, random.limits, purchase, {5, 300});
  std::vector<const Catalog*> listed;
  for (const Catalog& catalog : made.catalogs) listed.push_back(&catalog);
  made.text = certificate_text(made.certificate, listed);
  return made;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(certificates)

BOOST_AUTO_TEST_CASE(what_cases_prove_is_true) {
  int compared = 0, proven = 0;
  std::size_t cases = 0;
  for (unsigned seed = 1; seed <= kBooks; seed += TEETALLY_EVERY) {
    const std::optional<Certified> made = certified(seed);
    if (!made) continue;
    ++compared;
    BOOST_TEST_CONTEXT("seed " << seed) {
      Diagnostics diagnostics;
      const std::optional<Verified> verified = followed(made->text, made->catalogs, diagnostics);
      BOOST_TEST(verified.has_value(), first_complaint(diagnostics));
      if (!verified) continue;
      BOOST_TEST(verified->at_least.minor <= made->cheapest);
      BOOST_TEST(verified->at_least.minor == made->certificate.bound.at_least);
      BOOST_TEST(verified->cost.minor >= made->cheapest);
      proven += verified->proven;
      cases += verified->cases;
    }
  }
  BOOST_TEST_MESSAGE(compared << " compared, " << proven << " proven, " << cases << " cases");
  BOOST_TEST(proven * 100 >= compared * 90);
}

// One number of the text becomes another: a digit more, less or changed, a sign, or something else altogether.
BOOST_AUTO_TEST_CASE(a_changed_number_proves_nothing_false) {
  std::mt19937 random(20260430);
  const auto pick = [&](std::size_t below) { return static_cast<std::size_t>(random() % below); };
  int held = 0, refused = 0, other = 0;
  for (unsigned seed = 1; seed <= 120; seed += TEETALLY_EVERY) {
    const std::optional<Certified> made = certified(seed);
    if (!made) continue;
    for (int change = 0; change < 60; ++change) {
      std::string text = made->text;
      std::size_t at = pick(text.size());
      at = text.find_first_of("0123456789", at);
      if (at == std::string::npos) continue;
      const char digit = static_cast<char>('0' + pick(10));
      switch (pick(4)) {
        case 0:
          text[at] = digit;
          break;
        case 1:
          text.insert(at, 1, digit);
          break;
        case 2:
          text.erase(at, 1);
          break;
        default:
          text.replace(at, text.find_first_not_of("0123456789", at) - at, std::to_string(random() % 5'000'000));
      }
      Diagnostics diagnostics;
      const auto file = read_certificate(source_from_text("certificate", text), made->catalogs, diagnostics);
      const bool same_question = file && file->certificate.question == made->certificate.question;
      const std::optional<Verified> verified = followed(text, made->catalogs, diagnostics);
      if (!verified) {
        ++refused;
        BOOST_TEST(diagnostics.has_errors());
      } else if (same_question) {
        ++held;
        BOOST_TEST(verified->at_least.minor <= made->cheapest, "seed " << seed << ": " << text);
        BOOST_TEST(verified->cost.minor >= made->cheapest, "seed " << seed << ": " << text);
        BOOST_TEST((!verified->proven || verified->cost.minor == made->cheapest));
        BOOST_TEST(file->certificate.bound.at_least <= made->cheapest);
      } else {
        ++other;
      }
    }
  }
  BOOST_TEST_MESSAGE(held << " held and were true, " << refused << " refused, " << other << " of another question");
  if (TEETALLY_EVERY == 1) {
    BOOST_TEST(held > 100);
    BOOST_TEST(refused > 1000);
  }
}

namespace {

std::vector<std::int64_t> drawn(std::mt19937& random, std::size_t count, std::int64_t spread) {
  std::vector<std::int64_t> values;
  for (std::size_t i = 0; i < count; ++i) values.push_back(static_cast<std::int64_t>(random() % (2 * spread)) - spread);
  return values;
}

// Rates for two states, lists for counts, and what needs pay for states.
void draw_lists(PriceSplit& prices, const Market& market, std::mt19937& random) {
  const std::int64_t spread = random() % 2 == 0 ? 20'000'000 : 500'000;
  for (std::vector<StatedRate>& rates : prices.rates) {
    rates.resize(1);
    if (random() % 2 == 0) rates.push_back({1 + static_cast<std::int64_t>(random() % 120), rates[0].rate});
  }
  for (std::size_t b = 0; b < market.bundles.size(); ++b) {
    std::size_t share = 0;
    for (const BundleContent& content : market.bundle(b).contents) {
      StatedShare& paid = prices.shares[b][share];
      share += 1 + content.swaps.size();
      if (!is_always_taken(market, b, content) || random() % 3 == 0) continue;
      paid.first = static_cast<std::int64_t>(random() % 2);
      paid.values = drawn(random, 1 + random() % 4, spread);
    }
  }
  prices.calls.assign(prices.rates.size(), {});
  for (std::size_t s = 0; s < prices.calls.size(); ++s) {
    if (random() % 3 == 0) continue;
    for (std::size_t n = 0; n < market.question.needs.size(); ++n) {
      prices.calls[s].push_back(drawn(random, prices.rates[s].size() + 1, spread));
    }
  }
}

// Before some cases, narrows them by some of the prices.
void draw_narrowing(StatedBound& bound, std::mt19937& random) {
  std::vector<StatedCase> cases;
  for (const StatedCase& one : bound.cases) {
    if (random() % 2 == 0) {
      StatedCase narrow;
      narrow.narrow = true;
      narrow.prices = static_cast<int>(random() % bound.prices.size());
      cases.push_back(narrow);
    }
    cases.push_back(one);
  }
  bound.cases = std::move(cases);
}

}  // namespace

// Prices drawn at random, in every case of every split: whatever stands there, the bound is true.
BOOST_AUTO_TEST_CASE(any_prices_give_a_true_bound) {
  std::mt19937 random(7);
  int tried = 0;
  for (unsigned seed = 200; seed < 500; seed += TEETALLY_EVERY) {
    const std::optional<Certified> made = certified(seed);
    if (!made) continue;
    std::vector<const Catalog*> catalogs;
    for (const Catalog& catalog : made->catalogs) catalogs.push_back(&catalog);
    for (int change = 0; change < 8; ++change, ++tried) {
      Certificate certificate = made->certificate;
      certificate.bound.at_least = 0;
      for (PriceSplit& prices : certificate.bound.prices) {
        for (std::vector<StatedRate>& rates : prices.rates) {
          for (StatedRate& rate : rates) rate.rate = random() % 3 == 0 ? rate.rate : random() % 3'000'000;
        }
        for (std::vector<StatedShare>& shares : prices.shares) {
          for (StatedShare& share : shares) share.each = random() % 3 == 0 ? share.each : random() % 60'000'000;
        }
      }
      for (StatedCase& one : certificate.bound.cases) {
        if (one.prices < 0 && one.by == Splits::goods && random() % 2 == 0) one.at = random() % 120;
      }
      if (change % 2 == 0) {
        const Market market = open_market(certificate.question, catalogs);
        for (PriceSplit& prices : certificate.bound.prices) draw_lists(prices, market, random);
        draw_narrowing(certificate.bound, random);
      }
      Diagnostics diagnostics;
      const Verified verified = verify(certificate, catalogs, diagnostics);
      BOOST_TEST(!diagnostics.has_errors(), first_complaint(diagnostics));
      BOOST_TEST(verified.at_least.minor <= made->cheapest, "seed " << seed);
    }
  }
  BOOST_TEST_MESSAGE(tried << " certificates with prices drawn at random");
  if (TEETALLY_EVERY == 1) BOOST_TEST(tried > 1000);
}

BOOST_AUTO_TEST_SUITE_END()
