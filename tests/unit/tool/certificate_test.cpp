// An order is shown even where no certificate of it can be written.
#include "tool/certificate.h"

#include <boost/test/unit_test.hpp>
#include <filesystem>

#include "places.h"
#include "tool/buy.h"

using namespace teetally;
namespace fs = std::filesystem;

namespace {

const std::string kGarden = TEETALLY_SOURCE_DIR "/tests/gardens/one-bed/garden.yaml";
const std::string kCatalogs = TEETALLY_SOURCE_DIR "/catalogs";

struct Desk {
  fs::path folder = fs::path(TEETALLY_BUILD_DIR) / "tests/scratch/certificates";
  Session session;

  explicit Desk(const std::string& certificate, const std::vector<std::string>& more = {}) {
    fs::remove_all(folder);
    fs::create_directories(folder);
    std::vector<std::string> words = {"buy",           kGarden,
                                      "--catalogs",    kCatalogs,
                                      "--today",       "2026-04-30",
                                      "--store",       (folder / "store").string(),
                                      "--certificate", (folder / certificate).string()};
    words.insert(words.end(), more.begin(), more.end());
    Diagnostics diagnostics;
    const auto invocation = read_command_line(words, diagnostics);
    BOOST_TEST_REQUIRE(invocation.has_value());
    const auto request = read_request(*invocation, {"2026-04-30", "store.sqlite"}, diagnostics);
    BOOST_TEST_REQUIRE(request.has_value());
    session.request = *request;
  }
  bool is_written() const { return fs::exists(*session.request.certificate); }
};

// One that says the order costs less than it does.
Certificate false_one(const Bought& bought, const BuyLimits& limits, const CertifyWishes& wishes) {
  Certificate certificate = certificate_of(bought, limits, wishes);
  --certificate.order.cost;
  return certificate;
}

Certificate none_at_all(const Bought&, const BuyLimits&, const CertifyWishes&) {
  throw std::logic_error("the search for cases lost its way");
}

void is_shown_without(Desk& desk, const Answer& answer, const std::string& why) {
  BOOST_TEST(!desk.is_written());
  BOOST_TEST(!desk.session.diagnostics.has_errors());  // an error would take the place of the order
  const auto said = desk.session.diagnostics.in_order();
  BOOST_TEST_REQUIRE(said.size() == 1u);
  BOOST_TEST(said[0].slug == "tool/no-certificate");
  BOOST_TEST(said[0].message.find(why) != std::string::npos, said[0].message);
  BOOST_TEST(said[0].help.find("the order stands") == 0u);
  BOOST_TEST(answer.output.find("What each need gets") != std::string::npos);
  BOOST_TEST(answer.output.find("Certificate in") == std::string::npos);
  BOOST_TEST(answer.output.find("teetally verify") == std::string::npos);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(certificates_of_orders)

BOOST_AUTO_TEST_CASE(one_that_holds_is_written) {
  Desk desk("good.certificate");
  const Answer answer = buy_and_certify(desk.session, certificate_of);
  BOOST_TEST((answer.code == ExitCode::done));
  BOOST_TEST(desk.is_written());
  BOOST_TEST(desk.session.diagnostics.in_order().empty());
  BOOST_TEST(answer.output.find("Certificate in") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(one_that_is_refused_is_not_written_and_the_order_is_shown) {
  Desk desk("bad.certificate");
  const Answer answer = buy_and_certify(desk.session, false_one);
  BOOST_TEST((answer.code == ExitCode::our_bug));
  is_shown_without(desk, answer, "what was found is refused: ");
}

BOOST_AUTO_TEST_CASE(one_that_cannot_be_made_leaves_the_order) {
  Desk desk("bad.certificate");
  const Answer answer = buy_and_certify(desk.session, none_at_all);
  BOOST_TEST((answer.code == ExitCode::our_bug));
  is_shown_without(desk, answer, "lost its way");
}

BOOST_AUTO_TEST_CASE(one_that_has_no_place_leaves_the_order) {
  Desk desk("no/such/folder/order.certificate");
  const Answer answer = buy_and_certify(desk.session, certificate_of);
  BOOST_TEST((answer.code == ExitCode::world_failed));
  is_shown_without(desk, answer, "no/such/folder");
}

// In JSON there is no certificate either, and the order is whole.
BOOST_AUTO_TEST_CASE(as_json_there_is_the_order_and_no_certificate) {
  Desk desk("bad.certificate", {"--format", "json"});
  const Answer answer = buy_and_certify(desk.session, false_one);
  BOOST_TEST((answer.code == ExitCode::our_bug));
  BOOST_TEST(answer.output.find("\"document\": \"teetally/order\"") != std::string::npos);
  BOOST_TEST(answer.output.find("\"certificate\"") == std::string::npos);
}

BOOST_AUTO_TEST_SUITE_END()
