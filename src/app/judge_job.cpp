#include "app/judge_job.h"

#include <algorithm>
#include <iterator>
#include <map>

#include "app/bench.h"
#include "app/known_things.h"
#include "app/plan_sense.h"
#include "app/question_words.h"
#include "app/turn_missed.h"
#include "catalogue/catalogue.h"
#include "form/assembly.h"
#include "form/shape_estimate.h"
#include "limits/sheet_limits.h"

namespace fettle {
namespace {

std::vector<const PartOnBench*> members_of(const Part& assembly, const std::vector<PartOnBench>& parts) {
  std::vector<const PartOnBench*> out;
  for (const Member& member : *assembly.members) {
    out.push_back(find_part(parts, member.part));
    FETTLE_ASSERT(out.back() != nullptr, assembly.id + " " + member.part);
  }
  return out;
}

std::vector<PartOnBench> parts_on_bench(const Job& job, const Catalogue& known) {
  std::vector<PartOnBench> out;
  for (const Kept<Part>& kept : job.parts) out.push_back(on_bench(job, kept.value, known));
  for (PartOnBench& each : out) {
    if (each.part.members) each.layout = assembly_layout(each.layout, each.part, members_of(each.part, out));
  }
  return out;
}

/// The standard size that some limit of the part's kind states, at the part's present step; nothing at an unknown one.
GivenSizes given_sizes(const Job& job, const Part& part) {
  if (part.step.kind == StepKind::unknown) return {};
  const Length offset = exact_length(part.step.offset).value_or(Length());
  for (const Kept<Limit>& kept : job.limits) {
    if (kept.value.kind != part.kind || !kept.value.standard) continue;
    const auto standard = exact_length(kept.value.standard);
    if (standard) return {*standard + offset, *standard + offset};
  }
  return {};
}

std::optional<std::string> kind_read_under(const JudgedJob& judged, const std::string& setting) {
  for (const Size& size : judged.sizes.sizes) {
    if (size.setting != setting) continue;
    for (const PartOnBench& part : judged.parts) {
      if (part.part.id == size.part) return part.part.kind;
    }
  }
  return std::nullopt;
}

/// How far each master was set from what was wanted, as a share of the new tolerance of the parts read under that setting.
void tell_settings(const JudgedJob& judged, std::vector<Message>& notices) {
  const UnitId unit = judged.job.opened ? judged.job.opened->value.shown_unit : UnitId::millimetre;
  for (const MasterReport& master : judged.sizes.masters) {
    if (!master.wanted) continue;
    const Ratio off = (master.really_set - *master.wanted).ratio();
    std::vector<Argument> arguments = {verbatim("setting", master.setting),
                                       length_argument("set", master.really_set.ratio(), unit, fine_decimals(unit)),
                                       length_argument("wanted", master.wanted->ratio(), unit, fine_decimals(unit)),
                                       length_argument("off", absolute(off), UnitId::micrometre, 1),
                                       word("way", off.sign() < 0 ? "way.under" : "way.over")};
    const auto kind = kind_read_under(judged, master.setting);
    const auto tolerance = kind ? new_tolerance(judged.job, *kind) : std::nullopt;
    std::string key = off.sign() == 0 ? "notice.set_exactly" : "notice.set_off";
    if (off.sign() != 0 && tolerance) {
      key = "notice.set_off_tolerance";
      arguments.push_back(decimal("percent", (absolute(off) * Ratio(100) / *tolerance).decimal(0), "%"));
      arguments.push_back(length_argument("tolerance", *tolerance, unit, fine_decimals(unit)));
    }
    notices.push_back({key, arguments});
    if (master.nearest && absolute((*master.nearest - *master.wanted).ratio()) < absolute(off)) {
      arguments.push_back(length_argument("nearest", master.nearest->ratio(), unit, fine_decimals(unit)));
      notices.push_back({"notice.nearer_setting", std::move(arguments)});
    }
  }
}

MeasuredGroup measure(const GroupToMeasure& from, const Catalogue& known) {
  MeasuredGroup out;
  Measuring measuring(known.definitions);
  for (std::size_t p = 0; p < from.group.parts.size(); ++p) {
    const PartOnBench& part = from.group.parts[p];
    const PartEstimate& estimate = from.group.estimates[p];
    auto measured = measuring.of(part, estimate, from.given[p]);
    out.measured.insert(out.measured.end(), std::make_move_iterator(measured.begin()), std::make_move_iterator(measured.end()));
    if (part.feature != Feature::figure) out.shapes.push_back(part_shape(part, estimate, from.group.sources, from.unit));
  }
  return out;
}

/// Every part as measured under every definition, and its shape in words.
void measure_all(JudgedJob& out, const Catalogue& known, JobMemory& memory) {
  const UnitId unit = out.job.opened ? out.job.opened->value.shown_unit : UnitId::millimetre;
  for (const GroupEstimate& group : out.groups) {
    GroupToMeasure one{group_on_bench(group, out.parts), {}, unit};
    for (const PartOnBench& part : one.group.parts) one.given.push_back(given_sizes(out.job, part.part));
    const auto made = memory.measured.of(std::move(one), [&](const GroupToMeasure& from) { return measure(from, known); });
    out.measured.insert(out.measured.end(), made->measured.begin(), made->measured.end());
    out.shapes.insert(out.shapes.end(), made->shapes.begin(), made->shapes.end());
  }
}

/// Rows of sheets that were meant to judge and give no limit.
void tell_unused_rows(const Job& job, const Catalogue& known, std::vector<Message>& notices) {
  for (const Kept<SheetEntered>& kept : job.sheets) {
    for (const UnusedRow& row : limits_of(kept.value.of, {}, known).unused) {
      if (row.why != RowUnused::no_characteristic && row.why != RowUnused::no_definition && row.why != RowUnused::refused) continue;
      notices.push_back({"sheet_limits.unused", {verbatim("row", kept.value.sheet + "." + row.row), word("why", "sheet_limits.unused." + std::string(row_unused_name(row.why)))}});
    }
  }
}

}  // namespace

void JobMemory::next_round() {
  estimates.next_round();
  verdicts.groups.next_round();
  verdicts.joints.next_round();
  measured.next_round();
}

Result<JudgedJob> judge_job(const Job& job, const JudgeOptions& options) {
  JobMemory own;
  JobMemory& memory = options.memory != nullptr ? *options.memory : own;
  const Catalogue& known = catalogue();
  if (Problems unknown = unknown_things(job, known); !unknown.empty()) return unknown;
  JudgedJob out{job, parts_on_bench(job, known), {}, {}, {}, {}, {}, {}, {}, {}};
  Gauged gauged = sizes_from({out.parts, job.gauges, job.settings, job.readings, job.found_out, known.gauge_presets, known.temperature,
                              gauge_expansion(known), &job.studies, &job.readers});
  if (!gauged.problems.empty()) return std::move(gauged.problems);
  out.sizes = std::move(gauged.set);
  out.notices = std::move(gauged.notices);
  const bool everything = options.detail != JudgeDetail::verdicts;
  if (everything) tell_settings(out, out.notices);
  if (everything) tell_unused_rows(job, known, out.notices);
  std::map<std::string, MadeTo> made;
  for (const PartOnBench& part : out.parts) made.try_emplace(part.part.kind, made_to(job, part.part.kind));
  out.groups = estimate_groups(out.parts, out.sizes, made, memory.estimates);
  borrow_places(out.parts, out.groups);
  if (everything) {
    for (Message& each : plan_sense(job, out.parts)) out.notices.push_back(std::move(each));
    const std::vector<Message> turns = turns_missed(job, out.groups);
    out.notices.insert(out.notices.end(), turns.begin(), turns.end());
    measure_all(out, known, memory);
  }
  const JudgeInput input{out.parts, out.groups, job.limits, job.findings, known.definitions,
                         options.rule.value_or(job.rule), options.accuracy, options.points, said_to_stand(job), &memory.verdicts};
  out.judgement = judge(input);
  if (options.detail == JudgeDetail::side_by_side) out.side_by_side = definitions_side_by_side(input);
  if (everything) out.again = judged_again(out, options);
  return out;
}

JudgedView view_of(const JudgedJob& judged) {
  return {judged.job, judged.parts, judged.sizes, judged.notices, judged.groups, judged.measured, judged.shapes, judged.judgement,
          judged.side_by_side, judged.again};
}

}  // namespace fettle
