// The main of every test program. It is written out, since BOOST_TEST_MODULE works only where Boost.Test's headers have
// not been read before, as they are with precompiled headers.
#include <boost/test/unit_test.hpp>

int main(int argc, char* argv[]) {
  return boost::unit_test::unit_test_main([] { return true; }, argc, argv);
}
