#include "job/readings_file.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <unordered_map>
#include <unordered_set>

#include "base/digest.h"
#include "base/joined.h"
#include "entry/spell.h"
#include "entry/table.h"
#include "gauging/place_names.h"
#include "job/reading_columns.h"

namespace fettle {
namespace {

using namespace reading_columns;

constexpr std::array kNeeded = {kPart, kStation, kReading, kSetting};  // and kDirection, where there is more than one

class ReadingsReader {
 public:
  ReadingsReader(Table table, const JobFile& job, Problems& problems)
      : table_(std::move(table)), job_(job), problems_(problems) {}

  std::vector<WrittenReading> read() {
    if (!find_columns()) return {};
    know_settings();
    know_layouts();
    for (const Row& row : table_.rows) read_row(row);
    return std::move(out_);
  }

 private:
  bool find_columns() {
    const std::vector<std::string> known(kNames.begin(), kNames.end());
    for (std::size_t i = 0; i < kColumns; ++i) columns_[i] = table_.find_column(kNames[i]);
    bool complete = true;
    for (std::size_t needed : kNeeded) {
      if (columns_[needed]) continue;
      problems_.push_back(Problem{"job.column_missing", {table_.file, 1, 1}, {verbatim("column", kNames[needed])}});
      complete = false;
    }
    for (const std::string& name : table_.header) {
      if (name.empty() || std::find(known.begin(), known.end(), name) != known.end()) continue;
      problems_.push_back(Problem{"job.column_unknown", {table_.file, 1, 1},
                                  {verbatim("column", name), verbatim("near", nearest_word(name, known).value_or("?")),
                                   verbatim("known", joined(known))}});
    }
    return complete;
  }

  /// Which settings are read on a dial, and what a bare + means there.
  void know_settings() {
    std::unordered_map<std::string, bool> comparison;
    for (const WrittenPayload& written : job_.payloads) {
      if (const auto* gauge = std::get_if<GaugeRegistered>(&written.payload)) {
        const GaugePreset* preset = catalogue().gauge_preset(gauge->gauge.preset);
        comparison[gauge->gauge.id] = preset != nullptr && preset->action == GaugeAction::comparison;
      }
    }
    for (const WrittenPayload& written : job_.payloads) {
      if (const auto* made = std::get_if<SettingMade>(&written.payload)) {
        const Setting& setting = made->setting;
        settings_[setting.id] = {setting.id, comparison[setting.gauge], setting.plus_means};
      }
    }
  }

  [[nodiscard]] const std::string& cell(const Row& row, Column column) const {
    static const std::string kEmpty;
    return columns_[column] ? row.cells[*columns_[column]].text : kEmpty;
  }

  [[nodiscard]] Place place(const Row& row, Column column) const {
    return columns_[column] ? table_.place(row, *columns_[column]) : Place{table_.file, row.line, 1};
  }

  void add(const char* code, const Row& row, Column column, std::vector<Argument> arguments) {
    problems_.push_back({code, place(row, column), std::move(arguments)});
  }

  void read_row(const Row& row) {
    bool complete = true;
    for (Column needed : kNeeded) {
      if (!cell(row, needed).empty()) continue;
      add("job.cell_empty", row, needed, {verbatim("column", kNames[needed])});
      complete = false;
    }
    if (complete && cell(row, kDirection).empty() && !read_one_way(row)) {
      add("job.cell_empty", row, kDirection, {verbatim("column", kNames[kDirection])});
      complete = false;
    }
    if (!complete) return;
    check_names(row);
    const auto quantity = read_reading(row);
    const auto temperature = read_temperature(row);
    const auto order = read_count(row, kOrder);
    const auto repeat = read_count(row, kRepeat);
    const auto flag = find_flag(cell(row, kFlag));
    if (!flag) add("job.flag_unknown", row, kFlag, {verbatim("flag", cell(row, kFlag))});
    if (!quantity) return;
    WrittenReading written{content_of(row), cell(row, kWho), cell(row, kWhen),
                           Reading{cell(row, kPart), cell(row, kStation), cell(row, kDirection), *quantity, cell(row, kSetting),
                                   cell(row, kRound), order, repeat, temperature, flag.value_or(ReadingFlag::none),
                                   cell(row, kNote), std::nullopt}};
    if (!seen_.insert(written.content).second) {
      add("job.same_row_twice", row, kReading, {verbatim("part", written.reading.part), verbatim("text", written.reading.quantity.text)});
      return;
    }
    out_.push_back(std::move(written));
  }

  /// Names are looked up here, so that they are told together with everything else; a part or setting that is missing, once.
  void check_names(const Row& row) {
    if (!settings_.contains(cell(row, kSetting)) && told_.insert("setting " + cell(row, kSetting)).second) {
      add("gauging.unknown_setting", row, kSetting, {verbatim("setting", cell(row, kSetting))});
    }
    const auto part = layouts_.find(cell(row, kPart));
    if (part == layouts_.end()) {
      if (told_.insert("part " + cell(row, kPart)).second) add("gauging.unknown_part", row, kPart, {verbatim("part", cell(row, kPart))});
      return;
    }
    const Layout& layout = part->second;
    if (layout.stations.empty()) return;  // the part's kind is the problem, and it was told
    (void)find_cell({part->first, cell(row, kStation), cell(row, kDirection), place(row, kStation), place(row, kDirection)}, layout,
                    problems_);
  }

  /// The places of every part, as the job or the catalogue has them.
  void know_layouts() {
    std::unordered_map<std::string, Layout> chosen;
    for (const WrittenPayload& written : job_.payloads) {
      if (const auto* layout = std::get_if<LayoutChosen>(&written.payload)) chosen[layout->kind] = layout->layout;
    }
    for (const WrittenPayload& written : job_.payloads) {
      const auto* entered = std::get_if<PartEntered>(&written.payload);
      if (entered == nullptr) continue;
      const Kind* kind = catalogue().kind(entered->part.kind);
      const auto own = chosen.find(entered->part.kind);
      layouts_[entered->part.id] = own != chosen.end() ? own->second : kind != nullptr ? kind->layout : Layout{};
    }
  }

  std::optional<TypedQuantity> read_reading(const Row& row) {
    TypingContext context{std::nullopt, std::nullopt, job_.decimal_mark, job_.trade_words, false, std::nullopt};
    if (const std::string& typed = cell(row, kUnit); !typed.empty()) {
      const Unit* unit = find_unit(typed);
      if (unit == nullptr) {
        add("job.unit_unknown", row, kUnit, {verbatim("unit", typed)});
        return std::nullopt;
      }
      context.unit = unit->id;
    }
    if (const auto setting = settings_.find(cell(row, kSetting)); setting != settings_.end()) {
      context.on_a_dial = setting->second.on_a_dial;
      context.plus_means = setting->second.plus_means;
      if (context.on_a_dial && !context.unit) context.unit = UnitId::division;
      if (!context.on_a_dial) context.dimension = quantity_read(row).value_or(Dimension::length);
    }
    return take(read_quantity(cell(row, kReading), context, place(row, kReading)), problems_);
  }

  /// Whether the row's part has one direction only, or is not known.
  [[nodiscard]] bool read_one_way(const Row& row) const {
    const auto part = layouts_.find(cell(row, kPart));
    return part == layouts_.end() || part->second.directions.size() <= 1;  // an unknown one was told
  }

  /// What is read at the row's place; nothing where the place is unknown, which was told.
  [[nodiscard]] std::optional<Dimension> quantity_read(const Row& row) const {
    const auto part = layouts_.find(cell(row, kPart));
    if (part == layouts_.end()) return std::nullopt;
    Problems told;
    const auto at = find_cell({part->first, cell(row, kStation), cell(row, kDirection), {}, {}}, part->second, told);
    return at ? std::optional(part->second.quantity(*at)) : std::nullopt;
  }

  std::optional<TypedQuantity> read_temperature(const Row& row) {
    if (cell(row, kTemperature).empty()) return std::nullopt;
    const TypingContext context{std::nullopt, Dimension::temperature, job_.decimal_mark, job_.trade_words, false, std::nullopt};
    return take(read_quantity(cell(row, kTemperature), context, place(row, kTemperature)), problems_);
  }

  std::optional<std::int64_t> read_count(const Row& row, Column column) {
    const std::string& text = cell(row, column);
    if (text.empty()) return std::nullopt;
    std::int64_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size() || value < 1 || value > 1'000'000) {
      add("job.not_a_count", row, column, {verbatim("text", text), verbatim("column", kNames[column])});
      return std::nullopt;
    }
    return value;
  }

  [[nodiscard]] std::string content_of(const Row& row) const {
    std::vector<std::string> cells;
    for (std::size_t i = 0; i < kColumns; ++i) cells.push_back(cell(row, static_cast<Column>(i)));
    return row_digest(job_.job, cells);
  }

  Table table_;
  const JobFile& job_;
  Problems& problems_;
  std::array<std::optional<std::size_t>, kColumns> columns_{};
  std::unordered_map<std::string, ReadingContext> settings_;
  std::unordered_map<std::string, Layout> layouts_;
  std::unordered_set<std::string> told_;
  std::unordered_set<std::string> seen_;
  std::vector<WrittenReading> out_;
};

}  // namespace

std::string row_digest(const std::string& job, const std::vector<std::string>& cells) {
  std::vector<std::string_view> fields = {"reading-taken", job};
  fields.insert(fields.end(), cells.begin(), cells.end());
  return digest(fields);
}

std::vector<WrittenReading> read_readings_file(std::string_view text, const std::string& file, const JobFile& job,
                                               Problems& problems) {
  Table table = read_table(text, file, problems);
  if (table.header.empty()) return {};
  return ReadingsReader(std::move(table), job, problems).read();
}

}  // namespace fettle
