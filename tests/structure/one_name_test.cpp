// One name, one type: two headers that give different types the same full name break the program in ways that only show
// when it runs, since the linker keeps one of the two.
#include <boost/test/unit_test.hpp>
#include <map>
#include <regex>

#include "structure/tree.h"

BOOST_AUTO_TEST_SUITE(one_name)

BOOST_AUTO_TEST_CASE(no_two_headers_define_the_same_type) {
  const std::regex place("^namespace ([A-Za-z_:]*) *\\{");
  const std::regex type("^(struct|class|enum class|enum) ([A-Za-z_]+)[^;]*$");
  std::map<std::string, std::string> defined;  // full name, path
  for (const tree::File& file : tree::program()) {
    if (!file.path.ends_with(".h")) continue;
    std::string space;
    for (const std::string& line : tree::lines(tree::code_only(file.text))) {
      std::smatch found;
      if (std::regex_search(line, found, place)) space = found[1];
      if (!std::regex_search(line, found, type)) continue;
      const auto [slot, fresh] = defined.emplace(space + "::" + found[2].str(), file.path);
      BOOST_TEST(fresh, slot->first << " is defined in " << slot->second << " and in " << file.path);
    }
  }
  BOOST_TEST(defined.size() > 100);
}

BOOST_AUTO_TEST_SUITE_END()
