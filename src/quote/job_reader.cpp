#include "quote/job_reader.h"

#include <cmath>

namespace teetally {
namespace {

constexpr std::string_view kHeader = "job 1";
constexpr double kMostHours = 10'000;
constexpr double kTenThousand = 10'000;
constexpr std::int64_t kMostBeds = 100'000;

struct JobReading {
  const Currency& currency;
  const BareUnits& bare;
  Diagnostics& diagnostics;
  Fields fields(const YamlNode& node, std::string what) const {
    return Fields(node, "quote", std::move(what), bare, diagnostics);
  }
};

std::int64_t ten_thousandths(double number) { return std::llround(number * kTenThousand); }

LabourRow read_row(const YamlNode& node, const JobReading& reading) {
  LabourRow row;
  row.place = node.place;
  Fields fields = reading.fields(node, "a row of hours");
  if (!fields.is_mapping()) return row;
  row.kind = fields.text("kind").value_or("");
  row.per_bed = fields.yes_no("each bed").value_or(false);
  row.per = fields.length("per").value_or(Length{});
  row.what = fields.text("what").value_or(row.kind);
  if (row.what.empty()) row.what = row.per_bed ? "beds" : "once for the job";
  fields.require("hours");
  row.hours = ten_thousandths(fields.number("hours", 0, kMostHours).value_or(0));
  row.rate = fields.money("rate", reading.currency);
  fields.finish();
  return row;
}

void read_labour(const YamlNode& node, RawJob& raw, const JobReading& reading) {
  Labour& labour = raw.job.labour;
  Fields fields = reading.fields(node, "the labour");
  if (!fields.is_mapping()) return;
  fields.require("rate");
  labour.rate = fields.money("rate", reading.currency).value_or(Money{});
  labour.time_factor = ten_thousandths(fields.number("time factor", 0.01, 100).value_or(1));
  fields.require("hours");
  for (const YamlNode* row : fields.list("hours")) labour.rows.push_back(read_row(*row, reading));
  fields.finish();
}

std::vector<Charge> read_charges(Fields& fields, std::string_view key, const JobReading& reading) {
  std::vector<Charge> charges;
  for (const YamlNode* node : fields.list(key)) {
    Fields one = reading.fields(*node, "a charge");
    if (!one.is_mapping()) continue;
    one.require("what");
    one.require("cost");
    charges.push_back({one.text("what").value_or(""), one.money("cost", reading.currency).value_or(Money{})});
    one.finish();
  }
  return charges;
}

void read_overhead(const YamlNode& node, Job& job, const JobReading& reading) {
  Fields fields = reading.fields(node, "the overhead");
  if (!fields.is_mapping()) return;
  job.overhead.percent = fields.percent("percent").value_or(Percent{});
  job.overhead.per_hour = fields.money("per hour", reading.currency).value_or(Money{});
  job.overhead.amount = fields.money("amount", reading.currency).value_or(Money{});
  fields.finish();
}

void read_profit(const YamlNode& node, RawJob& raw, const JobReading& reading) {
  raw.profit_place = node.place;
  if (node.kind == YamlNode::Kind::scalar) {
    reading.diagnostics.error("quote/wrong-type", node.place, "the profit is " + describe(node) + "; a share of what?")
        .help = "a share of the cost is profit: {markup: 20 %}, a share of the price profit: {margin: 20 %}";
    return;
  }
  Fields fields = reading.fields(node, "the profit");
  if (!fields.is_mapping()) return;
  const auto markup = fields.percent("markup");
  const auto margin = fields.percent("margin");
  raw.both_profits = fields.has("markup") && fields.has("margin");
  raw.job.profit_rule = margin ? ProfitRule::margin : markup ? ProfitRule::markup : ProfitRule::none;
  raw.job.profit = margin ? *margin : markup.value_or(Percent{});
  fields.finish();
}

TaxBasis basis_of(const std::string& word) {
  if (word == "materials") return TaxBasis::materials;
  if (word == "materials and labour") return TaxBasis::materials_and_labour;
  if (word == "everything") return TaxBasis::everything;
  if (word == "absorbed") return TaxBasis::absorbed;
  return TaxBasis::none;
}

void read_tax(const YamlNode& node, RawJob& raw, const JobReading& reading) {
  raw.tax_place = node.place;
  Fields fields = reading.fields(node, "the tax");
  if (!fields.is_mapping()) return;
  fields.require("on");
  const auto word = fields.one_of("on", {"none", "materials", "materials and labour", "everything", "absorbed"});
  raw.tax_basis_known = word.has_value();
  raw.job.tax_basis = basis_of(word.value_or("none"));
  raw.tax_percent_given = fields.has("percent");
  raw.job.tax = fields.percent("percent").value_or(Percent{});
  raw.job.for_resale = fields.yes_no("resale").value_or(false);
  fields.finish();
}

void read_payments(Fields& fields, RawJob& raw, const JobReading& reading) {
  raw.payments_place = fields.place_of("payments");
  for (const YamlNode* node : fields.list("payments")) {
    Fields one = reading.fields(*node, "a payment");
    if (!one.is_mapping()) continue;
    one.require("what");
    one.require("percent");
    PaymentTerm term;
    term.what = one.text("what").value_or("");
    term.percent = one.percent("percent").value_or(Percent{});
    term.at_most = one.money("at most", reading.currency);
    raw.job.payments.push_back(std::move(term));
    one.finish();
  }
}

std::map<std::string, std::string> read_set(const YamlNode& node, const JobReading& reading) {
  std::map<std::string, std::string> set;
  Fields fields = reading.fields(node, "the parameters of an option");
  if (!fields.is_mapping()) return set;
  for (const YamlEntry& entry : node.entries) {
    if (const auto value = fields.text(entry.key)) set[entry.key] = *value;
  }
  return set;
}

void read_options(Fields& fields, Job& job, const JobReading& reading) {
  for (const YamlNode* node : fields.list("options")) {
    Fields one = reading.fields(*node, "an option");
    if (!one.is_mapping()) continue;
    JobOption option;
    option.place = node->place;
    one.require("name");
    option.name = one.text("name").value_or("");
    option.differs = one.text("differs").value_or("");
    option.design = one.text("design").value_or("");
    if (const YamlNode* set = one.find("set")) option.set = read_set(*set, reading);
    option.allowance = one.money("allowance", reading.currency);
    job.options.push_back(std::move(option));
    one.finish();
  }
}

bool is_job(Fields& fields, Diagnostics& diagnostics) {
  const YamlNode* header = fields.find("teetally");
  if (header != nullptr && header->kind == YamlNode::Kind::scalar && header->text == kHeader) return true;
  diagnostics
      .error("quote/not-a-job", fields.place_of("teetally"), "this is not a job: the line 'teetally: job 1' is missing")
      .help = "a job file starts with: teetally: job 1";
  return false;
}

}  // namespace

std::optional<RawJob> read_raw_job(const Source& source, const Currency& currency, Diagnostics& diagnostics) {
  const YamlNode root = read_yaml(source, diagnostics);
  if (root.kind == YamlNode::Kind::null && diagnostics.has_errors()) return std::nullopt;
  BareUnits bare;
  Fields fields(root, "quote", "the job", bare, diagnostics);
  if (!fields.is_mapping() || !is_job(fields, diagnostics)) return std::nullopt;
  bare = read_bare_units(fields, "quote", diagnostics);
  const JobReading reading{currency, bare, diagnostics};
  RawJob raw;
  Job& job = raw.job;
  fields.require("customer");
  job.business = fields.text("from").value_or("");
  job.customer = fields.text("customer").value_or("");
  job.site = fields.text("site").value_or("");
  job.scope = fields.text("scope").value_or("");
  job.beds = fields.count("beds", 0, kMostBeds);
  if (const YamlNode* node = fields.find("labour")) read_labour(*node, raw, reading);
  job.equipment = read_charges(fields, "equipment", reading);
  job.delivery = read_charges(fields, "delivery", reading);
  if (const YamlNode* node = fields.find("overhead")) read_overhead(*node, job, reading);
  job.contingency = fields.percent("contingency").value_or(Percent{});
  if (const YamlNode* node = fields.find("profit")) read_profit(*node, raw, reading);
  const auto surplus = fields.one_of("surplus", {"charged", "kept"});
  job.surplus = surplus == "kept" ? SurplusPolicy::kept : SurplusPolicy::charged;
  if (const YamlNode* node = fields.find("tax")) read_tax(*node, raw, reading);
  read_payments(fields, raw, reading);
  read_options(fields, job, reading);
  job.exclusions = fields.texts("exclusions");
  job.cautions = fields.texts("cautions");
  fields.finish();
  return raw;
}

}  // namespace teetally
