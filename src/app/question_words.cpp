#include "app/question_words.h"

#include <algorithm>
#include <cmath>

#include "catalogue/catalogue.h"

namespace fettle {
namespace {

/// The contact of a bore gauge that drops into a port shows far more than everything beside it.
std::string code_of_band(const AskedAgain& asked, Feature feature, const KnownSetting& setting) {
  if (asked.slip) return std::string(slip_name(*asked.slip));
  const bool port = is_on_a_dial(setting) && feature == Feature::inside && asked.toward_wear;
  return port ? "port-edge" : "far-off";
}

std::string word_of_band(const AskedAgain& asked, Feature feature) {
  const bool inside = feature == Feature::inside;
  switch (asked.why) {
    case OutOfBand::as_new: return inside ? "advice.out.as_new.inside" : "advice.out.as_new.outside";
    case OutOfBand::worn: return inside ? "advice.out.worn.inside" : "advice.out.worn.outside";
    case OutOfBand::apart: return asked.toward_wear == inside ? "advice.out.apart.larger" : "advice.out.apart.smaller";
  }
  return "";
}

}  // namespace

UnitId unit_shown(const Job& job) { return job.opened ? job.opened->value.shown_unit : UnitId::millimetre; }

std::string bench_figure(const Ratio& counts, UnitId unit, bool halves) { return in_unit(counts, unit, (unit == UnitId::inch ? 4 : 3) + (halves ? 1 : 0)); }

std::string size_figure(double mm, UnitId unit) {
  return bench_figure(Ratio(std::llround(mm * static_cast<double>(Length::kCountsPerMillimetre))), unit, false);
}

Argument typed_argument(const std::string& name, const TypedQuantity& typed) {
  if (!typed.side || typed.quantity.unit != UnitId::division) return verbatim(name, typed.text);
  const std::string sign = typed.side == NeedleSide::clockwise ? "↻" : "↺";
  const Ratio figure = absolute(typed.quantity.value);
  return list(name, {{"advice.needle", {decimal("figure", figure.decimal(figure.is_whole() ? 0 : 1)), verbatim("sign", sign)}}});
}

std::string word_of_slip(const std::string& mistake, const KnownSetting* setting) {
  const bool by_unit = mistake == "thimble-turn" || mistake == "thimble-line";
  const bool inch = setting != nullptr && setting->gauge->own_unit == UnitId::inch;
  return "advice.slip." + mistake + (!by_unit ? "" : inch ? ".in" : ".mm");
}

QuestionOfReading question_of_band(const AskedAgain& asked, Feature feature, const KnownSetting& setting, const TypedQuantity& typed, double chance) {
  const std::string code = code_of_band(asked, feature, setting);
  return {code,
          {"advice.asked", {typed_argument("text", typed), word("reason", word_of_band(asked, feature)), word("slip", word_of_slip(code, &setting))}},
          chance};
}

Message sentence_of_asked(const Job& job, const PartOnBench& part, const AskedReading& asked, const TypedQuantity* typed, const KnownSetting* setting) {
  const Argument slip = word("slip", word_of_slip(asked.kind->id, setting));
  const bool several = asked.kind->reach != MistakeReach::reading;
  if (asked.kind->reach == MistakeReach::setting) return {"advice.asked_setting", {verbatim("setting", asked.setting), slip}};
  if (several || typed == nullptr || !asked.shown_mm) {
    const std::size_t directions = part.layout.directions.size();
    const Argument station = station_argument("station", part.layout.stations[asked.cell / directions].id);
    if (asked.kind->reach == MistakeReach::station) return {"advice.asked_station", {verbatim("part", asked.part), station, slip}};
    return {"advice.asked_part", {verbatim("part", asked.part), slip}};
  }
  const double more = *asked.shown_mm - *asked.expected_mm;
  const char* key = more > 0.0 ? "advice.out.model.larger" : "advice.out.model.smaller";
  const Argument reason = list("reason", {{key, {decimal("amount", size_figure(std::abs(more), unit_shown(job)))}}});
  return {"advice.asked", {typed_argument("text", *typed), reason, slip}};
}

std::int64_t in_hundred(double chance) { return std::clamp(static_cast<std::int64_t>(chance * 100.0 + 0.5), std::int64_t{1}, std::int64_t{99}); }

namespace {

std::set<std::string> answered_with(const Job& job, std::initializer_list<QuestionAnswer> wanted) {
  std::set<std::string> out;
  for (const Kept<QuestionAnswered>& kept : job.answers) {
    const QuestionAnswered& each = kept.value;
    if (std::find(wanted.begin(), wanted.end(), each.answer) == wanted.end()) continue;
    for (const Kept<Reading>& reading : job.readings) {
      const Reading& at = reading.value;
      const bool same = at.part == each.part && at.station == each.station && at.direction == each.direction && at.setting == each.setting;
      if (same && at.quantity.text == each.reading) out.insert(reading.event);
    }
  }
  return out;
}

}  // namespace

std::set<std::string> said_to_stand(const Job& job) { return answered_with(job, {QuestionAnswer::stands, QuestionAnswer::agrees_with_first}); }

std::set<std::string> put_off(const Job& job) { return answered_with(job, {QuestionAnswer::later}); }

std::set<std::string> questions_open(const Job& job) {
  std::set<std::string> out = said_to_stand(job);
  out.merge(put_off(job));
  return out;
}

}  // namespace fettle
