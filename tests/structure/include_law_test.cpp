// Who may include whom. The order of the stages is src/stages.cmake, which the build reads too.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <map>
#include <set>

#include "structure/tree.h"

namespace {

// No file of the stages on the left reaches, by any chain of includes, a header of the stages on the right.
struct Blind {
  std::vector<std::string> stages, never;
};
const std::vector<Blind> kBlind = {
    // A garden is right or wrong whatever suppliers there are.
    {{"design", "garden", "hydraulics", "needs"}, {"catalog"}},
    // What follows a certificate shares nothing with those who find, match or buy.
    {{"verify"}, {"design", "garden", "hydraulics", "needs", "offers", "purchase", "quote", "store", "render", "tool"}},
    // The purchase would buy anything, and a quote charges for anything.
    {{"offers", "purchase", "quote"}, {"design", "garden", "hydraulics"}},
};

using Rooms = std::map<std::string, std::vector<std::string>>;

// The rooms of a stage, and which others each may include (DEVELOPERS.md tells what they do).
const Rooms kRooms = {
    {"exact", {}}, {"linear", {}}, {"bulk", {"linear"}}, {"cut", {}}, {"certify", {"cut"}}, {"why", {"cut"}},
};
const Rooms kRenderRooms = {
    {"page", {}},
    {"plan", {"page"}},
    {"check", {"page"}},
    {"takeoff", {"page"}},
    {"order", {"page"}},
    {"compare", {"page", "order"}},
    {"pool", {"page", "order"}},
    {"quote", {"page"}},
    {"store", {}},
};

// The room of a path below src/, such as "purchase/exact/model.h"; empty outside the stage and for its common files.
std::string room_of(std::string path, const std::string& stage) {
  if (path.compare(0, 4, "src/") == 0) path.erase(0, 4);
  const auto end = path.find('/', stage.size());
  if (path.compare(0, stage.size(), stage) != 0 || end == std::string::npos) return "";
  return path.substr(stage.size(), end - stage.size());
}

bool holds(const std::vector<std::string>& all, const std::string& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

}  // namespace

BOOST_AUTO_TEST_SUITE(include_law)

BOOST_AUTO_TEST_CASE(there_is_a_tree_to_judge) {
  BOOST_TEST(tree::stages().size() >= 10u);
  BOOST_TEST(tree::program().size() >= 20u);
  BOOST_TEST(tree::stage_of("src/base/money.cpp") == "base");
  BOOST_TEST(tree::stage_of("include/teetally/catalog.h") == "catalog");
}

BOOST_AUTO_TEST_CASE(every_file_belongs_to_a_stage) {
  for (const tree::File& file : tree::program()) BOOST_TEST(tree::stage_of(file.path) != "", file.path);
}

BOOST_AUTO_TEST_CASE(a_file_includes_only_its_stage_and_those_above) {
  for (const tree::File& file : tree::program()) {
    const int own = tree::rank_of(tree::stage_of(file.path));
    for (const tree::Include& include : tree::includes(file.text)) {
      if (include.outside) continue;
      const int other = tree::rank_of(tree::stage_of(include.name));
      BOOST_TEST((other >= 0 && other <= own), file.path << " includes \"" << include.name << "\"");
    }
  }
}

BOOST_AUTO_TEST_CASE(includes_name_files_that_exist_and_headers_only) {
  for (const tree::File& file : tree::program()) {
    for (const tree::Include& include : tree::includes(file.text)) {
      if (include.outside) continue;
      BOOST_TEST(tree::resolve(include.name) != "", file.path << " includes \"" << include.name << "\"");
      BOOST_TEST(include.name.substr(include.name.rfind('.')) == ".h", file.path << " includes " << include.name);
    }
  }
}

// A header in src/<stage>/ is that stage's own affair.
BOOST_AUTO_TEST_CASE(private_headers_stay_inside_their_stage) {
  for (const tree::File& file : tree::program()) {
    for (const tree::Include& include : tree::includes(file.text)) {
      if (include.outside || include.name.compare(0, 9, "teetally/") == 0) continue;
      BOOST_TEST(tree::stage_of(include.name) == tree::stage_of(file.path),
                 file.path << " includes the private header \"" << include.name << "\"");
    }
  }
}

void check_rooms(const std::string& stage, const Rooms& rooms) {
  std::set<std::string> seen;
  for (const tree::File& file : tree::program()) {
    const std::string own = room_of(file.path, stage);
    if (own.empty()) continue;
    seen.insert(own);
    const auto row = rooms.find(own);
    BOOST_TEST_REQUIRE((row != rooms.end()), file.path << " is in a room that has no row");
    for (const tree::Include& include : tree::includes(file.text)) {
      const std::string other = include.outside ? "" : room_of(include.name, stage);
      BOOST_TEST((other.empty() || other == own || holds(row->second, other)),
                 file.path << " includes \"" << include.name << "\"");
    }
  }
  BOOST_TEST(seen.size() == rooms.size());
}

BOOST_AUTO_TEST_CASE(a_room_includes_only_what_it_may_see) {
  BOOST_TEST(room_of("src/purchase/exact/model.h", "purchase/") == "exact");
  BOOST_TEST(room_of("src/render/layout.cpp", "render/") == "");
  check_rooms("purchase/", kRooms);
  check_rooms("render/", kRenderRooms);
}

BOOST_AUTO_TEST_CASE(stages_are_blind_to_what_is_not_their_business) {
  for (const Blind& blind : kBlind) {
    for (const tree::File& file : tree::program()) {
      if (!holds(blind.stages, tree::stage_of(file.path))) continue;
      for (const std::string& reached : tree::reached_from(file.path)) {
        BOOST_TEST(!holds(blind.never, tree::stage_of(reached)), file.path << " reaches " << reached);
      }
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()
