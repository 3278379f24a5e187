#include "app/readings_table.h"

#include <cmath>
#include <unordered_map>
#include <unordered_set>

#include "app/table_cells.h"
#include "catalogue/catalogue.h"
#include "catalogue/figure_style.h"
#include "units/exact_decimal.h"
#include "units/print.h"

namespace fettle {
namespace {

const std::vector<DataColumn> kReadingsColumns = {
    {"event", ColumnSort::word},          {"part", ColumnSort::text},          {"kind", ColumnSort::text},
    {"position", ColumnSort::text},       {"station", ColumnSort::text},       {"direction", ColumnSort::text},
    {"as_typed", ColumnSort::typed},      {"value", ColumnSort::decimal},      {"unit", ColumnSort::word},
    {"reading_mm", ColumnSort::decimal},  {"setting", ColumnSort::text},       {"gauge", ColumnSort::text},
    {"master", ColumnSort::text},         {"round", ColumnSort::text},         {"order", ColumnSort::whole},
    {"repeat", ColumnSort::whole},        {"temperature", ColumnSort::typed},  {"temperature_celsius", ColumnSort::decimal},
    {"flag", ColumnSort::word},           {"note", ColumnSort::text},          {"who", ColumnSort::text},
    {"when", ColumnSort::text},           {"corrected_by", ColumnSort::word},  {"as_measured_mm", ColumnSort::decimal},
    {"size_mm", ColumnSort::decimal},     {"size_uncertainty_mm", ColumnSort::decimal},
    {"other_as_measured", ColumnSort::decimal}, {"other_size", ColumnSort::decimal}, {"other_uncertainty", ColumnSort::decimal},
    {"other_unit", ColumnSort::word},
};

class ReadingsTable {
 public:
  ReadingsTable(const std::vector<EventEnvelope>& events, const JudgedJob& judged) : events_(events), judged_(judged) {
    for (const Kept<Setting>& each : judged.job.settings) settings_[each.value.id] = &each.value;
    for (const PartOnBench& each : judged.parts) parts_[each.part.id] = &each;
    for (const Size& each : judged.sizes.sizes) sizes_[each.reading] = &each;
    for (const Kept<Gauge>& each : judged.job.gauges) know_division(each.value);
    for (const EventEnvelope& event : events) {
      const auto* taken = std::get_if<ReadingTaken>(&event.payload);
      if (taken != nullptr && taken->reading.supersedes) corrected_by_[*taken->reading.supersedes] = event.id;
    }
  }

  DataTable make() {
    DataTable out{kReadingsColumns, {}};
    std::unordered_set<std::string> seen;
    for (const EventEnvelope& event : events_) {
      const auto* taken = std::get_if<ReadingTaken>(&event.payload);
      if (taken != nullptr && seen.insert(event.id).second) out.rows.push_back(row(event, taken->reading));
    }
    return out;
  }

 private:
  void know_division(const Gauge& gauge) {
    const auto known = know_gauge(gauge, catalogue().gauge_presets, {});
    if (known.ok() && known.value().division) divisions_[gauge.id] = *known.value().division;
  }

  [[nodiscard]] std::vector<std::optional<std::string>> row(const EventEnvelope& event, const Reading& reading) const {
    TableCells cells(kReadingsColumns);
    cells.put("event", event.id);
    place(reading, cells);
    figures(reading, cells);
    circumstances(reading, cells);
    cells.put_if("who", event.who);
    cells.put_if("when", event.made_at);
    if (const auto by = corrected_by_.find(event.id); by != corrected_by_.end()) cells.put("corrected_by", by->second);
    if (const auto size = sizes_.find(event.id); size != sizes_.end()) size_of(*size->second, cells);
    return std::move(cells).take();
  }

  void place(const Reading& reading, TableCells& cells) const {
    cells.put("part", reading.part);
    cells.put_if("station", reading.station);
    cells.put_if("direction", reading.direction);
    const auto part = parts_.find(reading.part);
    if (part == parts_.end()) return;
    cells.put("kind", part->second->part.kind);
    cells.put_if("position", part->second->part.position);
  }

  void figures(const Reading& reading, TableCells& cells) const {
    const Quantity& quantity = reading.quantity.quantity;
    cells.put("as_typed", reading.quantity.text);
    cells.put("value", exact_decimal(quantity.value));
    cells.put("unit", std::string(unit_definition(quantity.unit).symbol));
    if (const auto mm = in_mm(reading)) cells.put("reading_mm", exact_decimal(*mm));
  }

  /// Of divisions: how far the needle stood from zero, clockwise positive.
  [[nodiscard]] std::optional<Ratio> in_mm(const Reading& reading) const {
    const Quantity& quantity = reading.quantity.quantity;
    const Ratio counts_per_mm(static_cast<Int128>(Length::kCountsPerMillimetre));
    if (quantity.dimension() == Dimension::length) return quantity.in_base() / counts_per_mm;
    const auto setting = settings_.find(reading.setting);
    if (quantity.dimension() != Dimension::divisions || setting == settings_.end()) return std::nullopt;
    const auto division = divisions_.find(setting->second->gauge);
    if (division == divisions_.end()) return std::nullopt;
    return quantity.in_base() * division->second.ratio() / counts_per_mm;
  }

  void circumstances(const Reading& reading, TableCells& cells) const {
    cells.put("setting", reading.setting);
    if (const auto setting = settings_.find(reading.setting); setting != settings_.end()) {
      cells.put("gauge", setting->second->gauge);
      cells.put("master", setting->second->master);
    }
    cells.put_if("round", reading.round);
    if (reading.order) cells.put("order", std::to_string(*reading.order));
    if (reading.repeat) cells.put("repeat", std::to_string(*reading.repeat));
    if (reading.temperature) {
      cells.put("temperature", reading.temperature->text);
      cells.put("temperature_celsius", reading.temperature->quantity.in_base().decimal(kTemperatureDecimals));
    }
    if (reading.flag != ReadingFlag::none) cells.put("flag", std::string(flag_name(reading.flag)));
    cells.put_if("note", reading.note);
  }

  void size_of(const Size& size, TableCells& cells) const {
    double variance = 0.0;
    for (const ErrorTerm& term : size.terms) {
      const double each = term.coefficient * judged_.sizes.sources[term.source].standard_uncertainty;
      variance += each * each;
    }
    const double uncertainty = std::sqrt(variance);
    const Dimension quantity = parts_.at(size.part)->layout.quantity(size.cell);
    if (quantity == Dimension::length) {
      cells.put("as_measured_mm", in_unit(size.as_measured, UnitId::millimetre, kExactDecimals));
      cells.put("size_mm", print_fixed(size.estimate, kEstimateDecimals));
      cells.put("size_uncertainty_mm", print_fixed(uncertainty, kEstimateDecimals));
      return;
    }
    const FigureStyle style = style_read(quantity, UnitId::millimetre);
    cells.put("other_as_measured", shown(size.as_measured, style));
    cells.put("other_size", shown(size.estimate, style));
    cells.put("other_uncertainty", shown(uncertainty, style));
    cells.put("other_unit", style.unit);
  }

  const std::vector<EventEnvelope>& events_;
  const JudgedJob& judged_;
  std::unordered_map<std::string, const Setting*> settings_;
  std::unordered_map<std::string, const PartOnBench*> parts_;
  std::unordered_map<std::string, const Size*> sizes_;
  std::unordered_map<std::string, Length> divisions_;
  std::unordered_map<std::string, std::string> corrected_by_;
};

}  // namespace

DataTable readings_table(const std::vector<EventEnvelope>& events, const JudgedJob& judged) { return ReadingsTable(events, judged).make(); }

}  // namespace fettle
