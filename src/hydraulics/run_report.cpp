#include "hydraulics/run_report.h"

#include <algorithm>
#include <cmath>

namespace teetally::hydraulics {
namespace {

std::string why_this_size(const SizeChoice& choice, const std::string& size) {
  const std::string &rule = choice.by_rule, &computed = choice.by_computation;
  if (!choice.sized) return "the design states it";
  if (rule.empty() && computed.empty()) return "no size passes; the smallest that the rest of the garden allows";
  if (computed.empty()) return "the rule of thumb asks for it; no size makes the garden pass the computed check";
  if (rule.empty()) return "the smallest that passes the computed check";
  if (rule == computed && size == rule) return "the smallest that passes the rule of thumb and the computed check";
  if (size == rule) return "the rule of thumb asks for it; by computation " + computed + " would do";
  if (size == computed) return "the computed check asks for it; by the rule of thumb " + rule + " would do";
  return "no smaller than what it feeds; alone " + computed + " would do";
}

}  // namespace

std::vector<RunHydraulics> run_reports(const SizedGarden& sized, const std::vector<SizeChoice>& choices,
                                       const std::vector<double>& insides) {
  const Garden& garden = sized.garden;
  const FlowPaths paths = flow_paths(garden);
  std::vector<RunHydraulics> reports;
  for (std::size_t run = 0; run < garden.runs.size(); ++run) {
    RunHydraulics out;
    out.run = static_cast<int>(run);
    for (const int leg : paths.legs_of_run[run]) {
      const double q = std::abs(sized.leg_flow_m3_per_s[leg]);
      out.flow_m3_per_s = std::max(out.flow_m3_per_s, q);
      out.velocity_m_per_s = std::max(out.velocity_m_per_s, velocity(insides[leg], q));
    }
    out.farthest = farthest(garden, paths, out.run);
    out.size = garden.runs[run].size;
    out.size_by_rule = choices[run].by_rule;
    out.size_by_computation = choices[run].by_computation;
    out.why = why_this_size(choices[run], out.size);
    reports.push_back(std::move(out));
  }
  return reports;
}

}  // namespace teetally::hydraulics
