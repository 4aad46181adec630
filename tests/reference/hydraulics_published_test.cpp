// Outside check values for friction, outlets and small networks. Each case names its source. The Hazen-Williams
// values with the constant 4.727 come from the form of the EPANET 2.2 User Manual, chapter 3, computed by its engine
// (2.3.5) and by hand; they prove arithmetic and bookkeeping. The printed tables at the end are independent.
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "hydraulics/evenness.h"
#include "hydraulics/network.h"

namespace {

using namespace teetally::hydraulics;

constexpr double kFoot = 0.3048, kInch = 0.0254, kGallon = 3.785411784e-3;
constexpr double kGph = kGallon / 3600, kGpm = kGallon / 60;
constexpr double kEnginePsiPerFoot = 0.4333;  // the engine's own constant

double relative(double value, double wanted) { return std::abs(value / wanted - 1); }

FrictionLaw hazen_williams(double c) {
  FrictionLaw law;
  law.formula = Formula::hazen_williams;
  law.c = c;
  return law;
}

double loss_in_feet(double c, double feet_long, double inches, double flow) {
  return friction_loss(hazen_williams(c), feet_long * kFoot, inches * kInch, flow).head / kFoot;
}

// Twenty outlets one foot apart on tubing of 0.170 in, the first a foot from the inlet.
Network twenty_outlets(double inlet_feet) {
  Network network;
  network.law = hazen_williams(140);
  network.nodes.push_back({0, 0, inlet_feet * kFoot});
  for (int i = 1; i <= 20; ++i) {
    network.nodes.push_back({});
    network.links.push_back({i - 1, i, kFoot, 0.170 * kInch, 0});
  }
  return network;
}

// Christiansen's reduction for equal outlets, the first a full spacing from the inlet: the exact sum.
double christiansen(int n, double m) {
  double sum = 0;
  for (int k = 1; k <= n; ++k) sum += std::pow(k, m);
  return sum / std::pow(n, m + 1);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(hydraulics_published)

BOOST_AUTO_TEST_CASE(one_pipe_by_hazen_williams) {
  const double feet = loss_in_feet(140, 200, 0.600, 200 * kGph);
  BOOST_TEST(relative(feet, 24.83234) < 1e-5);
  BOOST_TEST(relative(feet * kEnginePsiPerFoot, 10.7599) < 1e-5);
  BOOST_TEST(relative(feet * 0.4335275, 10.7655) < 1e-5);
  BOOST_TEST(relative(velocity(0.600 * kInch, 200 * kGph) / kFoot, 3.7824) < 2e-5);
}

BOOST_AUTO_TEST_CASE(twenty_fixed_outlets) {
  Network network = twenty_outlets(60);
  for (int i = 1; i <= 20; ++i) network.nodes[i].withdrawal = 0.5 * kGph;
  const Solution solution = solve(network);
  BOOST_TEST(solution.converged);
  BOOST_TEST(relative(60 - solution.heads[20] / kFoot, 1.692678) < 1e-5);
  BOOST_TEST(relative((60 - solution.heads[20] / kFoot) * kEnginePsiPerFoot, 0.73344) < 1e-5);
  BOOST_TEST(relative(solution.flows[0], 10 * kGph) < 1e-9);
  BOOST_TEST(relative(velocity(0.170 * kInch, solution.flows[0]) / kFoot, 2.3558) < 2e-5);
  // Loss of the first, tenth and last foot.
  for (const auto& [link, feet] : {std::pair(0, 0.225080611), {9, 0.0743857569}, {19, 0.000876658672}}) {
    BOOST_TEST(
        relative(friction_loss(network.law, kFoot, 0.170 * kInch, solution.flows[link]).head / kFoot, feet) < 1e-5,
        link);
  }
  for (const auto& [node, feet] :
       {std::pair(1, 59.7749194), {5, 59.0695877}, {10, 58.5580698}, {15, 58.3467653}, {20, 58.3073220}}) {
    BOOST_TEST(relative(solution.heads[node] / kFoot, feet) < 1e-6);
  }
}

BOOST_AUTO_TEST_CASE(twenty_fixed_outlets_by_reduction_of_the_full_flow) {
  const double full = loss_in_feet(140, 20, 0.170, 10 * kGph);
  BOOST_TEST(relative(full, 4.501612) < 1e-5);
  BOOST_TEST(relative(christiansen(20, 1.852), 0.376016) < 2e-5);
  BOOST_TEST(relative(full * christiansen(20, 1.852), 1.692677) < 1e-5);
}

// Christiansen's F, exact for equal outflow, to the five printed places: exponents 1.75 (Blasius), 1.852 and 2.
BOOST_AUTO_TEST_CASE(multiple_outlet_reductions) {
  struct Row {
    int n;
    double blasius, hazen_williams, square;
  };
  for (const Row& row :
       {Row{1, 1.00000, 1.00000, 1.00000}, Row{2, 0.64865, 0.63850, 0.62500}, Row{3, 0.54603, 0.53422, 0.51852},
        Row{4, 0.49753, 0.48518, 0.46875}, Row{5, 0.46935, 0.45675, 0.44000}, Row{6, 0.45095, 0.43822, 0.42130},
        Row{8, 0.42838, 0.41553, 0.39844}, Row{10, 0.41508, 0.40217, 0.38500}, Row{12, 0.40631, 0.39337, 0.37616},
        Row{15, 0.39761, 0.38465, 0.36741}, Row{20, 0.38900, 0.37602, 0.35875}, Row{30, 0.38046, 0.36747, 0.35019},
        Row{50, 0.37369, 0.36069, 0.34340}, Row{100, 0.36865, 0.35565, 0.33835}}) {
    // The network solver itself gives the reduction: loss of a row over loss of its full flow.
    Network network;
    network.law = hazen_williams(140);
    network.nodes.push_back({0, 0, 100.0});
    for (int i = 1; i <= row.n; ++i) {
      network.nodes.push_back({0, kGph, std::nullopt});
      network.links.push_back({i - 1, i, 1.0, 0.02, 0});
    }
    const double full = friction_loss(network.law, row.n, 0.02, row.n * kGph).head;
    BOOST_TEST(std::abs((100 - solve(network).heads.back()) / full - row.hazen_williams) < 6e-6, row.n);
    BOOST_TEST(std::abs(christiansen(row.n, 1.75) - row.blasius) < 6e-6, row.n);
    BOOST_TEST(std::abs(christiansen(row.n, 2.0) - row.square) < 6e-6, row.n);
  }
  // The first outlet half a spacing from the inlet, 20 outlets: F' = (2 N F - 1) / (2 N - 1) = 0.36002. Solved: half
  // the loss of the first spacing is left out, and the full length is half a spacing shorter.
  Network half;
  half.law = hazen_williams(140);
  half.nodes.push_back({0, 0, 100.0});
  for (int i = 1; i <= 20; ++i) {
    half.nodes.push_back({0, kGph, std::nullopt});
    half.links.push_back({i - 1, i, i == 1 ? 0.5 : 1.0, 0.02, 0});
  }
  const double full = friction_loss(half.law, 19.5, 0.02, 20 * kGph).head;
  BOOST_TEST(std::abs((100 - solve(half).heads.back()) / full - 0.36002) < 6e-6);
  // "Approaches 0.36" beyond 35 outlets (irrigation-hydraulics slides).
  BOOST_TEST(std::abs(christiansen(36, 1.852) - 0.36) < 0.01);
  BOOST_TEST(std::abs(christiansen(100, 1.852) - 0.36) < 0.01);
}

BOOST_AUTO_TEST_CASE(twenty_outlets_that_follow_pressure) {
  Network network = twenty_outlets(10 / kEnginePsiPerFoot);
  Outlet law;
  law.rated = 0.5 * kGph;
  law.rated_at = 10 / kEnginePsiPerFoot * kFoot;
  for (int i = 1; i <= 20; ++i) network.outlets.push_back({i, law});
  const Solution solution = solve(network);
  BOOST_TEST(solution.converged);
  BOOST_TEST(relative(solution.flows[0] / kGph, 9.73309) < 1e-5);
  BOOST_TEST(relative(solution.heads[20] / kFoot * kEnginePsiPerFoot, 9.30766) < 1e-5);
  BOOST_TEST(relative(solution.outlet_flows.front() / kGph, 0.497676) < 1e-5);
  BOOST_TEST(relative(solution.outlet_flows.back() / kGph, 0.482381) < 1e-5);
  std::vector<Share> shares;
  for (const double flow : solution.outlet_flows) shares.push_back({flow / law.rated, 1});
  const Evenness evenness = evenness_of(shares);
  BOOST_TEST(relative(evenness.least / evenness.mean, 0.991218) < 1e-5);
}

// A tree with three branches and elevations, by the engine and by hand.
BOOST_AUTO_TEST_CASE(three_branch_tree) {
  enum { R, J1, J2, J3, A, B, C };
  Network network;
  network.law = hazen_williams(140);
  const double elevation[] = {0, 0, 1, 1, 3, 1, -2}, withdrawal[] = {0, 0, 0, 0, 1.0, 0.1, 0.75};
  for (int i = R; i <= C; ++i) network.nodes.push_back({elevation[i] * kFoot, withdrawal[i] * kGpm, std::nullopt});
  network.nodes[R].held_head = 57.70 * kFoot;
  for (const auto& [from, to, feet, inches] : {std::tuple(R, J1, 20.0, 0.600),
                                               {J1, J2, 40.0, 0.600},
                                               {J2, J3, 30.0, 0.600},
                                               {J1, A, 25.0, 0.600},
                                               {J2, B, 15.0, 0.170},
                                               {J3, C, 50.0, 0.520}}) {
    network.links.push_back({from, to, feet * kFoot, inches * kInch, 0});
  }
  const Solution solution = solve(network);
  const double head[] = {57.70, 56.8654580, 56.4701278, 56.2349746, 56.5316043, 55.1592402, 55.4480700};
  for (int i = R; i <= C; ++i) BOOST_TEST(relative(solution.heads[i] / kFoot, head[i]) < 1e-6, i);
  const auto psi = [&](int i) { return (solution.heads[i] / kFoot - elevation[i]) * kEnginePsiPerFoot; };
  BOOST_TEST(relative(psi(A), 23.19524) < 1e-5);
  BOOST_TEST(relative(psi(B), 23.46720) < 1e-5);
  BOOST_TEST(relative(psi(C), 24.89225) < 1e-5);
  const double loss[] = {0.834541996, 0.395330208, 0.235153190, 0.333853680, 1.31088762, 0.786904588};
  const double feet_per_s[] = {2.099225, 0.964509, 0.851037, 1.134716, 1.413487, 1.133038};
  for (int k = 0; k < 6; ++k) {
    const NetworkLink& link = network.links[k];
    BOOST_TEST(relative((solution.heads[link.from] - solution.heads[link.to]) / kFoot, loss[k]) < 1e-5, k);
    BOOST_TEST(relative(velocity(link.inside, solution.flows[k]) / kFoot, feet_per_s[k]) < 1e-5, k);
  }
}

// The Engineering ToolBox, Hazen-Williams page: printed, rounded.
BOOST_AUTO_TEST_CASE(three_inch_pipe_as_printed) {
  BOOST_TEST(relative(loss_in_feet(140, 100, 3.048, 200 * kGpm), 9.0) < 0.015);
  BOOST_TEST(relative(loss_in_feet(140, 30, 3.048, 200 * kGpm), 2.7) < 0.015);
}

// v = 0.408709 q / d^2 in gpm, inches and feet per second, as published.
BOOST_AUTO_TEST_CASE(velocity_constant) {
  BOOST_TEST(relative(velocity(kInch, kGpm) / kFoot, 0.408709) < 1e-3);
  BOOST_TEST(relative(velocity(0.600 * kInch, 264.38 * kGph) / kFoot, 5) < 1e-4);  // flows at 5 ft/s
  BOOST_TEST(relative(velocity(0.520 * kInch, 198.58 * kGph) / kFoot, 5) < 1e-4);
  BOOST_TEST(relative(velocity(0.820 * kInch, 493.81 * kGph) / kFoot, 5) < 1e-4);
}

// Irrigation slides, their example 8: 4 l/h at 10 m with x = 0.42; 4.32 l/h wants 12 m, printed.
BOOST_AUTO_TEST_CASE(emitter_exponent_example) {
  Outlet law;
  law.rated = 4, law.rated_at = 10, law.exponent = 0.42;
  BOOST_TEST(relative(outlet_flow(law, 12.0110).flow, 4.32) < 1e-5);
  BOOST_TEST(std::abs(10 * std::pow(4.32 / 4, 1 / 0.42) - 12) < 0.1);
}

// Identities of q = K h^x.
BOOST_AUTO_TEST_CASE(emitter_law_identities) {
  Outlet law;
  law.rated = 1, law.rated_at = 10;
  BOOST_TEST(relative(outlet_flow(law, 12.1).flow, 1.1) < 1e-12);
  BOOST_TEST(relative(outlet_flow(law, 8).flow, 0.894427) < 1e-6);
  law.exponent = 0;
  BOOST_TEST(relative(outlet_flow(law, 20).flow, 1) < 1e-12);
}

// A published exercise: Cv 0.03, three emitters a plant, mean flow 0.43 gph at 15 psi, EU 92 %, x = 0.57. Its least
// flow is 0.404498 gph, at 13.4744 psi; a subunit may then differ by 2.5 times the difference, 3.8141 psi.
BOOST_AUTO_TEST_CASE(emission_uniformity_exercise) {
  BOOST_TEST(relative(emission_uniformity(0.404498 / 0.43, 0.03, 3), 92) < 1e-4);
  Outlet law;
  law.rated = 0.43, law.rated_at = 15, law.exponent = 0.57;
  BOOST_TEST(relative(outlet_flow(law, 13.4744).flow, 0.404498) < 1e-4);
  BOOST_TEST(relative(2.5 * (15 - 13.4744), 3.8141) < 1e-4);
}

// Illinois Administrative Code, title 77, part 906, appendix A, exhibit I: schedule 40 plastic, C 150 stated, feet per
// 100 feet; insides 1.049, 1.380 and 1.610 in assumed. 1 % beyond the rounding of what is printed.
BOOST_AUTO_TEST_CASE(printed_table_of_schedule_40_plastic) {
  struct Row {
    double inches, gpm, feet;
  };
  for (const Row& row :
       {Row{1.049, 2, 0.28}, Row{1.049, 4, 1.01}, Row{1.049, 5, 1.52}, Row{1.049, 6, 2.14}, Row{1.049, 8, 3.63},
        Row{1.049, 10, 5.50}, Row{1.380, 10, 1.46}, Row{1.380, 15, 3.06}, Row{1.380, 20, 5.23}, Row{1.610, 15, 1.45},
        Row{1.610, 20, 2.46}, Row{1.610, 25, 3.75}, Row{1.610, 30, 5.22}}) {
    const double feet = loss_in_feet(150, 100, row.inches, row.gpm * kGpm);
    BOOST_TEST(std::abs(feet - row.feet) < 0.01 * row.feet + 0.005,
               row.inches << " in, " << row.gpm << " gpm: " << feet);
  }
}

// A friction chart for polyethylene pipe at 68 F, feet per 100 feet, neither C nor insides stated; C 140 with 0.824,
// 1.049 and 1.380 in fits it.
BOOST_AUTO_TEST_CASE(printed_chart_of_polyethylene_pipe) {
  struct Row {
    double inches, gpm, feet;
  };
  for (const Row& row :
       {Row{0.824, 1, 0.28}, Row{0.824, 2, 1.04}, Row{0.824, 3, 2.19}, Row{0.824, 4, 3.73}, Row{0.824, 5, 5.61},
        Row{0.824, 6, 7.89}, Row{0.824, 8, 13.4}, Row{0.824, 10, 20.3}, Row{1.049, 2, 0.32}, Row{1.049, 4, 1.15},
        Row{1.049, 5, 1.75}, Row{1.049, 6, 2.44}, Row{1.049, 8, 4.1}, Row{1.049, 10, 6.3}, Row{1.049, 20, 22.6},
        Row{1.380, 10, 1.66}, Row{1.380, 20, 6.0}}) {
    const double feet = loss_in_feet(140, 100, row.inches, row.gpm * kGpm);
    BOOST_TEST(std::abs(feet - row.feet) < 0.018 * row.feet + (row.feet < 0.5 ? 0.005 : 0),
               row.inches << " in, " << row.gpm << " gpm: " << feet);
  }
}

// Computed with the 4.727 form: psi per 100 feet at 0.4333 psi per foot.
BOOST_AUTO_TEST_CASE(small_tubing_by_hazen_williams) {
  struct Row {
    double inches, c, gph, psi;
  };
  for (const Row& row : {Row{0.520, 140, 60, 1.1618},   Row{0.520, 140, 120, 4.1941},  Row{0.520, 140, 180, 8.8870},
                         Row{0.520, 140, 200, 10.8019}, Row{0.520, 140, 240, 15.1406}, Row{0.520, 140, 300, 22.8886},
                         Row{0.600, 140, 60, 0.5786},   Row{0.600, 140, 120, 2.0889},  Row{0.600, 140, 180, 4.4262},
                         Row{0.600, 140, 200, 5.3799},  Row{0.600, 140, 240, 7.5408},  Row{0.600, 140, 300, 11.3998},
                         Row{0.600, 150, 60, 0.5092},   Row{0.600, 150, 120, 1.8383},  Row{0.600, 150, 180, 3.8953},
                         Row{0.600, 150, 200, 4.7346},  Row{0.600, 150, 240, 6.6363},  Row{0.600, 150, 300, 10.0324},
                         Row{0.700, 140, 60, 0.2731},   Row{0.700, 140, 120, 0.9859},  Row{0.700, 140, 180, 2.0890},
                         Row{0.700, 140, 200, 2.5391},  Row{0.700, 140, 240, 3.5590},  Row{0.700, 140, 300, 5.3802},
                         Row{0.820, 140, 60, 0.1264},   Row{0.820, 140, 120, 0.4561},  Row{0.820, 140, 180, 0.9665},
                         Row{0.820, 140, 200, 1.1748},  Row{0.820, 140, 240, 1.6467},  Row{0.820, 140, 300, 2.4893},
                         Row{0.170, 140, 5, 2.7016},    Row{0.170, 140, 10, 9.7527},   Row{0.170, 140, 15, 20.6656},
                         Row{0.170, 140, 20, 35.2074}}) {
    BOOST_TEST(relative(loss_in_feet(row.c, 100, row.inches, row.gph * kGph) * kEnginePsiPerFoot, row.psi) <
                   1e-4 + 0.00005 / row.psi,
               row.inches << " in, " << row.gph << " gph");
  }
}

// Blasius f(10,000) = 0.03164 (an open fluids library's own test), and 200 ft of 0.600 in at 200 gph: Re
// 17,500, 24.4644 ft.
BOOST_AUTO_TEST_CASE(blasius) {
  BOOST_TEST(relative(smooth_loss(1e4).value / 1e8, 0.03164) < 1e-9);
  FrictionLaw law;
  law.viscosity = 1.004e-6;
  BOOST_TEST(relative(reynolds(0.600 * kInch, 200 * kGph, law.viscosity), 17500) < 1e-3);
  BOOST_TEST(relative(friction_loss(law, 200 * kFoot, 0.600 * kInch, 200 * kGph).head / kFoot, 24.4644) < 1e-5);
}

BOOST_AUTO_TEST_SUITE_END()
