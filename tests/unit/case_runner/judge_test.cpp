// Each way in which a command can differ from its case is a failure; the program under test is a small script.
#include "case_runner/judge.h"

#include <boost/test/unit_test.hpp>
#include <filesystem>

#include "places.h"

namespace fs = std::filesystem;
namespace {

struct Shop {
  cases::Workshop shop{TEETALLY_SOURCE_DIR, TEETALLY_BUILD_DIR "/tests/scratch/judge/bin/fake",
                       TEETALLY_BUILD_DIR "/tests/scratch/judge/work"};
  Shop() {
    cases::write_file(shop.program, "#!/bin/sh\necho said; cat; echo left > left.txt; exit 3\n");
    fs::permissions(shop.program, fs::perms::owner_all);
  }
  std::string judge(const std::string& text) const { return cases::judge(shop, cases::read_case(text)); }
};

const std::string kGood = "=== run\nfake\n=== input\nin\n=== stdout\nsaid\nin\n=== exit 3\n=== leaves left.txt\nleft\n";

std::string without(std::string text, const std::string& part, const std::string& instead = "") {
  return text.replace(text.find(part), part.size(), instead);
}

}  // namespace

BOOST_FIXTURE_TEST_SUITE(judging, Shop)

BOOST_AUTO_TEST_CASE(passes_the_exact_case) { BOOST_TEST(judge(kGood) == ""); }

BOOST_AUTO_TEST_CASE(fails_each_difference) {
  BOOST_TEST(judge(without(kGood, "=== stdout\nsaid\nin\n")) != "");
  BOOST_TEST(judge(without(kGood, "said", "says")) != "");
  BOOST_TEST(judge(without(kGood, "exit 3", "exit 2")) != "");
  BOOST_TEST(judge(without(kGood, "=== leaves left.txt\nleft\n")) != "");
  BOOST_TEST(judge(without(kGood, "left.txt\nleft", "left.txt\nother")) != "");
  BOOST_TEST(judge(without(kGood, "leaves left.txt", "leaves more.txt")) != "");
}

BOOST_AUTO_TEST_CASE(fails_on_unexpected_stderr_and_on_signals) {
  BOOST_TEST(judge("=== run\necho oops >&2\n") != "");
  BOOST_TEST(judge("=== run\nkill -SEGV $$\n") != "");
  BOOST_TEST(judge("=== run\n(kill -SEGV $$)\n=== exit 139\n") != "");
}

BOOST_AUTO_TEST_CASE(fails_when_an_input_is_changed_or_removed) {
  BOOST_TEST(judge("=== file a\nx\n=== run\necho y > a\n") != "");
  BOOST_TEST(judge("=== file a\nx\n=== run\nrm a\n") != "");
  BOOST_TEST(judge("=== file a\nx\n=== run\ncat a\n=== stdout\nx\n") == "");
}

BOOST_AUTO_TEST_CASE(takes_what_happened_as_expected) {
  const cases::Case taken = cases::take_as_expected(shop, cases::read_case("=== run\nfake\n=== input\nin\n"));
  BOOST_TEST(cases::print_case(taken) == kGood);
  BOOST_CHECK_THROW(cases::take_as_expected(shop, cases::read_case("=== run\nkill -SEGV $$\n")), cases::CaseError);
}

BOOST_AUTO_TEST_SUITE_END()
