#include "teetally/base/json.h"

#include <boost/test/unit_test.hpp>
#include <limits>

namespace teetally {

BOOST_AUTO_TEST_SUITE(json)

BOOST_AUTO_TEST_CASE(keys_keep_their_order) {
  Json json = Json::object();
  json.set("z", 1).set("a", Json::array().push(true).push(nullptr).push("x")).set("d", 0.5);
  BOOST_TEST(to_text(json, -1) == R"({"z":1,"a":[true,null,"x"],"d":0.5})");
  BOOST_TEST(to_text(json, 2) == "{\n  \"z\": 1,\n  \"a\": [\n    true,\n    null,\n    \"x\"\n  ],\n  \"d\": 0.5\n}");
}

BOOST_AUTO_TEST_CASE(text_is_escaped_and_bad_bytes_are_replaced) {
  BOOST_TEST(to_text(Json("a\"\\\n\x01 é"), -1) == "\"a\\\"\\\\\\n\\u0001 é\"");
  BOOST_TEST(to_text(Json("a\xff"
                          "b"),
                     -1) == "\"a\uFFFDb\"");
}

BOOST_AUTO_TEST_CASE(numbers_are_exact_or_shortest) {
  BOOST_TEST(to_text(Json(std::numeric_limits<std::int64_t>::min()), -1) == "-9223372036854775808");
  BOOST_TEST(to_text(Json(0.1), -1) == "0.1");
  BOOST_TEST(to_text(Json(std::numeric_limits<double>::infinity()), -1) == "null");
}

BOOST_AUTO_TEST_CASE(large_objects_are_written_in_linear_time) {
  Json json = Json::object();
  for (int i = 0; i < 100000; ++i) json.set("key " + std::to_string(i), i);
  BOOST_TEST(to_text(json, -1).size() > 1'000'000u);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
