#include "app/group_mistakes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>

#include "app/plan_sense.h"
#include "app/understand.h"
#include "form/plain_reason.h"

namespace fettle {
namespace {

constexpr double kMicrometresPerMm = 1000.0;
/// Wrong rods, washers and masters, mm: half a millimetre, .025 in, a millimetre, two.
constexpr std::array kWrongMastersMm = {0.5, 0.635, 1.0, 2.0};
/// So far off the level of a group a setting has to lie before a wrong master is thought of.
constexpr double kFarFromLevelUm = 150.0;

/// A place that was read more often under one setting is one row: its mean hides a slip, but what a fit costs grows with the cube of its rows.
constexpr std::size_t kMostByThemselves = 3;

/// The readings of a place under a setting of a name of their own each, so that each is a row by itself; as they are where that would be too many.
SizeSet each_by_itself(SizeSet set) {
  if (set.sizes.size() > kMostShapeRows) return set;
  std::map<std::tuple<std::string, std::size_t, std::string>, std::size_t> times;
  for (const Size& each : set.sizes) ++times[{each.part, each.cell, each.setting}];
  for (Size& each : set.sizes) {
    if (times.at({each.part, each.cell, each.setting}) <= kMostByThemselves) each.setting += "\n" + each.reading;
  }
  return set;
}

std::string setting_named_in(const ShapeRow& row) { return row.setting.substr(0, row.setting.find('\n')); }

std::vector<std::string> part_ids(const std::vector<const PartOnBench*>& parts) {
  std::vector<std::string> out;
  for (const PartOnBench* part : parts) out.push_back(part->part.id);
  return out;
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

}  // namespace

GroupMistakes::GroupMistakes(const Job& job, const std::vector<Kept<Reading>>& readings, const std::vector<const PartOnBench*>& parts, const SizeSet& set,
                             const KnownGroup& known, ShapeFreedom freedom)
    : job_(job), parts_(parts), known_(known), freedom_(freedom), rows_(shape_rows(part_ids(parts), each_by_itself(set), known.origin, {})) {
  for (const Kept<Reading>& each : readings) readings_.emplace(each.event, &each.value);
  Problems none;
  for (const Kept<Setting>& each : job.settings) settings_.emplace(each.value.id, setting_at_hand(job, each, none));
  for (const Size& each : set.sizes) {
    as_measured_mm_.emplace(each.reading, each.as_measured.to_double() / static_cast<double>(Length::kCountsPerMillimetre));
  }
}

std::vector<SupposedMistake> GroupMistakes::mistakes_of(std::size_t block, std::size_t k) const {
  const ShapeRow& row = rows_.rows[block][k];
  const double share = 1.0 / static_cast<double>(row.readings.size());
  const Layout& layout = parts_[block]->layout;
  const Station& station = layout.stations[row.cell / layout.directions.size()];
  std::vector<SupposedMistake> out;
  for (const std::string& event : row.readings) {
    const Reading& reading = *readings_.at(event);
    const auto at_hand = settings_.find(reading.setting);
    if (at_hand == settings_.end() || !at_hand->second.known) continue;
    const KnownSetting& known = *at_hand->second.known;
    const TypingContext context = is_on_a_dial(known) ? typing_on_dial(job_, known.setting->plus_means) : typing_in(job_, Dimension::length);
    const ReadingOnGauge on_gauge{reading.quantity, known, context, *parts_[block], row.cell, as_measured_mm_.at(event), may_lie_at_port(job_, station)};
    for (const SupposedSize& each : supposed_sizes(on_gauge)) {
      SupposedMistake mistake{each.kind, each.prior, {}, each.kind->scale_um * share, static_cast<int>(known_.origin.sign) * toward_of(*each.kind)};
      if (each.shift_mm) mistake.meant = rows_.blocks[block].value[k] + known_.origin.sign * *each.shift_mm * kMicrometresPerMm * share;
      out.push_back(mistake);
    }
  }
  return out;
}

std::vector<RowInQuestion> GroupMistakes::rows_in_question(const std::set<std::string>& stand) const {
  std::vector<RowInQuestion> out;
  for (std::size_t b = 0; b < rows_.rows.size(); ++b) {
    for (std::size_t k = 0; k < rows_.rows[b].size(); ++k) {
      const auto& readings = rows_.rows[b][k].readings;
      const bool stands = std::all_of(readings.begin(), readings.end(), [&](const std::string& each) { return stand.contains(each); });
      out.push_back({{b, k}, mistakes_of(b, k), stands});
    }
  }
  return out;
}

std::vector<RowsExchanged> GroupMistakes::exchanges() const {
  std::vector<RowsExchanged> out;
  for (std::size_t b = 0; b < rows_.rows.size(); ++b) add_exchanges_of(b, out);
  add_wrong_masters(out);
  return out;
}

/// Places read once alone: of one that was read again nobody says which was meant.
void GroupMistakes::add_exchanges_of(std::size_t block, std::vector<RowsExchanged>& out) const {
  const Layout& layout = parts_[block]->layout;
  const std::size_t directions = layout.directions.size();
  std::map<std::size_t, std::size_t> once;  // cell -> row
  std::set<std::size_t> twice;
  for (std::size_t k = 0; k < rows_.rows[block].size(); ++k) {
    if (!once.emplace(rows_.rows[block][k].cell, k).second) twice.insert(rows_.rows[block][k].cell);
  }
  for (const std::size_t cell : twice) once.erase(cell);
  const auto row_at = [&](std::size_t station, std::size_t direction) {
    const auto found = once.find(layout.cell(station, direction));
    return found == once.end() ? std::optional<std::size_t>() : std::optional(found->second);
  };
  const auto exchanged = [&](std::size_t a, std::size_t b, std::vector<std::pair<RowPlace, double>>& shifts) {
    const double apart = rows_.blocks[block].value[b] - rows_.blocks[block].value[a];
    if (apart == 0.0) return;
    shifts.push_back({{block, a}, apart});
    shifts.push_back({{block, b}, -apart});
  };
  if (directions == 2) {
    std::vector<std::pair<RowPlace, double>> whole;
    std::size_t stations = 0;
    for (std::size_t s = 0; s < layout.stations.size(); ++s) {
      const auto main = row_at(s, 0);
      const auto cross = row_at(s, 1);
      if (!main || !cross) continue;
      std::vector<std::pair<RowPlace, double>> one;
      exchanged(*main, *cross, one);
      if (one.empty()) continue;
      ++stations;
      whole.insert(whole.end(), one.begin(), one.end());
      const MistakeKind* kind = mistake_kind("axes-exchanged");
      out.push_back({kind, kind->rate, std::move(one)});
    }
    const MistakeKind* kind = mistake_kind("part-axes-exchanged");
    if (stations > 1) out.push_back({kind, kind->rate, std::move(whole)});
  }
  const std::size_t stations = layout.stations.size();
  if (stations < 2) return;
  const MistakeKind* kind = mistake_kind("heights-exchanged");
  const double pairs = static_cast<double>(stations * (stations - 1) / 2);
  for (std::size_t d = 0; d < directions; ++d) {
    for (std::size_t s = 0; s < stations; ++s) {
      for (std::size_t t = s + 1; t < stations; ++t) {
        const auto upper = row_at(s, d);
        const auto lower = row_at(t, d);
        if (!upper || !lower) continue;
        std::vector<std::pair<RowPlace, double>> one;
        exchanged(*upper, *lower, one);
        if (!one.empty()) out.push_back({kind, kind->rate / pairs, std::move(one)});
      }
    }
  }
}

/// All under one setting by the same amount: thought of only where it lies far from what such parts are, or from what other settings say.
void GroupMistakes::add_wrong_masters(std::vector<RowsExchanged>& out) const {
  std::map<std::string, std::vector<RowPlace>> by_setting;
  std::map<std::string, std::vector<double>> values;
  for (std::size_t b = 0; b < rows_.rows.size(); ++b) {
    for (std::size_t k = 0; k < rows_.rows[b].size(); ++k) {
      const std::string setting = setting_named_in(rows_.rows[b][k]);
      by_setting[setting].emplace_back(b, k);
      values[setting].push_back(rows_.blocks[b].value[k]);
    }
  }
  const MistakeKind* kind = mistake_kind("wrong-master");
  for (const auto& [setting, rows] : by_setting) {
    const double level = median(values[setting]);
    std::vector<double> others;
    for (const auto& [other, of_other] : values) {
      if (other != setting) others.insert(others.end(), of_other.begin(), of_other.end());
    }
    const bool off_made = known_.knowledge.tolerance_um && std::abs(level) > kFarFromLevelUm;
    const bool off_others = !others.empty() && std::abs(level - median(others)) > kFarFromLevelUm;
    if (rows.size() < 2 || (!off_made && !off_others)) continue;
    for (const double mm : kWrongMastersMm) {
      for (const double way : {1.0, -1.0}) {
        RowsExchanged each{kind, kind->rate / (2.0 * kWrongMastersMm.size()), {}};
        for (const RowPlace& at : rows) each.shifts.push_back({at, way * mm * kMicrometresPerMm});
        out.push_back(std::move(each));
      }
    }
  }
}

AskedReading GroupMistakes::of(const AskedRows& asked) const {
  const auto [b, k] = asked.rows.front();
  const ShapeRow& first = rows_.rows[b][k];
  AskedReading out{{}, parts_[b]->part.id, first.cell, setting_named_in(first), asked.kind, asked.chance, {}, {}, {}, asked.by_kind};
  for (const auto& [block, row] : asked.rows) {
    const auto& readings = rows_.rows[block][row].readings;
    out.readings.insert(out.readings.end(), readings.begin(), readings.end());
  }
  if (asked.rows.size() > 1) return out;
  out.shown_mm = known_.origin.to_mm(rows_.blocks[b].value[k]);
  out.expected_mm = known_.origin.to_mm(asked.expected);
  out.expected_sd_mm = asked.expected_sd / kMicrometresPerMm;
  return out;
}

std::vector<AskedReading> GroupMistakes::finished(const std::set<std::string>& stand) const {
  std::vector<AskedReading> out;
  for (const AskedRows& each : ask_group({known_.knowledge, rows_, freedom_, rows_in_question(stand), exchanges()})) out.push_back(of(each));
  return out;
}

std::optional<AskedReading> GroupMistakes::arriving(const std::string& event, const std::set<std::string>& open) const {
  std::optional<RowPlace> row;
  std::vector<RowPlace> unanswered;
  for (std::size_t b = 0; b < rows_.rows.size(); ++b) {
    for (std::size_t k = 0; k < rows_.rows[b].size(); ++k) {
      for (const std::string& each : rows_.rows[b][k].readings) {
        if (each == event) row = {b, k};
        if (each != event && open.contains(each)) unanswered.emplace_back(b, k);
      }
    }
  }
  if (!row) return std::nullopt;
  const auto asked = ask_arriving({known_.knowledge, rows_, freedom_, rows_in_question({}), exchanges()}, *row, unanswered);
  return asked ? std::optional(of(*asked)) : std::nullopt;
}

}  // namespace fettle
