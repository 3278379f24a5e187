#include "job/readings_text.h"

#include <algorithm>
#include <array>
#include <set>

#include "catalogue/catalogue.h"
#include "entry/table_writer.h"
#include "job/reading_columns.h"
#include "job/readings_file.h"
#include "job/typed_alone.h"

namespace fettle {
namespace {

using namespace reading_columns;
using Cells = std::vector<std::string>;

constexpr std::array kAlways = {kPart, kStation, kDirection, kReading, kSetting};

class ReadingsWriter {
 public:
  ReadingsWriter(const Job& job, const EnteredByEvent& entered) : job_(job), entered_(entered) {
    if (job.opened) marks_ = {job.opened->value.decimal_mark, job.opened->value.trade_words};
    for (const auto& each : job.settings) settings_.emplace(each.value.id, settings_.size());
    for (const auto& each : job.parts) {
      parts_.emplace(each.value.id, parts_.size());
      know_layout(each.value);
    }
  }

  std::string write() {
    for (const auto& each : job_.readings) rows_.push_back(row_of(each));
    std::sort(rows_.begin(), rows_.end());
    number_twins();
    std::vector<std::size_t> columns;
    for (std::size_t c = 0; c < kColumns; ++c) {
      if (is_needed(c)) columns.push_back(c);
    }
    TableWriter table(',', "\n");
    table.row(chosen(Cells(kNames.begin(), kNames.end()), columns));
    for (const Row& each : rows_) table.row(chosen(each.cells, columns));
    std::string out = table.text();
    for (const auto& each : job_.superseded_readings) out += comment(each, columns);
    return out;
  }

 private:
  /// Rows stand by setting, round, order and place, then by what is in them.
  struct Row {
    std::size_t setting;
    std::string round;
    std::optional<std::int64_t> order;
    std::size_t part;
    std::size_t cell;
    Cells cells;
    auto operator<=>(const Row&) const = default;
  };

  [[nodiscard]] static std::size_t place_in(const std::unordered_map<std::string, std::size_t>& list, const std::string& id) {
    const auto found = list.find(id);
    return found == list.end() ? list.size() : found->second;
  }

  [[nodiscard]] Row row_of(const Kept<Reading>& kept) const {
    const Reading& reading = kept.value;
    return {place_in(settings_, reading.setting), reading.round, reading.order, place_in(parts_, reading.part), cell_of(reading),
            cells_of(kept)};
  }

  /// Where the part is read, as the job or the catalogue has it.
  void know_layout(const Part& part) {
    const auto own = std::find_if(job_.layouts.begin(), job_.layouts.end(), [&](const auto& each) { return each.value.kind == part.kind; });
    const Kind* kind = catalogue().kind(part.kind);
    if (own != job_.layouts.end()) {
      layouts_.emplace(part.id, &own->value.layout);
    } else if (kind != nullptr) {
      layouts_.emplace(part.id, &kind->layout);
    }
  }

  /// Its number in the layout; places that are not known stand behind all others.
  [[nodiscard]] std::size_t cell_of(const Reading& reading) const {
    const auto layout = layouts_.find(reading.part);
    if (layout == layouts_.end()) return 0;
    const auto station = layout->second->find_station(reading.station);
    const auto direction = layout->second->find_direction(reading.direction);
    return station ? layout->second->cell(*station, direction.value_or(0)) : layout->second->cells();
  }

  [[nodiscard]] Cells cells_of(const Kept<Reading>& kept) const {
    const Reading& reading = kept.value;
    const auto entered = entered_.find(kept.event);
    const auto number = [](const std::optional<std::int64_t>& value) { return value ? std::to_string(*value) : std::string(); };
    Cells out(kColumns);
    out[kPart] = reading.part;
    out[kStation] = reading.station;
    out[kDirection] = reading.direction;
    out[kReading] = reading.quantity.text;
    if (needs_unit(reading.quantity, marks_)) out[kUnit] = std::string(unit_definition(reading.quantity.quantity.unit).symbol);
    out[kSetting] = reading.setting;
    out[kRound] = reading.round;
    out[kOrder] = number(reading.order);
    out[kRepeat] = number(reading.repeat);
    if (reading.temperature) out[kTemperature] = typed_alone(*reading.temperature, marks_);
    if (reading.flag != ReadingFlag::none) out[kFlag] = std::string(flag_name(reading.flag));
    out[kNote] = reading.note;
    if (entered != entered_.end()) {
      out[kWho] = entered->second.who;
      out[kWhen] = entered->second.when;
    }
    spell_unit(kept, out);
    return out;
  }

  /// The same unit may stand in its column in several ways, or be left out: the one is written that the row came from, so that importing
  /// gives the very same event. An event that came from no row has an id of its own, and then the shortest way stands.
  void spell_unit(const Kept<Reading>& kept, Cells& cells) const {
    const Cells shortest = cells;
    const auto is_it = [&](std::string_view unit) {
      cells[kUnit] = std::string(unit);
      return row_digest(job_.id, cells) == kept.event;
    };
    const Unit& unit = unit_definition(kept.value.quantity.quantity.unit);
    if (is_it(shortest[kUnit]) || is_it(unit.symbol)) return;
    if (std::any_of(unit.spellings.begin(), unit.spellings.end(), is_it)) return;
    cells = shortest;
  }

  /// Two rows that are alike letter for letter would be refused: all but the first get a number in `repeat`.
  void number_twins() {
    std::set<Cells> taken;
    for (Row& row : rows_) taken.insert(row.cells);
    for (std::size_t i = 1; i < rows_.size(); ++i) {
      if (rows_[i].cells != rows_[i - 1].cells || !rows_[i].cells[kRepeat].empty()) continue;
      const Cells twin = rows_[i].cells;
      for (int number = 2; i < rows_.size() && rows_[i].cells == twin; ++i) {
        do {
          rows_[i].cells[kRepeat] = std::to_string(number++);
        } while (!taken.insert(rows_[i].cells).second);
      }
    }
    std::sort(rows_.begin(), rows_.end());
  }

  [[nodiscard]] bool is_needed(std::size_t column) const {
    if (std::find(kAlways.begin(), kAlways.end(), column) != kAlways.end()) return true;
    return std::any_of(rows_.begin(), rows_.end(), [&](const Row& row) { return !row.cells[column].empty(); });
  }

  static Cells chosen(const Cells& cells, const std::vector<std::size_t>& columns) {
    Cells out;
    for (const std::size_t column : columns) out.push_back(cells[column]);
    return out;
  }

  [[nodiscard]] std::string comment(const Kept<Reading>& superseded, const std::vector<std::size_t>& columns) const {
    TableWriter table(',', "");
    table.row(chosen(cells_of(superseded), columns));
    std::string line = table.text();
    std::replace_if(line.begin(), line.end(), [](char c) { return c == '\n' || c == '\r'; }, ' ');
    return "# corrected: " + line + "\n";
  }

  const Job& job_;
  const EnteredByEvent& entered_;
  JobMarks marks_{};
  std::unordered_map<std::string, std::size_t> settings_;
  std::unordered_map<std::string, std::size_t> parts_;
  std::unordered_map<std::string, const Layout*> layouts_;
  std::vector<Row> rows_;
};

}  // namespace

std::string readings_text(const Job& job, const EnteredByEvent& entered) { return ReadingsWriter(job, entered).write(); }

}  // namespace fettle
