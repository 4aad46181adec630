#include <algorithm>

#include "needs/rules.h"

namespace teetally {
namespace {

// Legs at the device from small to large.
std::vector<int> legs_by_size(const Worksheet& sheet, int node) {
  std::vector<int> legs = sheet.legs_at(node);
  std::stable_sort(legs.begin(), legs.end(),
                   [&](int a, int b) { return sheet.is_smaller(sheet.size_of(a), sheet.size_of(b)); });
  return legs;
}

bool takes_size(const KindType& kind) {
  return std::any_of(kind.attributes.begin(), kind.attributes.end(),
                     [](const AttributeType& type) { return type.name == "size"; });
}

// A device between two legs is of the larger size, so that it throttles neither; the garden lists the change of
// size as a joint. An outlet is of the smallest, which is its own feeder.
void count_device(Worksheet& sheet, const Device& device) {
  const std::vector<int> legs = legs_by_size(sheet, device.node);
  const KindType* kind = sheet.vocabulary.find(device.part.kind);
  PartSpec part = device.part;
  std::vector<int> ends;
  if (kind != nullptr && !legs.empty()) {
    const bool is_inline = kind->ends.size() >= 2;
    const int leg = is_inline ? legs.back() : legs.front();
    if (takes_size(*kind) && !part.attributes.contains("size")) {
      part.attributes["size"] = word_value(sheet.size_of(leg));
    }
    ends.assign(kind->ends.size(), sheet.system_of(leg));
    // An outlet in the course of larger tubing sits in a hole of its own.
    if (!is_inline && legs.size() >= 2) sheet.holes += device.count;
  }
  sheet.ask(part, ends, device.element,
            design_reason(device.rule, sheet.garden.nodes[static_cast<std::size_t>(device.node)].label, device.count,
                          device.place));
}

}  // namespace

void count_devices(Worksheet& sheet) {
  for (const Device& device : sheet.garden.devices) {
    if (!device.existing) count_device(sheet, device);
  }
}

}  // namespace teetally
