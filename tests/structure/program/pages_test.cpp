// The shipped page templates are sound, reach for nothing outside, can be read, and docs/papers.md tells their names.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "render/page/template.h"
#include "render/page/values.h"
#include "structure/tree.h"
#include "teetally/needs/take_off.h"

using namespace teetally;

namespace {

// A line of the documentation for each name: "- `lines`: list" with those inside two spaces further in.
std::string told(const std::vector<PageName>& names, const std::string& indent) {
  std::string text;
  for (const PageName& name : names) {
    const bool list = name.kind == PageName::Kind::list;
    text += indent + "- `" + name.name + "`" +
            (list                                  ? name.inside.empty() ? ", a list of texts" : ", a list of"
             : name.kind == PageName::Kind::markup ? ", markup"
                                                   : "") +
            "\n" + told(name.inside, indent + "  ");
  }
  return text;
}

// The value of `--name: #rrggbb` in a style sheet.
std::string colour(std::string_view style, const std::string& name) {
  const std::size_t at = style.find("--" + name + ": #");
  BOOST_TEST_REQUIRE(at != std::string_view::npos, name << " has no colour");
  return std::string(style.substr(at + name.size() + 5, 6));
}

// Relative luminance and contrast ratio: WCAG 2.2, definitions of those names.
double luminance(const std::string& hex) {
  const double parts[] = {0.2126, 0.7152, 0.0722};
  double sum = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const double c = std::stoi(hex.substr(2 * i, 2), nullptr, 16) / 255.0;
    sum += parts[i] * (c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4));
  }
  return sum;
}
double contrast(const std::string& a, const std::string& b) {
  const double x = luminance(a), y = luminance(b);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

Source shipped_source(const std::string& path) { return source_from_text(path, tree::read(path)); }

// A shipped garden as far as its purchase, without a complaint.
struct Bought {
  Site site;
  SizedGarden sized;
  OfferBook book;
  Purchase purchase;
};
Bought bought(const std::string& garden) {
  Diagnostics diagnostics;
  const Vocabulary vocabulary = shipped_vocabulary();
  const Practice practice = shipped_practice();
  Bought all;
  all.site = read_design(shipped_source(garden), vocabulary, {}, diagnostics);
  all.sized = size_garden(lay_out(all.site, practice, diagnostics), practice, UnitSystem::us, diagnostics);
  std::vector<Catalog> catalogs;
  catalogs.push_back(*read_catalog(shipped_source("catalogs/fernhollow.yaml"), vocabulary, diagnostics));
  all.book = find_offers(take_off(all.sized, practice, vocabulary, UnitSystem::us, diagnostics), catalogs, vocabulary,
                         {}, UnitSystem::us);
  all.purchase = buy(all.book, {});
  for (const Diagnostic& d : diagnostics.in_order()) BOOST_ERROR(to_text(d));
  BOOST_TEST_REQUIRE((all.purchase.outcome == Outcome::bought));
  return all;
}

void check_alike(Json values, Paper paper) {
  values.set("style", "");
  for (const std::string& difference : unlike(values, names_of(paper))) {
    BOOST_ERROR(template_of(paper) << ": " << difference);
  }
}

}  // namespace

BOOST_AUTO_TEST_SUITE(pages)

// What templates are promised is what they get.
BOOST_AUTO_TEST_CASE(pages_have_the_names_they_promise) {
  const Bought garden = bought("tests/gardens/one-bed/garden.yaml");
  const OrderView view{garden.book, garden.purchase, &garden.sized};
  check_alike(order_page_values(view, UnitSystem::us), Paper::order);
  const Comparison comparison = compare(garden.book, {}, garden.purchase, {});
  check_alike(comparison_page_values({garden.book, comparison}, UnitSystem::us), Paper::comparison);
  check_alike(cut_list_page_values(view, UnitSystem::us), Paper::cut_list);
  const Takeoff& takeoff = garden.book.takeoff;
  check_alike(parts_page_values(takeoff, &garden.sized, UnitSystem::us), Paper::parts);
  check_alike(van_list_page_values(takeoff, UnitSystem::us), Paper::van_list);
  check_alike(plan_page_values({garden.site, garden.sized, takeoff}, PlanLayer::lengths, UnitSystem::us), Paper::plan);
  RunCard card;
  card.zones.emplace_back();
  check_alike(run_card_page_values(card, UnitSystem::us), Paper::run_card);
  Job job;
  job.payments.push_back({"Deposit", Percent{100'000}, std::nullopt});
  job.exclusions = {"digging"};
  job.options.resize(1);
  Quote quote = make_quote({garden.book, garden.purchase, job, "2026-04-30", UnitSystem::us});
  add_options(quote, {garden.book, garden.purchase, job, "2026-04-30", UnitSystem::us}, {});
  check_alike(quote_page_values(quote.copy), Paper::quote);
  check_alike(internal_quote_page_values(quote), Paper::internal_quote);
}

// A pool of two plots and a shared part.
BOOST_AUTO_TEST_CASE(pages_of_a_pool_have_the_names_they_promise) {
  const Bought garden = bought("tests/gardens/one-bed/garden.yaml");
  PoolResult result;
  Basket basket;
  for (std::size_t n = 0; n < garden.book.takeoff.needs.size(); ++n) {
    const Need& need = garden.book.takeoff.needs[n];
    basket.push_back({static_cast<int>(n), need.amount, need.pieces});
  }
  for (int p = 0; p < 3; ++p) {
    Plot plot;
    plot.name = std::to_string(p);
    plot.is_shared = p == 2;
    plot.cash_limit = Money{1};
    result.pool.plots.push_back(plot);
    (plot.is_shared ? result.shared : result.plots).push_back({p, 0, {}, {}});
  }
  result.pool.currency = garden.book.catalogs.front()->currency;
  result.left_out = 1;
  result.baskets = {basket};
  result.book = book_for(garden.book, result.baskets, {3});
  result.purchase = buy(result.book, {});
  BOOST_TEST_REQUIRE((result.purchase.outcome == Outcome::bought));
  result.alone = buy_alone(result.book, result.baskets, {}, 1);
  share_pool(result, ShareRule::price_list, {}, 1);
  check_alike(pool_page_values(result, next_steps_of(result), UnitSystem::us), Paper::pool);
  const HandOut out = hand_out(result);
  const PaperView view{result, out, std::nullopt};
  check_alike(picks_page_values(view, UnitSystem::us), Paper::picks);
  check_alike(packing_page_values(view, UnitSystem::us), Paper::packing);
  check_alike(statements_page_values(view), Paper::statements);
  const Round round;
  check_alike(round_page_values({result, round, settle(result, result, out, round)}), Paper::round);
}

BOOST_AUTO_TEST_CASE(the_shipped_templates_are_sound) {
  for (const std::string& name : template_names()) {
    Diagnostics diagnostics;
    check_template(name, source_from_text(name, std::string(shipped_template(name))), diagnostics);
    for (const Diagnostic& d : diagnostics.in_order()) BOOST_ERROR(to_text(d));
    BOOST_TEST(tree::read("templates/pages/" + name) == shipped_template(name));
  }
  BOOST_TEST(tree::files("templates/pages", {".mustache", ".css"}).size() == template_names().size());
}

BOOST_AUTO_TEST_CASE(pages_load_nothing_and_run_nothing) {
  for (const std::string& name : template_names()) {
    const std::string text(shipped_template(name));
    for (const char* reach : {"<script", "<link", "src=", "href=", "url(", "@import", "://", " on", "javascript:"}) {
      const std::size_t at = text.find(reach);
      if (std::string(reach) == " on" && (at == std::string::npos || text.find('=', at) > text.find('>', at))) continue;
      BOOST_TEST(at == std::string::npos, name << " holds " << reach);
    }
    if (name == kStyleSheet) continue;
    BOOST_TEST(text.find("content=\"default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action "
                         "'none'\"") != std::string::npos,
               name << " has no content policy");
    BOOST_TEST(text.find("<html lang=\"en\">") != std::string::npos, name);
  }
}

// Every element that is opened is closed, the innermost first.
BOOST_AUTO_TEST_CASE(marks_are_balanced) {
  const std::vector<std::string> empty_elements = {"meta", "input", "!doctype"};
  for (const std::string& name : template_names()) {
    if (name == kStyleSheet) continue;
    const std::string text(shipped_template(name));
    std::vector<std::string> open;
    for (std::size_t at = text.find('<'); at != std::string::npos; at = text.find('<', at + 1)) {
      std::string tag = text.substr(at + 1, text.find_first_of(" >\n", at) - at - 1);
      if (std::find(empty_elements.begin(), empty_elements.end(), tag) != empty_elements.end()) continue;
      if (tag.front() != '/') {
        open.push_back(tag);
        continue;
      }
      BOOST_TEST_REQUIRE(!open.empty(), name << " closes " << tag);
      BOOST_TEST("/" + open.back() == tag, name);
      open.pop_back();
    }
    BOOST_TEST(open.empty(), name);
  }
}

BOOST_AUTO_TEST_CASE(words_stand_out_from_the_paper) {
  const std::string_view style = shipped_template(kStyleSheet);
  for (const char* paper : {"paper", "tint"}) {
    BOOST_TEST(contrast(colour(style, "ink"), colour(style, paper)) >= 7.0);
    BOOST_TEST(contrast(colour(style, "accent"), colour(style, paper)) >= 4.5);
    BOOST_TEST(contrast(colour(style, "quiet"), colour(style, paper)) >= 4.5);
  }
  BOOST_TEST(std::abs(contrast("ffffff", "000000") - 21) < 1e-9);  // WCAG: white on black is 21:1
}

BOOST_AUTO_TEST_CASE(the_documentation_tells_every_name) {
  const std::string page = tree::read("docs/papers.md");
  for (const std::string& name : template_names()) {
    BOOST_TEST(page.find("`" + name + "`") != std::string::npos, name << " is not told of");
    const auto paper = paper_of(name);
    if (!paper) continue;
    const std::string names = "### " + name + "\n\n" + told(names_of(*paper), "");
    BOOST_TEST(page.find(names) != std::string::npos, "docs/papers.md should hold\n" << names);
  }
}

BOOST_AUTO_TEST_SUITE_END()
