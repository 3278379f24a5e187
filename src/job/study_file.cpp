#include "job/study_file.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <set>
#include <tuple>

#include "base/joined.h"
#include "catalogue/table_reader.h"
#include "entry/spell.h"
#include "entry/table.h"
#include "job/job_words.h"

namespace fettle {
namespace {

class HeadReader {
 public:
  HeadReader(const DocumentNode& node, const Catalogue& known, Problems& problems) : reader_(node, problems), known_(known), problems_(problems) {}

  std::optional<StudyHead> run() {
    StudyHead out{};
    out.gauge = reader_.text("gauge");
    out.preset = preset();
    out.person = reader_.optional_text("person");
    out.when = reader_.optional_text("when").value_or("");
    out.remark = reader_.optional_text("remark").value_or("");
    out.decimal_mark = reader_.optional_word("decimal_mark", kMarkWords);
    out.trade_words = reader_.optional_word("trade_words", kTradeWords);
    out.plus_means = reader_.optional_word("plus_means", kSides);
    out.readings_file = reader_.optional_text("readings").value_or("readings.csv");
    if (out.readings_file.find_first_of("/\\") != std::string::npos || !out.readings_file.ends_with(".csv")) {
      problems_.push_back({"job.study_file_bad", reader_.place(), {verbatim("file", out.readings_file)}});
      named_ = false;
    }
    const auto division = quantity("division", Dimension::length, out);
    out.study.tolerance = quantity("tolerance", out.preset == nullptr ? Dimension::length : out.preset->measures, out);
    reader_.finish();
    if (out.preset == nullptr || !named_) return std::nullopt;
    out.study.gauge = out.gauge;
    out.study.on_a_dial = out.preset->action == GaugeAction::comparison;
    if (out.preset->division) out.study.division = exact_length(*out.preset->division);
    if (division) out.study.division = exact_length(division->quantity);
    if (division && out.study.division <= Length()) problems_.push_back({"gauging.division_not_positive", division->place, {verbatim("gauge", out.gauge)}});
    return out;
  }

 private:
  const GaugePreset* preset() {
    const std::string id = reader_.text("preset");
    const GaugePreset* found = known_.gauge_preset(id);
    if (found != nullptr || id.empty()) return found;
    std::vector<std::string> ids;
    for (const GaugePreset& each : known_.gauge_presets) ids.push_back(each.id);
    reader_.unknown_word("preset", id, joined(ids));
    return nullptr;
  }

  std::optional<TypedQuantity> quantity(std::string_view key, Dimension dimension, const StudyHead& head) {
    const DocumentNode* node = reader_.node(key);
    if (node == nullptr) return std::nullopt;
    if (node->text() == nullptr) {
      problems_.push_back({"job.quantity_not_quoted", node->place, {verbatim("key", std::string(key))}});
      return std::nullopt;
    }
    Place place = node->place;
    if (place.column) ++*place.column;  // behind its quote
    return take(read_quantity(*node->text(), {std::nullopt, dimension, head.decimal_mark, head.trade_words, false, std::nullopt}, place), problems_);
  }

  TableReader reader_;
  const Catalogue& known_;
  Problems& problems_;
  bool named_ = true;  ///< a table that may be read
};

enum StudyColumn : std::size_t { kPart, kPerson, kReading, kUnit, kRepeat, kColumns };
constexpr std::array<const char*, kColumns> kNames = {"part", "person", "reading", "unit", "repeat"};

class RowReader {
 public:
  RowReader(Table table, StudyHead& head, Problems& problems) : table_(std::move(table)), head_(head), problems_(problems) {}

  void run() {
    if (!find_columns()) return;
    for (const Row& row : table_.rows) read(row);
  }

 private:
  void add(const char* code, const Place& place, std::vector<Argument> arguments) { problems_.push_back({code, place, std::move(arguments)}); }

  bool find_columns() {
    const Place top{table_.file, 1, 1};
    const std::vector<std::string> known(kNames.begin(), kNames.end());
    for (std::size_t i = 0; i < kColumns; ++i) columns_[i] = table_.find_column(kNames[i]);
    const std::size_t before = problems_.size();
    for (const StudyColumn needed : {kPart, kPerson, kReading}) {
      if (columns_[needed] || (needed == kPerson && head_.person)) continue;
      add("job.column_missing", top, {verbatim("column", kNames[needed])});
    }
    if (columns_[kPerson] && head_.person) add("job.study_person_twice", top, {verbatim("person", *head_.person)});
    for (const std::string& name : table_.header) {
      if (name.empty() || std::find(known.begin(), known.end(), name) != known.end()) continue;
      add("job.column_unknown", top, {verbatim("column", name), verbatim("near", nearest_word(name, known).value_or("?")), verbatim("known", joined(known))});
    }
    return problems_.size() == before;
  }

  [[nodiscard]] std::string cell(const Row& row, StudyColumn column) const {
    return columns_[column] ? row.cells[*columns_[column]].text : std::string();
  }
  [[nodiscard]] Place place(const Row& row, StudyColumn column) const {
    return columns_[column] ? table_.place(row, *columns_[column]) : Place{table_.file, row.line, 1};
  }

  void read(const Row& row) {
    const std::size_t before = problems_.size();
    for (const StudyColumn needed : {kPart, kPerson, kReading}) {
      if (!columns_[needed] || !cell(row, needed).empty()) continue;
      add("job.cell_empty", place(row, needed), {verbatim("column", kNames[needed])});
    }
    StudyReading out{cell(row, kPart), head_.person ? *head_.person : cell(row, kPerson), {}};
    check_repeat(row, out);
    TypingContext context{std::nullopt, std::nullopt, head_.decimal_mark, head_.trade_words, head_.study.on_a_dial, head_.plus_means};
    if (head_.study.on_a_dial) context.unit = UnitId::division;
    if (!head_.study.on_a_dial) context.dimension = head_.preset->measures;
    if (const std::string typed = cell(row, kUnit); !typed.empty()) {
      const Unit* unit = find_unit(typed);
      if (unit == nullptr) add("job.unit_unknown", place(row, kUnit), {verbatim("unit", typed)});
      if (unit != nullptr) context.unit = unit->id;
    }
    if (problems_.size() > before) return;
    if (auto shows = take(read_quantity(cell(row, kReading), context, place(row, kReading)), problems_)) {
      out.shows = std::move(*shows);
      head_.study.readings.push_back(std::move(out));
    }
  }

  void check_repeat(const Row& row, const StudyReading& of) {
    const std::string text = cell(row, kRepeat);
    if (text.empty()) return;
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size() || value < 1) {
      add("job.not_a_count", place(row, kRepeat), {verbatim("text", text), verbatim("column", kNames[kRepeat])});
    } else if (!seen_.insert({of.part, of.person, value}).second) {
      add("job.study_repeat_twice", place(row, kRepeat), {verbatim("repeat", text), verbatim("part", of.part), verbatim("person", of.person)});
    }
  }

  Table table_;
  StudyHead& head_;
  Problems& problems_;
  std::array<std::optional<std::size_t>, kColumns> columns_{};
  std::set<std::tuple<std::string, std::string, int>> seen_;
};

}  // namespace

std::optional<StudyHead> read_study_head(std::string_view text, const std::string& file, const Catalogue& known, Problems& problems) {
  const auto root = take(read_document(text, file), problems);
  if (!root) return std::nullopt;
  TableReader top(*root, problems);
  const DocumentNode* node = top.node("study");
  if (node == nullptr) top.missing("study");
  auto head = node == nullptr ? std::nullopt : HeadReader(*node, known, problems).run();
  top.finish();
  return head;
}

void read_study_rows(std::string_view text, const std::string& file, StudyHead& head, Problems& problems) {
  Table table = read_table(text, file, problems);
  if (!table.header.empty()) RowReader(std::move(table), head, problems).run();
}

}  // namespace fettle
