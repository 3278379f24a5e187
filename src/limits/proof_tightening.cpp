#include <algorithm>
#include <map>

#include "limits/proof_desk.h"
#include "limits/sheet_cells.h"

namespace fettle {
namespace {

bool is_torque(const PrintedRange& stage) {
  const TypedQuantity* figure = stage.from.preferring(UnitFamily::metric);
  return figure != nullptr && figure->quantity.dimension() == Dimension::torque;
}

bool units_disagree(const Printed& figure) {
  if (!figure.in_both()) return false;
  return absolute(figure.metric->quantity.in_base() - figure.inch->quantity.in_base()) > half_a_step(*figure.metric) + half_a_step(*figure.inch);
}

/// The stage with this unit put to what the other says.
PrintedRange converted(const PrintedRange& stage, UnitFamily wrong) {
  PrintedRange out = stage;
  for (Printed* each : {&out.from, &out.to}) {
    const auto& right = each->in(other_family(wrong));
    auto& there = each->in(wrong);
    if (right && there) there = with_digits(*there, digits_like(right->quantity.in_base(), *there));
  }
  return out;
}

std::string with_stage(const SheetRow& row, std::size_t number, const PrintedRange& stage) {
  SheetRow with = row;
  with.stages[number] = stage;
  return cell_text(with, SheetColumn::stages);
}

void look_at_units(ProofDesk& desk, const SheetRow& row) {
  const FigureSpot spot{row.id, SheetField::stages};
  for (std::size_t i = 0; i < row.stages.size(); ++i) {
    const PrintedRange& stage = row.stages[i];
    const Printed& wrong = units_disagree(stage.from) ? stage.from : stage.to;
    if (!units_disagree(wrong)) continue;
    ProofFinding finding{"tightening", HowSure::certain, {spot}, {}, {}, {}};
    finding.arithmetic = {"proof.units_disagree", {figures("inch", shown(Printed{{}, wrong.inch})), figures("in_metric", shown_like(wrong.inch->quantity.in_base(), *wrong.metric)), figures("metric", shown(Printed{wrong.metric, {}})),
                                                   figures("in_inch", shown_like(wrong.metric->quantity.in_base(), *wrong.inch))}};
    for (const UnitFamily family : {UnitFamily::inch, UnitFamily::metric}) finding.likeliest.push_back({spot, with_stage(row, i, converted(stage, family))});
    return desk.ask(std::move(finding));
  }
}

void look_at_order(ProofDesk& desk, const SheetRow& row) {
  const FigureSpot spot{row.id, SheetField::stages};
  const PrintedRange* before = nullptr;
  for (const PrintedRange& stage : row.stages) {
    if (!is_torque(stage)) continue;
    const auto base = [](const PrintedRange& each) { return each.from.preferring(UnitFamily::metric)->quantity.in_base(); };
    if (before != nullptr && base(stage) < base(*before) && !desk.is_asked(spot)) {
      desk.ask({"tightening", HowSure::odd, {spot}, {"proof.stage_falls", {verbatim("what", row.what), figures("stage", shown(stage)), figures("before", shown(*before))}}, {}, {}});
    }
    before = &stage;
  }
}

/// The numbers of a sequence; none where it is in words.
std::vector<std::int64_t> numbers_of(const std::string& sequence) {
  std::vector<std::int64_t> out;
  if (sequence.find_first_not_of("0123456789-,;/> ") != std::string::npos) return out;
  bool inside = false;
  constexpr std::int64_t kMost = 1000;
  for (const char each : sequence) {
    const bool digit = each >= '0' && each <= '9';
    if (digit && !inside) out.push_back(0);
    if (digit) out.back() = std::min(kMost, out.back() * 10 + (each - '0'));
    inside = digit;
  }
  return out;
}

std::optional<std::int64_t> how_many(const SheetRow& row) {
  const TypedQuantity* figure = row.quantity.preferring(UnitFamily::metric);
  if (figure == nullptr || figure->quantity.dimension() != Dimension::count || !figure->quantity.value.is_whole()) return std::nullopt;
  return static_cast<std::int64_t>(figure->quantity.value.numerator());
}

void look_at_sequence(ProofDesk& desk, const SheetRow& row) {
  const std::vector<std::int64_t> numbers = numbers_of(row.sequence);
  if (numbers.size() < 2) return;
  std::map<std::int64_t, int> times;
  for (const std::int64_t each : numbers) ++times[each];
  const auto add = [&](HowSure sure, const char* key, std::vector<Argument> arguments) {
    arguments.insert(arguments.begin(), verbatim("what", row.what));
    desk.ask({"tightening", sure, {{row.id, SheetField::sequence}}, {key, std::move(arguments)}, {}, {}});
  };
  const auto twice = std::find_if(times.begin(), times.end(), [](const auto& each) { return each.second > 1; });
  std::int64_t missing = 1;
  while (times.contains(missing)) ++missing;
  const std::int64_t last = times.rbegin()->first;
  if (twice != times.end()) {
    add(HowSure::certain, missing < last ? "proof.sequence_twice_missing" : "proof.sequence_twice", {count("bolt", twice->first), count("missing", missing)});
  } else if (missing < last) {
    add(HowSure::certain, "proof.sequence_missing", {count("missing", missing)});
  } else if (const auto bolts = how_many(row); bolts && *bolts != last) {
    add(HowSure::odd, "proof.sequence_count", {count("named", last), count("bolts", *bolts)});
  }
}

}  // namespace

void find_tightening(ProofDesk& desk) {
  for (const SheetRow& row : desk.sheet.rows) {
    look_at_units(desk, row);
    look_at_order(desk, row);
    look_at_sequence(desk, row);
  }
}

}  // namespace fettle
