// How long each stage takes on the shipped garden with the demo catalogs. Nothing here is asserted: timings are
// looked at, not tested. Build with -DTEETALLY_BENCH=ON, run build/<preset>/tests/bench.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "places.h"
#include "teetally/catalog.h"
#include "teetally/design.h"
#include "teetally/garden.h"
#include "teetally/hydraulics.h"
#include "teetally/needs/take_off.h"
#include "teetally/offers.h"
#include "teetally/purchase.h"

using namespace teetally;

namespace {

const std::string kTree = TEETALLY_SOURCE_DIR;

Source load(const std::string& name) {
  std::ifstream in(kTree + "/" + name, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  if (text.str().empty()) throw std::runtime_error("cannot read " + name);
  return std::make_shared<const SourceText>(SourceText{name, text.str()});
}

// The values of the pipeline up to the stage a benchmark measures.
struct Line {
  Vocabulary vocabulary = shipped_vocabulary();
  Practice practice = shipped_practice();
  Source design = load("tests/gardens/two-beds/garden.yaml");
  Diagnostics diagnostics;

  Site site() { return read_design(design, vocabulary, {}, diagnostics); }
  Garden garden() { return lay_out(site(), practice, diagnostics); }
  SizedGarden sized() { return size_garden(garden(), practice, UnitSystem::us, diagnostics); }
  Takeoff takeoff() { return take_off(sized(), practice, vocabulary, UnitSystem::us, diagnostics); }
  std::vector<Catalog> catalogs() { return read_catalogs({kTree + "/catalogs"}, vocabulary, "", diagnostics); }
  OfferBook book() { return find_offers(takeoff(), catalogs(), vocabulary, {}, UnitSystem::us); }
};

void read_the_design(benchmark::State& state) {
  Line line;
  for (auto _ : state) benchmark::DoNotOptimize(line.site());
}
BENCHMARK(read_the_design);

void lay_out_the_garden(benchmark::State& state) {
  Line line;
  const Site site = line.site();
  for (auto _ : state) benchmark::DoNotOptimize(lay_out(site, line.practice, line.diagnostics));
}
BENCHMARK(lay_out_the_garden);

void size_the_garden(benchmark::State& state) {
  Line line;
  const Garden garden = line.garden();
  for (auto _ : state) {
    benchmark::DoNotOptimize(size_garden(garden, line.practice, UnitSystem::us, line.diagnostics));
  }
}
BENCHMARK(size_the_garden)->Unit(benchmark::kMillisecond);

// Beds along one line, rows of 20 emitters (10 in the smallest): the size of garden against the time of its hydraulics.
Source garden_of(std::int64_t emitters) {
  const std::int64_t in_a_row = std::min<std::int64_t>(20, emitters);
  const std::int64_t rows = std::min<std::int64_t>(10, emitters / in_a_row);
  const std::int64_t beds = emitters / (rows * in_a_row);
  std::string text = fmt::format(
      "teetally: design 1\nname: bench\nunits: {{length: ft}}\n"
      "source: {{at: [0, 0, 0], thread: 3/4 in hose, pressure: 60 psi, flow: 900000 gph}}\n"
      "lines: [{{name: trunk, from: tap, size: 1 in, walk: [north {} ft]}}]\nbeds:\n",
      beds * 12 + 2);
  for (std::int64_t bed = 0; bed < beds; ++bed) {
    text += fmt::format(
        "  - {{name: b{}, corner: [2, {}], size: [{}, 10], rows: {{count: {}}}, header: west,\n"
        "     emitter line: {{size: 1/4 in, spacing: 12 in, flow: 0.5 gph}}, feed: nearest point of trunk}}\n",
        bed, bed * 12 + 1, in_a_row + 1, rows);
  }
  return std::make_shared<const SourceText>(SourceText{"bench.yaml", text});
}

void size_a_garden_of_emitters(benchmark::State& state) {
  Line line;
  line.design = garden_of(state.range(0));
  const Garden garden = line.garden();
  if (line.diagnostics.has_errors()) throw std::runtime_error("the bench's garden has errors");
  for (auto _ : state) {
    benchmark::DoNotOptimize(size_garden(garden, line.practice, UnitSystem::us, line.diagnostics));
  }
}
BENCHMARK(size_a_garden_of_emitters)->Arg(10)->Arg(1000)->Arg(20000)->Unit(benchmark::kMillisecond);

void take_off_the_parts(benchmark::State& state) {
  Line line;
  const SizedGarden sized = line.sized();
  for (auto _ : state) {
    benchmark::DoNotOptimize(take_off(sized, line.practice, line.vocabulary, UnitSystem::us, line.diagnostics));
  }
}
BENCHMARK(take_off_the_parts);

void read_the_catalogs(benchmark::State& state) {
  Line line;
  for (auto _ : state) benchmark::DoNotOptimize(line.catalogs());
}
BENCHMARK(read_the_catalogs)->Unit(benchmark::kMillisecond);

void find_the_offers(benchmark::State& state) {
  Line line;
  const Takeoff takeoff = line.takeoff();
  const std::vector<Catalog> catalogs = line.catalogs();
  for (auto _ : state) {
    benchmark::DoNotOptimize(find_offers(takeoff, catalogs, line.vocabulary, {}, UnitSystem::us));
  }
}
BENCHMARK(find_the_offers)->Unit(benchmark::kMillisecond);

void buy_the_parts(benchmark::State& state) {
  Line line;
  const OfferBook book = line.book();
  for (auto _ : state) benchmark::DoNotOptimize(buy(book, {}));
}
BENCHMARK(buy_the_parts)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
