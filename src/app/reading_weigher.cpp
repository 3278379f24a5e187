#include "app/reading_weigher.h"

#include <algorithm>
#include <cmath>

#include "app/bench.h"
#include "app/group_mistakes.h"
#include "app/plan_sense.h"
#include "app/question_words.h"
#include "app/understand.h"
#include "form/plain_reason.h"

namespace fettle {
namespace {

const Kept<Reading>* reading_under(const std::vector<Kept<Reading>>& readings, const std::string& event) {
  const auto found = std::find_if(readings.begin(), readings.end(), [&](const auto& each) { return each.event == event; });
  return found == readings.end() ? nullptr : &*found;
}

/// While the hand is in the hole the answer has to be quick: of many readings, and of a place that was read more than a few times, only the
/// band speaks; the finished job is looked at whole. 64 readings are eight bores of eight places.
constexpr std::size_t kMostWhileReading = 64;
constexpr std::ptrdiff_t kMostOfAPlace = 3;

bool too_much_for_now(const SizeSet& group, const std::string& event) {
  if (group.sizes.size() > kMostWhileReading) return true;
  const auto it = std::find_if(group.sizes.begin(), group.sizes.end(), [&](const Size& each) { return each.reading == event; });
  if (it == group.sizes.end()) return true;
  const auto there = std::count_if(group.sizes.begin(), group.sizes.end(), [&](const Size& each) { return each.part == it->part && each.cell == it->cell; });
  return there > kMostOfAPlace;
}

/// As a mistake that is weighed over the band of a place, in mm.
std::vector<SupposedMistake> over_the_band(const std::vector<SupposedSize>& supposed, double size_mm) {
  std::vector<SupposedMistake> out;
  for (const SupposedSize& each : supposed) {
    SupposedMistake mistake{each.kind, each.prior, {}, each.kind->scale_um / 1000.0, toward_of(*each.kind)};
    if (each.shift_mm) mistake.meant = size_mm + *each.shift_mm;
    out.push_back(mistake);
  }
  return out;
}

}  // namespace

bool ReadingWeigher::weighs(std::size_t cell) const {
  const PartOnBench& part = sizes_.part();
  return part.feature != Feature::figure && part.layout.quantity(cell) == Dimension::length && part.layout.directions[cell % part.layout.directions.size()].counted;
}

bool ReadingWeigher::is_like(const std::string& id) const {
  const auto found = std::find_if(job_.parts.begin(), job_.parts.end(), [&](const auto& each) { return each.value.id == id; });
  return found != job_.parts.end() && found->value.kind == part_.kind && found->value.step.kind == part_.step.kind &&
         exact_length(found->value.step.offset) == exact_length(part_.step.offset);
}

std::vector<Kept<Reading>> ReadingWeigher::witnesses(const std::string& event, const std::optional<std::string>& without) const {
  std::vector<Kept<Reading>> out;
  for (const Kept<Reading>& each : job_.readings) {
    const bool counts = each.value.flag == ReadingFlag::none && each.event != event && each.event != without;
    if (counts && is_like(each.value.part)) out.push_back(each);
  }
  return out;
}

/// By the band: other places of the part under this setting, and the same place of its like.
PlaceKnown ReadingWeigher::place_known(const Reading& reading, const SizeThere& size, const std::vector<SizeThere>& others) const {
  const PartOnBench& part = sizes_.part();
  PlaceKnown out{part.feature, {}, {}, {}, {}, {}, {}, size.doubt, size.doubt_of_reading};
  add_limits(out);
  const double sign = part.feature == Feature::inside ? 1.0 : -1.0;
  const std::size_t directions = part.layout.directions.size();
  for (const SizeThere& each : others) {
    const Reading& other = reading_under(job_.readings, each.event)->value;
    if (each.part != part_.id) {
      if (other.station == reading.station && other.direction == reading.direction) out.like_parts.push_back(each.mm);
      continue;
    }
    if (other.setting != reading.setting || each.cell == size.cell || !part.layout.directions[each.cell % directions].counted) continue;
    out.same_part.push_back(each.mm);
    if (part.layout.stations[each.cell / directions].role != StationRole::reference) continue;
    if (!out.foot || sign * each.mm < sign * *out.foot) out.foot = each.mm;
  }
  return out;
}

void ReadingWeigher::add_limits(PlaceKnown& out) const {
  if (part_.step.kind == StepKind::unknown) return;
  const double offset = exact_length(part_.step.offset).value_or(Length()).millimetres();
  const MadeTo made = made_to(job_, part_.kind);
  if (made.smallest) out.new_low = made.smallest->millimetres() + offset;
  if (made.largest) out.new_high = made.largest->millimetres() + offset;
  for (const Kept<Limit>& each : job_.limits) {
    const Limit& limit = each.value;
    const bool size = limit.definition == "size-1" || limit.definition == "size-2";
    const auto bound = exact_length(limit.bound);
    if (limit.kind == part_.kind && limit.role == LimitRole::service && size && bound) out.service = bound->millimetres() + offset;
  }
}

std::optional<QuestionOfReading> ReadingWeigher::ask(const Kept<Reading>& reading, const SizeThere& size, const KnownSetting& setting,
                                                     const std::optional<std::string>& without) const {
  std::vector<Kept<Reading>> all = witnesses(reading.event, without);
  Problems of_others;
  std::vector<Kept<Reading>> with_this = all;
  with_this.push_back(reading);
  const SizeSet set = sizes_.set_of(with_this, of_others);
  std::vector<SizeThere> others;
  for (const Size& each : set.sizes) {
    if (each.reading != reading.event) others.push_back(size_there(each, set.sources));
  }
  const PlaceKnown known = place_known(reading.value, size, others);
  const TypingContext context = is_on_a_dial(setting) ? typing_on_dial(job_, setting.setting->plus_means) : typing_in(job_, Dimension::length);
  const Layout& layout = sizes_.part().layout;
  const Station& station = layout.stations[size.cell / layout.directions.size()];
  const std::vector<SupposedSize> supposed = supposed_sizes({reading.value.quantity, setting, context, sizes_.part(), size.cell, size.mm, may_lie_at_port(job_, station)});
  if (const auto asked = asked_again(size.mm, known, clear_slips(supposed, size.mm, is_on_a_dial(setting)))) {
    const Forecast forecast = forecast_of(known);
    const double chance = forecast.empty() ? 0.5 : weigh_reading(forecast, size.mm, over_the_band(supposed, size.mm)).chance();
    return question_of_band(*asked, sizes_.part().feature, setting, reading.value.quantity, chance);
  }
  return by_model(reading, with_this, set, setting);
}

std::optional<QuestionOfReading> ReadingWeigher::by_model(const Kept<Reading>& reading, const std::vector<Kept<Reading>>& all, const SizeSet& set,
                                                          const KnownSetting& setting) const {
  const auto rows = rows_read(set);
  std::vector<const PartOnBench*> parts;
  std::vector<std::string> ids;
  for (const PartOnBench& each : sizes_.parts()) {
    const auto read = rows.find(each.part.id);
    if (read == rows.end() || !estimated_together(each, sizes_.part()) || !plain_reason(each, read->second).empty()) continue;
    parts.push_back(&each);
    ids.push_back(each.part.id);
  }
  if (std::find(ids.begin(), ids.end(), part_.id) == ids.end()) return std::nullopt;
  const SizeSet of_group = sizes_of(set, ids);
  if (too_much_for_now(of_group, reading.event)) return std::nullopt;
  SizeSet before = of_group;
  std::erase_if(before.sizes, [&](const Size& each) { return each.reading == reading.event; });
  const MadeTo made = made_to(job_, part_.kind);
  const bool level_known = (made.smallest && made.largest) || made.standard;
  if (before.sizes.empty() && !level_known) return std::nullopt;  // nothing is known yet
  const KnownGroup known = know_group(parts, before.sizes.empty() ? of_group : before, {{part_.kind, made}});
  const GroupMistakes group(job_, all, parts, of_group, known, ShapeFreedom::usual);
  const auto asked = group.arriving(reading.event, questions_open(job_));
  if (!asked) return std::nullopt;
  return QuestionOfReading{asked->kind->id, sentence_of_asked(job_, sizes_.part(), *asked, &reading.value.quantity, &setting), asked->chance};
}

}  // namespace fettle
