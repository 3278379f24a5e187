#include "app/setting_screens.h"

#include <algorithm>
#include <array>
#include <set>

#include "app/bench.h"
#include "app/part_words.h"

namespace fettle {
namespace {

/// As good as a person reads a needle, twice.
constexpr std::int64_t kNearDivisions = 2;

/// Ids that stand in the log, also those that were taken back: an id is never used again.
std::string unused_setting(const RecordedJob& recorded, const std::string& gauge) {
  std::set<std::string> used;
  std::size_t of_gauge = 0;
  for (const EventEnvelope& each : recorded.events) {
    const auto* made = std::get_if<SettingMade>(&each.payload);
    if (made == nullptr) continue;
    used.insert(made->setting.id);
    if (made->setting.gauge == gauge) ++of_gauge;
  }
  for (std::size_t n = of_gauge + 1;; ++n) {
    const std::string id = gauge + "-" + std::to_string(n);
    if (!used.contains(id)) return id;
  }
}

bool leaves_nothing(const Problem& problem) {
  constexpr std::array kFatal = {"app.set_unknown_gauge", "app.set_for_unknown", "app.set_not_a_comparison"};
  return std::find(kFatal.begin(), kFatal.end(), problem.code) != kFatal.end();
}

PartOnBench part_asked(const Job& job, const std::string& what_for) {
  if (const Part* part = part_of(job, what_for)) return on_bench(job, *part, catalogue());
  return on_bench(job, {what_for, what_for, "", {}, {StepKind::standard, {}, ""}, Condition::worn}, catalogue());
}

const Gauge* gauge_named(const Job& job, const std::string& id) {
  const auto found = std::find_if(job.gauges.begin(), job.gauges.end(), [&](const auto& each) { return each.value.id == id; });
  return found == job.gauges.end() ? nullptr : &found->value;
}

std::optional<KnownGauge> known(const Gauge& gauge) {
  Problems other;
  return take(know_gauge(gauge, catalogue().gauge_presets, place_of(gauge)), other);
}

/// Divisions clockwise of zero.
Ratio clockwise(const NeedlePlace& place) {
  return place.side == NeedleSide::anticlockwise ? -place.divisions : place.divisions;
}

/// On the dial, the short way round; straight where it is not known how many divisions a turn has.
Ratio apart(const Ratio& a, const Ratio& b, const std::optional<Ratio>& turn) {
  Ratio out = absolute(a - b);
  if (!turn) return out;
  // Not turn by turn: whoever types eighteen digits would wait for ever.
  const Ratio turns = out / *turn;
  out = out - Ratio(turns.numerator() / turns.denominator()) * *turn;
  return std::min(out, *turn - out);
}

}  // namespace

Result<SettingScreens> setting_screens(const RecordedJob& recorded, const SetGaugeAsked& asked) {
  const Job& job = recorded.job;
  Result<SettingUp> up = set_gauge(job, asked);
  if (!up.ok() && std::any_of(up.problems().begin(), up.problems().end(), leaves_nothing)) return up.problems();
  SettingScreens out{gauge_named(job, asked.gauge), asked.what_for, unused_setting(recorded, asked.gauge), part_asked(job, asked.what_for), {}, {}, nullptr, {}, {}, {}, {}, nullptr};
  out.pressed_in = out.gauge->pressed_in;
  out.wanted = size_to_set(job, asked);
  if (!up.ok() && asked.set) {
    // While it is still being typed, the screens stay as they are without it.
    out.problems = up.problems();
    up = set_gauge(job, {asked.gauge, asked.what_for, asked.size, asked.master});
    if (!up.ok()) out.problems.clear();
  }
  if (up.ok()) {
    out.up = std::move(up).value();
    out.master = gauge_named(job, out.up->master);
    if (!out.up->assembled) out.problems.push_back({"app.set_no_kit", {}, {verbatim("gauge", asked.gauge)}});
    const auto master = known(*out.master);
    if (master && master->zero_recorded && out.up->thimble) out.zero_error = master->zero_error;
  } else {
    out.problems = up.problems();
  }
  out.masters = masters_for(job, out.wanted);
  for (auto each = job.settings.rbegin(); each != job.settings.rend() && out.last == nullptr; ++each) {
    if (each->value.gauge == asked.gauge && each->value.master) out.last = &*each;
  }
  return out;
}

std::string_view proof_outcome_name(ProofOutcome outcome) {
  switch (outcome) {
    case ProofOutcome::right: return "right";
    case ProofOutcome::reversed: return "reversed";
    case ProofOutcome::half: return "half";
    case ProofOutcome::twice: return "twice";
    case ProofOutcome::other: return "other";
  }
  return "";
}

Result<ProofFound> prove_setting(const Job& job, const ProofAsked& asked) {
  const Result<SettingUp> up = set_gauge(job, asked.setting);
  if (!up.ok()) return up.problems();
  const SettingUp& from = up.value();
  if (!from.proof || !from.pressed_in) return Problem{"app.proof_none", {}, {verbatim("gauge", asked.setting.gauge)}};
  std::optional<DecimalMark> mark;
  if (job.opened) mark = job.opened->value.decimal_mark;
  // The key beside the number gives the side, unless the text has one.
  const auto typed = read_quantity(asked.shows, {UnitId::division, Dimension::divisions, mark, {}, true, NeedleSide::clockwise}, {});
  if (!typed.ok()) return typed.problems();
  Ratio shows = typed.value().quantity.value;
  if (asked.side) shows = *asked.side == NeedleSide::clockwise ? absolute(shows) : -absolute(shows);
  std::optional<Ratio> turn;
  if (from.turn) turn = from.turn->ratio() / from.division.ratio();
  const NeedleProof& proof = *from.proof;
  const std::array<std::pair<ProofOutcome, const NeedleBetween*>, 4> places = {{{ProofOutcome::right, &proof.right}, {ProofOutcome::reversed, &proof.reversed},
                                                                               {ProofOutcome::half, &proof.half}, {ProofOutcome::twice, &proof.twice}}};
  ProofOutcome outcome = ProofOutcome::other;
  for (const auto& [each, place] : places) {
    if (outcome == ProofOutcome::other && apart(shows, clockwise(place->exact), turn) <= Ratio(kNearDivisions)) outcome = each;
  }
  return ProofFound{outcome, proof, from.division, *from.pressed_in};
}

}  // namespace fettle
