// Friction in the limits: laminar flow is Hagen and Poiseuille's, the loss rises all the way and its slope is true.
#include "hydraulics/friction.h"

#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numbers>

#include "hydraulics/water.h"

using namespace teetally::hydraulics;

BOOST_AUTO_TEST_SUITE(friction)

BOOST_AUTO_TEST_CASE(laminar_loss_is_hagen_poiseuille) {
  FrictionLaw law;
  law.viscosity = 1.0e-6;
  for (const double inside : {0.001, 0.0043, 0.0152}) {
    for (const double re : {1.0, 500.0, 1999.0}) {
      const double flow = re * std::numbers::pi * inside * law.viscosity / 4;
      const double exact = 128 * law.viscosity * 3.0 * flow / (std::numbers::pi * kGravity * std::pow(inside, 4));
      const Loss loss = friction_loss(law, 3.0, inside, flow);
      BOOST_TEST(std::abs(loss.head / exact - 1) < 1e-12);
      BOOST_TEST(std::abs(loss.slope * flow / exact - 1) < 1e-12);
    }
  }
}

BOOST_AUTO_TEST_CASE(the_loss_rises_all_the_way_and_its_slope_is_true) {
  double before = 0;
  for (double re = 10; re < 2e5; re *= 1.01) {
    const ScaledLoss loss = smooth_loss(re);
    BOOST_TEST(loss.value > before);
    BOOST_TEST(loss.slope > 0);
    const double step = re * 1e-5;
    const double measured = (smooth_loss(re + step).value - smooth_loss(re - step).value) / (2 * step);
    BOOST_TEST(std::abs(measured / loss.slope - 1) < 1e-3, re);
    before = loss.value;
  }
}

BOOST_AUTO_TEST_CASE(the_middle_joins_both_ends) {
  BOOST_TEST(std::abs(smooth_loss(2000).value / smooth_loss(2000.001).value - 1) < 1e-5);
  BOOST_TEST(std::abs(smooth_loss(2000).slope / smooth_loss(2000.001).slope - 1) < 1e-4);
  BOOST_TEST(std::abs(smooth_loss(4000).value / smooth_loss(3999.999).value - 1) < 1e-5);
  BOOST_TEST(std::abs(smooth_loss(4000).slope / smooth_loss(3999.999).slope - 1) < 1e-4);
}

BOOST_AUTO_TEST_CASE(flow_backwards_loses_as_much) {
  for (const Formula formula : {Formula::darcy_weisbach, Formula::hazen_williams}) {
    FrictionLaw law;
    law.formula = formula;
    for (const double flow : {1e-13, 1e-7, 1e-5, 1e-3}) {
      const Loss there = friction_loss(law, 10, 0.015, flow), back = friction_loss(law, 10, 0.015, -flow);
      BOOST_TEST(there.head == -back.head);
      BOOST_TEST(there.slope == back.slope);
      BOOST_TEST(there.head > 0);
    }
  }
}

BOOST_AUTO_TEST_CASE(velocity_heads) {
  // One velocity head at 1 m/s is 1 / 2g.
  const double inside = 0.0152, flow = area(inside);
  BOOST_TEST(std::abs(quadratic_factor(1, inside) * flow * flow - 1 / (2 * kGravity)) < 1e-12);
}

BOOST_AUTO_TEST_SUITE_END()
