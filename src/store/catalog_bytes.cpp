#include "store/catalog_bytes.h"

#include <type_traits>

namespace teetally {
namespace {

// Both directions walk the same fields: see `walk` below. Whole numbers take as few bytes as they need, the sign in
// the lowest bit.
class Writer {
 public:
  static constexpr bool kReads = false;
  std::string out;

  void number(std::int64_t value) {
    auto rest = (static_cast<std::uint64_t>(value) << 1) ^ static_cast<std::uint64_t>(value >> 63);
    for (; rest >= 0x80; rest >>= 7) out += static_cast<char>(rest | 0x80);
    out += static_cast<char>(rest);
  }
  void text(const std::string& value) {
    number(static_cast<std::int64_t>(value.size()));
    out += value;
  }
  void place(const Place& value) {
    number(value.known() ? value.line : 0);
    number(value.known() ? value.column : 0);
  }
};

// Once anything is wrong, everything read is nothing.
class Reader {
 public:
  static constexpr bool kReads = true;
  Reader(std::string_view bytes, const Source& source) : rest_(bytes), source_(source) {}
  bool is_done() const { return !failed_ && rest_.empty(); }

  std::int64_t number() {
    std::uint64_t value = 0;
    for (int shift = 0; shift < 64 && !rest_.empty(); shift += 7) {
      const auto byte = static_cast<unsigned char>(rest_.front());
      rest_.remove_prefix(1);
      value |= static_cast<std::uint64_t>(byte & 0x7f) << shift;
      if (byte < 0x80) return static_cast<std::int64_t>(value >> 1) ^ -static_cast<std::int64_t>(value & 1);
    }
    fail();
    return 0;
  }
  // Nothing has more elements than there are bytes left.
  std::size_t size() {
    const std::int64_t value = number();
    if (value >= 0 && static_cast<std::uint64_t>(value) <= rest_.size()) return static_cast<std::size_t>(value);
    fail();
    return 0;
  }
  void text(std::string& value) {
    const std::size_t length = size();
    value.assign(rest_.substr(0, length));
    rest_.remove_prefix(length);
  }
  void place(Place& value) {
    value.line = static_cast<int>(number());
    value.column = static_cast<int>(number());
    if (value.line > 0) value.source = source_;
  }

 private:
  void fail() {
    failed_ = true;
    rest_ = {};
  }
  std::string_view rest_;
  const Source& source_;
  bool failed_ = false;
};

// One field of either direction.
template <typename Archive, typename Value>
void field(Archive& archive, Value& value);

template <typename Archive, typename... Values>
void fields(Archive& archive, Values&... values) {
  (field(archive, values), ...);
}

#define WALK(Type, ...)                  \
  template <typename Archive>            \
  void walk(Archive& archive, Type& v) { \
    fields(archive, __VA_ARGS__);        \
  }

WALK(Money, v.minor)
WALK(Percent, v.ppm)
WALK(Length, v.tenths_mm)
WALK(Diameter, v.tenths_um)
WALK(Currency, v.code, v.exponent)
WALK(AttributeValue, v.dimension, v.words, v.low, v.high)
WALK(PartSpec, v.kind, v.attributes)
WALK(PriceBreak, v.from, v.price, v.place)
WALK(Pack, v.sku, v.count, v.length, v.prices, v.rule, v.stock, v.multiple, v.minimum, v.place)
WALK(Grip::Range, v.low, v.high)
WALK(Grip, v.by, v.ranges)
WALK(Item, v.sku, v.name, v.part, v.inside, v.outside, v.grips, v.packs, v.place)
WALK(Swap, v.item, v.extra)
WALK(BundleContent, v.item, v.count, v.length, v.leave_out, v.swaps, v.place)
WALK(Bundle, v.sku, v.name, v.price, v.stock, v.contents, v.place)
WALK(ShippingStep, v.from, v.fee, v.place)
WALK(DiscountStep, v.from, v.percent, v.place)
WALK(OrderingTerms, v.shipping, v.minimum_order, v.small_order_below, v.small_order_fee, v.discounts, v.tax,
     v.tax_on_shipping, v.place)
WALK(Catalog, v.id, v.name, v.currency, v.valid_from, v.valid_until, v.terms, v.items, v.bundles, v.notice)

#undef WALK

template <typename T>
struct IsList : std::false_type {};
template <typename T>
struct IsList<std::vector<T>> : std::true_type {};
template <typename T>
struct IsOptional : std::false_type {};
template <typename T>
struct IsOptional<std::optional<T>> : std::true_type {};

template <typename Archive, typename Value>
void list_field(Archive& archive, Value& list) {
  if constexpr (Archive::kReads) {
    list.resize(archive.size());
  } else {
    archive.number(static_cast<std::int64_t>(list.size()));
  }
  for (auto& one : list) field(archive, one);
}

template <typename Archive, typename Value>
void optional_field(Archive& archive, Value& value) {
  bool is_there = value.has_value();
  field(archive, is_there);
  if (!is_there) return;
  if constexpr (Archive::kReads) value.emplace();
  field(archive, *value);
}

template <typename Archive>
void map_field(Archive& archive, std::map<std::string, AttributeValue>& map) {
  if constexpr (Archive::kReads) {
    for (std::size_t left = archive.size(); left > 0; --left) {
      std::string name;
      archive.text(name);
      field(archive, map.emplace_hint(map.end(), std::move(name), AttributeValue{})->second);
    }
  } else {
    archive.number(static_cast<std::int64_t>(map.size()));
    for (auto& [name, value] : map) {
      archive.text(name);
      field(archive, value);
    }
  }
}

template <typename Archive, typename Value>
void field(Archive& archive, Value& value) {
  if constexpr (std::is_integral_v<Value> || std::is_enum_v<Value>) {
    if constexpr (Archive::kReads) {
      value = static_cast<Value>(archive.number());
    } else {
      archive.number(static_cast<std::int64_t>(value));
    }
  } else if constexpr (std::is_same_v<Value, std::string>) {
    archive.text(value);
  } else if constexpr (std::is_same_v<Value, Place>) {
    archive.place(value);
  } else if constexpr (IsList<Value>::value) {
    list_field(archive, value);
  } else if constexpr (IsOptional<Value>::value) {
    optional_field(archive, value);
  } else if constexpr (std::is_same_v<Value, std::map<std::string, AttributeValue>>) {
    map_field(archive, value);
  } else {
    walk(archive, value);
  }
}

}  // namespace

std::string to_bytes(const Catalog& catalog) {
  Writer writer;
  Catalog copy = catalog;  // the walk is one for both directions, and reading must change what it walks over
  walk(writer, copy);
  return std::move(writer.out);
}

std::optional<Catalog> catalog_from_bytes(std::string_view bytes, const Source& source) {
  Reader reader(bytes, source);
  std::optional<Catalog> catalog(std::in_place);
  walk(reader, *catalog);
  if (!reader.is_done()) return std::nullopt;
  catalog->source = source;
  return catalog;
}

}  // namespace teetally
