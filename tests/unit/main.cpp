#define BOOST_TEST_MODULE teetally
#include <boost/test/unit_test.hpp>
