#include "purchase/exact/group.h"

#include <algorithm>

#include "purchase/exact/loops.h"

namespace teetally {
namespace {

bool may_shrink(const GroupColumn& column) {
  return std::any_of(column.parts.begin(), column.parts.end(), [](const ColumnPart& p) { return p.may_go(); });
}

// One price whatever the count.
bool is_flat(const GroupOffer& offer) {
  return offer.runs.size() == 1 && offer.costs.empty() && offer.runs.front().first == 1 &&
         offer.runs.front().start == offer.runs.front().each;
}

}  // namespace

double pack_rate(const SupplierState& state, double pressure) {
  return state.from > 0 ? std::max(0.0, state.rate - pressure) : state.rate;
}

GroupChain::GroupChain(const ExactModel& model, int group)
    : model_(&model), group_(&model.groups[group]), columns_(static_cast<int>(group_->columns.size())) {
  for (std::size_t s = 0; s < model.suppliers.size(); ++s) {
    if (!group_->offers[s].empty()) present_.push_back(static_cast<int>(s));
  }
  front_.resize(elements() + 1);
  back_.resize(elements() + 1);
  low_.assign(elements() + 1, 0);
  for (const GroupColumn& column : group_->columns) {
    double rate = 0;
    for (const SupplierState& state : model.suppliers[model.columns[column.column].supplier]) {
      rate = std::max(rate, state.rate);
    }
    credit_rate_.push_back(rate);
    direct_.push_back(plain() && column.parts.size() == 1 && !may_shrink(column));
  }
}

double GroupChain::credit_of(const ColumnPart& part, double rate) const {
  return model_->measure.goods_up(part.credit, rate) + part.tie;
}

int GroupChain::variable(int element) const {
  if (element < columns_) return group_->columns[element].column;
  return static_cast<int>(model_->columns.size()) + present_[element - columns_];
}

void GroupChain::prepare(const Domains& domains) {
  if (plain()) {
    for (int t = 0; t < columns_; ++t) {
      std::int64_t units = 0;
      for (const ColumnPart& part : group_->columns[t].parts) units += part.may_go() ? 0 : part.brings.units;
      low_[t + 1] = std::min(full(), low_[t] + units * domains[variable(t)].front());
    }
    for (int t = columns_; t < elements(); ++t) low_[t + 1] = low_[t];
  }
  front_.front().assign(full() + 1, kNever);
  front_.front()[0] = 0;
  back_.back().assign(full() - low_.back() + 1, kNever);
  back_.back().back() = 0;
}

// What is bought along a row and not needed there is wasted.
void GroupChain::row_forward(const double* before, double* after, std::int64_t along, double cost) const {
  const std::int64_t inside = row_length() - 1 - along;
  lower_to(before, after + along, inside, cost);
  const double least = *std::min_element(before + inside, before + row_length());
  after[row_length() - 1] = std::min(after[row_length() - 1], least + cost);
}

void GroupChain::row_backward(double* before, const double* after, std::int64_t along, double cost) const {
  const std::int64_t inside = row_length() - 1 - along;
  lower_to(after + along, before, inside, cost);
  const double last = after[row_length() - 1] + cost;
  for (std::int64_t n = inside; n < row_length(); ++n) before[n] = std::min(before[n], last);
}

void GroupChain::shift_forward(const Table& from, std::int64_t low_from, Table& to, std::int64_t low_to,
                               const Brings& brings, std::int64_t times, double cost) const {
  const std::int64_t units = brings.units * times;
  if (!plain()) {
    for (std::int64_t row = 0; row <= full(); row += row_length()) {
      row_moves(row, brings, times, moves_);
      for (const RowMove& move : moves_) row_forward(from.data() + row, to.data() + move.to, move.along, cost);
    }
    return;
  }
  const std::int64_t count = full() - low_from + 1;
  const std::int64_t inside = std::clamp<std::int64_t>(full() - low_from - units, 0, count);
  if (inside > 0) lower_to(from.data(), to.data() + (low_from + units - low_to), inside, cost);
  double least = kNever;
  for (std::int64_t n = inside; n < count; ++n) least = from[n] < least ? from[n] : least;
  to[full() - low_to] = std::min(to[full() - low_to], least + cost);
}

void GroupChain::shift_backward(Table& from, std::int64_t low_from, const Table& to, std::int64_t low_to,
                                const Brings& brings, std::int64_t times, double cost) const {
  const std::int64_t units = brings.units * times;
  if (!plain()) {
    for (std::int64_t row = 0; row <= full(); row += row_length()) {
      row_moves(row, brings, times, moves_);
      for (const RowMove& move : moves_) row_backward(from.data() + row, to.data() + move.to, move.along, cost);
    }
    return;
  }
  const std::int64_t count = full() - low_from + 1;
  const std::int64_t inside = std::clamp<std::int64_t>(full() - low_from - units, 0, count);
  if (inside > 0) lower_to(to.data() + (low_from + units - low_to), from.data(), inside, cost);
  const double last = to[full() - low_to] + cost;
  for (std::int64_t n = inside; n < count; ++n) from[n] = last < from[n] ? last : from[n];
}

// Any number more at this price: rising, so that each state is done when others come from it.
void GroupChain::repeat_forward(const Brings& brings, double each, Table& taken) const {
  const auto along_row = [&](double* row, std::int64_t length, std::int64_t units) {
    for (std::int64_t n = 0; n + 1 < length; ++n) {
      double& after = row[std::min(length - 1, n + units)];
      after = std::min(after, row[n] + each);
    }
  };
  if (plain()) return along_row(taken.data(), static_cast<std::int64_t>(taken.size()), brings.units);
  for (std::int64_t row = 0; row <= full(); row += row_length()) {
    row_moves(row, brings, 1, moves_);
    for (const RowMove& move : moves_) {
      if (move.to == row && move.along > 0) along_row(taken.data() + row, row_length(), move.along);
    }
    for (const RowMove& move : moves_) {
      if (move.to != row) row_forward(taken.data() + row, taken.data() + move.to, move.along, each);
    }
  }
}

// The same, falling.
void GroupChain::repeat_backward(const Brings& brings, double each, Table& rest) const {
  const auto along_row = [&](double* row, std::int64_t length, std::int64_t units) {
    for (std::int64_t n = length - 1; n-- > 0;) row[n] = std::min(row[n], each + row[std::min(length - 1, n + units)]);
  };
  if (plain()) return along_row(rest.data(), static_cast<std::int64_t>(rest.size()), brings.units);
  for (std::int64_t row = full() + 1 - row_length(); row >= 0; row -= row_length()) {
    row_moves(row, brings, 1, moves_);
    for (const RowMove& move : moves_) {
      if (move.to != row) row_backward(rest.data() + row, rest.data() + move.to, move.along, each);
    }
    for (const RowMove& move : moves_) {
      if (move.to == row && move.along > 0) along_row(rest.data() + row, row_length(), move.along);
    }
  }
}

// Packs without an upper limit: one pass in rising order of states lets each be bought any number of times.
void GroupChain::buy_forward(int supplier, double rate, const Table& before, Table& result, std::int64_t low) const {
  result = before;
  Table& taken = taken_;
  for (const GroupOffer& offer : group_->offers[supplier]) {
    if (plain() && is_flat(offer)) {
      const double each = price(offer.runs.front().each, rate) + offer.tie;
      for (std::size_t n = 0; n + 1 < result.size(); ++n) {
        double& after = result[std::min(result.size() - 1, n + static_cast<std::size_t>(offer.brings.units))];
        after = std::min(after, result[n] + each);
      }
      continue;
    }
    const Table start = result;
    for (std::size_t n = 0; n < offer.costs.size(); ++n) {
      if (offer.costs[n] < 0) continue;
      const auto times = static_cast<std::int64_t>(n + 1);
      shift_forward(start, low, result, low, offer.brings, times,
                    price(offer.costs[n], rate) + offer.tie * static_cast<double>(n + 1));
    }
    for (const PriceRun& run : offer.runs) {
      taken.assign(start.size(), kNever);
      shift_forward(start, low, taken, low, offer.brings, run.first,
                    price(run.start, rate) + offer.tie * static_cast<double>(run.first));
      const double each = price(run.each, rate) + offer.tie;
      repeat_forward(offer.brings, each, taken);
      lower_to(taken.data(), result.data(), result.size(), 0);
    }
  }
}

// One demand and one price whatever the count: in place.
void GroupChain::flat_backward(const GroupOffer& offer, double rate, Table& result) const {
  const double each = price(offer.runs.front().each, rate) + offer.tie;
  const std::size_t last = result.size() - 1, units = static_cast<std::size_t>(offer.brings.units);
  for (std::size_t n = last; n-- > 0;) {
    const double cost = result[std::min(last, n + units)] + each;
    result[n] = cost < result[n] ? cost : result[n];
  }
}

void GroupChain::offer_backward(const GroupOffer& offer, double rate, const Table& start, Table& result,
                                std::int64_t low) const {
  result = start;
  if (plain() && is_flat(offer)) {
    flat_backward(offer, rate, result);
    return;
  }
  for (std::size_t n = 0; n < offer.costs.size(); ++n) {
    if (offer.costs[n] < 0) continue;
    const auto times = static_cast<std::int64_t>(n + 1);
    shift_backward(result, low, start, low, offer.brings, times,
                   price(offer.costs[n], rate) + offer.tie * static_cast<double>(n + 1));
  }
  Table& rest = taken_;
  for (const PriceRun& run : offer.runs) {
    rest = start;
    const double each = price(run.each, rate) + offer.tie;
    repeat_backward(offer.brings, each, rest);
    shift_backward(result, low, rest, low, offer.brings, run.first,
                   price(run.start, rate) + offer.tie * static_cast<double>(run.first));
  }
}

void GroupChain::buy_backward(int supplier, double rate, const Table& next, Table& result, std::int64_t low) const {
  result = next;
  for (const GroupOffer& offer : group_->offers[supplier]) {
    if (plain() && is_flat(offer)) {
      flat_backward(offer, rate, result);
      continue;
    }
    before_.swap(result);
    offer_backward(offer, rate, before_, result, low);
  }
}

// For each value of the column: the parts that must be taken at once, then any share of those that may be left
// out. Their credit is priced at the dearest rate, which keeps the bound below the true cost.
void GroupChain::column_forward(int element, const std::vector<int>& counts, const Table& costs) {
  const GroupColumn& column = group_->columns[element];
  const std::int64_t low = low_[element], low_next = low_[element + 1];
  Table& to = front_[element + 1];
  to.assign(full() - low_next + 1, kNever);
  if (direct_[element]) {
    const ColumnPart& part = column.parts.front();
    for (std::size_t a = 0; a < counts.size(); ++a) {
      shift_forward(front_[element], low, to, low_next, part.brings, counts[a], costs[a]);
    }
    return;
  }
  for (std::size_t a = 0; a < counts.size(); ++a) {
    Table& at = before_;
    Table& after = taken_;
    at = front_[element];
    for (const ColumnPart& part : column.parts) {
      after.assign(at.size(), kNever);
      const double credit = credit_of(part, credit_rate_[element]);
      for (int kept = part.may_go() ? 0 : counts[a]; kept <= counts[a]; ++kept) {
        shift_forward(at, low, after, low, part.brings, kept, -credit * (counts[a] - kept));
      }
      at.swap(after);
    }
    for (std::int64_t n = low_next; n <= full(); ++n) {
      to[n - low_next] = std::min(to[n - low_next], at[n - low] + costs[a]);
    }
  }
}

void GroupChain::column_backward(int element, const std::vector<int>& counts, const Table& costs, int only,
                                 Table& result) {
  const GroupColumn& column = group_->columns[element];
  const std::int64_t low = low_[element], low_next = low_[element + 1];
  const Table& next = back_[element + 1];
  result.assign(full() - low + 1, kNever);
  const std::size_t first = only < 0 ? 0 : static_cast<std::size_t>(only);
  const std::size_t end = only < 0 ? counts.size() : first + 1;
  if (direct_[element]) {
    const ColumnPart& part = column.parts.front();
    for (std::size_t a = first; a < end; ++a) {
      shift_backward(result, low, next, low_next, part.brings, counts[a], costs[a]);
    }
    return;
  }
  for (std::size_t a = first; a < end; ++a) {
    Table& at = before_;
    Table& before = taken_;
    at.assign(full() - low + 1, kNever);
    std::copy(next.begin(), next.end(), at.begin() + (low_next - low));
    for (std::size_t p = column.parts.size(); p-- > 0;) {
      const ColumnPart& part = column.parts[p];
      before.assign(at.size(), kNever);
      const double credit = credit_of(part, credit_rate_[element]);
      for (int kept = part.may_go() ? 0 : counts[a]; kept <= counts[a]; ++kept) {
        shift_backward(before, low, at, low, part.brings, kept, -credit * (counts[a] - kept));
      }
      at.swap(before);
    }
    for (std::size_t n = 0; n < result.size(); ++n) result[n] = std::min(result[n], at[n] + costs[a]);
  }
}

// Calls `each(position, rate or nothing when unused)` for the supplier's open states, with the table of what can
// be reached when buying at that rate; states of one rate share it.
template <typename Buy, typename Each>
void GroupChain::by_state(int supplier, const std::vector<int>& values, double pressure, const Buy& buy,
                          const Each& each) const {
  double last_rate = -1;
  for (std::size_t a = 0; a < values.size(); ++a) {
    const SupplierState& state = model_->suppliers[supplier][values[a]];
    if (state.used && pack_rate(state, pressure) != last_rate) {
      last_rate = pack_rate(state, pressure);
      buy(last_rate);
    }
    each(a, state.used);
  }
}

void GroupChain::forward(int element, const Domains& domains, const ChainMessages& messages, const Table& pressure) {
  const std::vector<int>& values = domains[variable(element)];
  if (element < columns_) {
    column_forward(element, values, messages.columns[element]);
    return;
  }
  const int supplier = present_[element - columns_];
  const Table& before = front_[element];
  Table& after = front_[element + 1];
  const Table& message = messages.suppliers[element - columns_];
  after.assign(before.size(), kNever);
  by_state(
      supplier, values, pressure[supplier],
      [&](double rate) { buy_forward(supplier, rate, before, bought_, low_[element]); },
      [&](std::size_t a, bool used) {
        lower_to(used ? bought_.data() : before.data(), after.data(), after.size(), message[a]);
      });
}

void GroupChain::backward(int element, const Domains& domains, const ChainMessages& messages, const Table& pressure) {
  const std::vector<int>& values = domains[variable(element)];
  if (element < columns_) {
    column_backward(element, values, messages.columns[element], -1, back_[element]);
    return;
  }
  const int supplier = present_[element - columns_];
  const Table& next = back_[element + 1];
  Table& before = back_[element];
  const Table& message = messages.suppliers[element - columns_];
  before.assign(next.size(), kNever);
  by_state(
      supplier, values, pressure[supplier],
      [&](double rate) { buy_backward(supplier, rate, next, bought_, low_[element]); },
      [&](std::size_t a, bool used) {
        lower_to(used ? bought_.data() : next.data(), before.data(), before.size(), message[a]);
      });
}

void GroupChain::margins(int element, const Domains& domains, const ChainMessages& messages, const Table& pressure,
                         Table& result) {
  const std::vector<int>& values = domains[variable(element)];
  const Table& before = front_[element];
  const Table& next = back_[element + 1];
  result.assign(values.size(), kNever);
  if (element < columns_) {
    for (std::size_t a = 0; a < values.size(); ++a) {
      if (direct_[element]) {
        result[a] = direct_margin(element, values[a]) + messages.columns[element][a];
        continue;
      }
      column_backward(element, values, messages.columns[element], static_cast<int>(a), scratch_);
      result[a] = least_sum(before.data(), scratch_.data(), before.size());
    }
    return;
  }
  const int supplier = present_[element - columns_];
  const Table& message = messages.suppliers[element - columns_];
  double bought = kNever;
  by_state(
      supplier, values, pressure[supplier],
      [&](double rate) {
        buy_backward(supplier, rate, next, bought_, low_[element]);
        bought = least_sum(before.data(), bought_.data(), before.size());
      },
      [&](std::size_t a, bool used) {
        result[a] = message[a] + (used ? bought : least_sum(before.data(), next.data(), before.size()));
      });
}

// Least cost through a column that simply adds units, for one count.
double GroupChain::direct_margin(int element, int count) const {
  const Table& before = front_[element];
  const Table& next = back_[element + 1];
  const std::int64_t low = low_[element], low_next = low_[element + 1];
  const std::int64_t units = group_->columns[element].parts.front().brings.units * count;
  const std::int64_t states = full() - low + 1;
  const std::int64_t inside = std::clamp<std::int64_t>(full() - low - units, 0, states);
  const double open = inside > 0 ? least_sum(before.data(), next.data() + (low + units - low_next), inside) : kNever;
  double covered = kNever;
  for (std::int64_t n = inside; n < states; ++n) covered = before[n] < covered ? before[n] : covered;
  return std::min(open, covered + next[full() - low_next]);
}

double GroupChain::least_from_front() const { return back_.front().front(); }
double GroupChain::least_from_back() const { return front_.back().back(); }

}  // namespace teetally
