// A folder that may not be listed is said so (catalog/unreadable-folder). The superuser may list every folder, so
// the test steps down to an ordinary user while it looks.
#include <sys/stat.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <filesystem>

#include "teetally/catalog.h"

using namespace teetally;

BOOST_AUTO_TEST_CASE(a_folder_that_may_not_be_listed_is_named) {
  const std::filesystem::path folder = std::filesystem::temp_directory_path() / "teetally-closed-folder";
  std::filesystem::create_directories(folder);
  BOOST_TEST_REQUIRE(chmod(folder.c_str(), 0000) == 0);
  const uid_t user = geteuid();
  if (user == 0) BOOST_TEST_REQUIRE(seteuid(65534) == 0);
  Diagnostics diagnostics;
  const auto catalogs = read_catalogs({folder.string()}, shipped_vocabulary(), "", diagnostics);
  if (user == 0) BOOST_TEST_REQUIRE(seteuid(user) == 0);
  BOOST_TEST_REQUIRE(chmod(folder.c_str(), 0700) == 0);
  std::filesystem::remove(folder);
  BOOST_TEST(catalogs.empty());
  BOOST_TEST_REQUIRE(!diagnostics.in_order().empty());
  BOOST_TEST(diagnostics.in_order().front().slug == "catalog/unreadable-folder");
}
