#!/bin/sh
# Makes every page there is from the shipped gardens, pools and catalogs, to be looked at and printed. By hand only:
#   tests/bench/pages/make_pages.sh build/release/teetally FOLDER
#   tests/bench/pages/accessible.sh node_modules/axe-core/axe.min.js FOLDER/*.html
# Run it at the root of the repository.
set -eu
program=$1 folder=$2
mkdir -p "$folder"
XDG_DATA_HOME=$(mktemp -d)
export XDG_DATA_HOME
trap 'rm -r "$XDG_DATA_HOME"' EXIT
garden=tests/gardens/two-beds/garden.yaml
watering=tests/gardens/two-beds/watering.yaml
gates=tests/pools/three-gates
job=$XDG_DATA_HOME/job.yaml
cat >"$job" <<'END'
teetally: job 1
from: Reedwater Gardens, an invented business
customer: Somebody
site: 3 Mill Lane
scope: |
  Drip watering for two beds.
  The trench across the drive is cut by hand.
labour: {rate: 40.00, hours: [{kind: tee, hours: 0.1}, {what: Setting up, hours: 1}]}
profit: {margin: 20 %}
tax: {on: everything, percent: 8.25 %}
payments: [{what: Deposit, percent: 10 %}]
exclusions: [Trenching through roots]
options: [{name: Good, differs: As described}, {name: Best, allowance: 250.00, differs: A timer of your choice}]
END

# Exit code 3 is an answer too: the page says what is in the way.
page() {
  name=$1
  shift
  "$program" "$@" --format html -o "$folder/$name.html" >/dev/null || [ $? = 3 ]
}
shop() { page "$@" --catalogs catalogs --today 2026-05-01; }

shop order buy "$garden"
shop cut-list buy "$garden" --cut-list
shop comparison compare "$garden"
shop comparison-deep compare tests/gardens/one-bed/garden.yaml --deep
shop quote quote "$garden" --job "$job"
shop internal-quote quote "$garden" --job "$job" --copy internal
page parts takeoff "$garden"
page van-list takeoff "$garden" --by-place
page plan plan "$garden"
page plan-flow plan tests/gardens/mixed-slope/garden.yaml --layer flow
page plan-pressure plan tests/gardens/mixed-slope/garden.yaml --layer pressure
page run-card run-card "$garden" --practice "$watering"
for paper in summary picks packing statements orders cuts; do shop "pool-$paper" pool "$gates/pool.yaml" --paper $paper; done
shop round pool "$gates/pool.yaml" --round "$gates/round-received.yaml"
# What does not work, and what cannot be bought.
page order-none buy tests/gardens/tape-rows/garden.yaml --catalogs catalogs/brackenmere.yaml --today 2026-05-01
page comparison-none compare tests/gardens/tape-rows/garden.yaml --catalogs catalogs/brackenmere.yaml --today 2026-05-01
page cut-list-none buy tests/gardens/tape-rows/garden.yaml --catalogs catalogs/brackenmere.yaml --cut-list --today 2026-05-01
shop order-will-not-work buy tests/gardens/long-rows/garden.yaml
page parts-will-not-work takeoff tests/gardens/long-rows/garden.yaml
page plan-will-not-work plan tests/gardens/long-rows/garden.yaml
page run-card-will-not-work run-card tests/gardens/long-rows/garden.yaml --practice "$watering"
