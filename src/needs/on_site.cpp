// What the site has is deducted from what is needed: first where every wanted attribute is stated and matches,
// then where the part on site does not say.
#include <fmt/format.h>

#include <algorithm>

#include "needs/rules.h"

namespace teetally {
namespace {

// The wanted part reduced to the attributes that the owned part states.
PartSpec as_far_as_stated(const PartSpec& wanted, const PartSpec& owned) {
  PartSpec reduced{wanted.kind, {}};
  for (const auto& [name, value] : wanted.attributes) {
    if (owned.attributes.contains(name)) reduced.attributes.emplace(name, value);
  }
  return reduced;
}

std::vector<std::string> unstated(const PartSpec& wanted, const PartSpec& owned) {
  std::vector<std::string> names;
  for (const auto& [name, value] : wanted.attributes) {
    if (!owned.attributes.contains(name)) names.push_back(name);
  }
  return names;
}

class Deduction {
 public:
  Deduction(Worksheet& sheet, const OwnedPart& owned)
      : sheet_(sheet), owned_(owned), left_(owned.length.tenths_mm > 0 ? owned.length.tenths_mm : owned.count) {}

  bool deduct() {
    for (Need* need : sheet_.tally.needs()) {
      if (need->part.kind == owned_.part.kind && !mismatch(need->part, owned_.part, sheet_.vocabulary, sheet_.units)) {
        take(*need);
      }
    }
    for (Need* need : sheet_.tally.needs()) {
      if (need->part.kind != owned_.part.kind || unstated(need->part, owned_.part).empty()) continue;
      if (mismatch(as_far_as_stated(need->part, owned_.part), owned_.part, sheet_.vocabulary, sheet_.units)) continue;
      if (take(*need)) caution(*need);
    }
    return has_matched_;
  }

 private:
  bool take(Need& need) {
    has_matched_ = true;
    const std::int64_t amount = std::min(left_, need.amount);
    if (amount <= 0) return false;
    left_ -= amount;
    Reason reason;
    reason.reason_class = ReasonClass::on_site;
    reason.element = sheet_.garden.source.name;
    reason.rule = "the site has it";
    reason.amount = -amount;
    reason.place = owned_.place;
    Tally::add(need, std::move(reason));
    return true;
  }

  void caution(const Need& need) {
    sheet_.cautions.push_back(fmt::format("The {} on site does not state its {}; check that it suits: {}.",
                                          need.part.kind, listed(unstated(need.part, owned_.part)),
                                          to_text(need.part, sheet_.units)));
  }

  Worksheet& sheet_;
  const OwnedPart& owned_;
  std::int64_t left_;
  bool has_matched_ = false;
};

// Why the nearest needs of the same kind do not match.
std::string why_not(Worksheet& sheet, const OwnedPart& owned) {
  for (Need* need : sheet.tally.needs()) {
    if (need->part.kind != owned.part.kind) continue;
    if (const auto why = mismatch(need->part, owned.part, sheet.vocabulary, sheet.units)) return *why;
  }
  return fmt::format("the design needs no {}", owned.part.kind);
}

}  // namespace

void deduct_what_is_there(Worksheet& sheet, Diagnostics& diagnostics) {
  for (const OwnedPart& owned : sheet.garden.existing) {
    if (Deduction(sheet, owned).deduct()) continue;
    diagnostics
        .warning("needs/existing-matches-nothing", owned.place,
                 fmt::format("{} on site serves no need: {}", quoted(to_text(owned.part, sheet.units)),
                             why_not(sheet, owned)))
        .help = "correct its attributes, or take it off the list of existing parts";
  }
}

}  // namespace teetally
