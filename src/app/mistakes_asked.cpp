#include "app/mistakes_asked.h"

#include <algorithm>

#include "app/group_mistakes.h"
#include "app/part_words.h"
#include "app/question_words.h"
#include "app/reading_weigher.h"
#include "catalogue/catalogue.h"
#include "form/shape_group.h"

namespace fettle {
namespace {

class AskedOfJob {
 public:
  explicit AskedOfJob(const JudgedJob& judged) : judged_(judged), job_(judged.job) {}

  std::vector<MistakeAsked> run() {
    for (const GroupEstimate& group : judged_.groups) {
      if (group.shape) {
        by_group(*group.shape);
      } else {
        for (const PartEstimate& part : group.parts) by_places(part.part);
      }
    }
    return std::move(out_);
  }

 private:
  static ShapeFreedom freedom_of(const ShapeGroup& group) {
    const auto heaviest = std::max_element(group.assumptions.begin(), group.assumptions.end(), [](const auto& a, const auto& b) { return a.weight < b.weight; });
    return heaviest->freedom;
  }

  [[nodiscard]] const Kept<Reading>& reading_of(const std::string& event) const {
    const auto found = std::find_if(job_.readings.begin(), job_.readings.end(), [&](const auto& each) { return each.event == event; });
    FETTLE_ASSERT(found != job_.readings.end(), event);
    return *found;
  }

  [[nodiscard]] SettingAtHand at_hand(const std::string& setting) const {
    const auto found = std::find_if(job_.settings.begin(), job_.settings.end(), [&](const auto& each) { return each.value.id == setting; });
    FETTLE_ASSERT(found != job_.settings.end(), setting);
    Problems none;
    return setting_at_hand(job_, *found, none);
  }

  void by_group(const ShapeGroup& group) {
    std::vector<const PartOnBench*> parts;
    for (const std::string& id : group.parts) parts.push_back(find_part(judged_.parts, id));
    const SizeSet set = sizes_of(judged_.sizes, group.parts);
    const GroupMistakes mistakes(job_, job_.readings, parts, set, {group.knowledge, group.origin}, freedom_of(group));
    for (const AskedReading& each : mistakes.finished(said_to_stand(job_))) {
      const Kept<Reading>& first = reading_of(each.readings.front());
      const PartOnBench& part = *find_part(judged_.parts, each.part);
      const SettingAtHand setting = at_hand(each.setting);
      const TypedQuantity* typed = each.readings.size() == 1 ? &first.value.quantity : nullptr;
      MistakeAsked asked{each.readings, each.part, first.value.station, first.value.direction, each.setting, each.kind->id, each.chance,
                         each.shown_mm, each.expected_mm, each.expected_sd_mm, {}, sentence_of_asked(job_, part, each, typed, setting.known ? &*setting.known : nullptr), false};
      for (const auto& [kind, share] : each.by_kind) asked.by_kind.emplace_back(kind->id, share);
      add(std::move(asked));
    }
  }

  /// Of a part without a model of wear: each reading by the band of its place.
  void by_places(const std::string& id) {
    const auto kept = std::find_if(job_.parts.begin(), job_.parts.end(), [&](const auto& each) { return each.value.id == id; });
    if (kept == job_.parts.end() || kept->value.members) return;
    const PlaceSizes sizes(job_, kept->value);
    const ReadingWeigher weigher(job_, sizes, kept->value);
    for (const Size& size : judged_.sizes.sizes) {
      if (size.part != id || !weigher.weighs(size.cell) || said_to_stand(job_).contains(size.reading)) continue;
      const Kept<Reading>& reading = reading_of(size.reading);
      const SettingAtHand setting = at_hand(reading.value.setting);
      if (!setting.known) continue;
      const SizeThere there = size_there(size, judged_.sizes.sources);
      const auto asked = weigher.ask(reading, there, *setting.known, {});
      if (!asked) continue;
      add({{size.reading}, id, reading.value.station, reading.value.direction, reading.value.setting, asked->code, asked->chance, there.mm, {}, {}, {}, asked->sentence, false});
    }
  }

  void add(MistakeAsked asked) {
    const std::set<std::string> later = put_off(job_);
    asked.put_off = std::any_of(asked.readings.begin(), asked.readings.end(), [&](const std::string& each) { return later.contains(each); });
    out_.push_back(std::move(asked));
  }

  const JudgedJob& judged_;
  const Job& job_;
  std::vector<MistakeAsked> out_;
};

}  // namespace

std::vector<MistakeAsked> mistakes_asked(const JudgedJob& judged) { return AskedOfJob(judged).run(); }

AskedAgainPage asked_again_page(const JudgedJob& judged, const std::vector<MistakeAsked>& asked, std::int64_t position, Language language) {
  const Job& job = judged.job;
  const UnitId unit = unit_shown(job);
  AskedAgainPage out{job.id, position, std::string(unit_definition(unit).symbol), {}, {}};
  out.head = asked.empty() ? word_for("asked_again.none", language) : sentence(Message{"asked_again.head", {count("questions", static_cast<std::int64_t>(asked.size()))}}, language);
  const auto figure = [&](const std::optional<double>& mm) { return mm ? std::optional(size_figure(*mm, unit)) : std::nullopt; };
  for (const MistakeAsked& each : asked) {
    AskedAgainPage::Question question{{}, each.part, {}, each.mistake, word_for("advice.why." + each.mistake, language), sentence(each.sentence, language),
                                      in_hundred(each.chance), figure(each.shown_mm), figure(each.expected_mm), figure(each.expected_sd_mm), {}, each.put_off};
    if (const Part* part = part_of(job, each.part)) question.part_name = sentence(part_message(*part), language);
    question.place = sentence(Message{"form.place", {station_argument("station", each.station), direction_argument("direction", each.direction)}}, language);
    for (const std::string& event : each.readings) {
      const auto kept = std::find_if(job.readings.begin(), job.readings.end(), [&](const auto& reading) { return reading.event == event; });
      const Reading& reading = kept->value;
      question.readings.push_back({event, reading.part, reading.station, reading.direction, reading.setting, reading.quantity.text});
    }
    for (const auto& [kind, share] : each.by_kind) {
      if (const auto in_100 = static_cast<std::int64_t>(share * 100.0 + 0.5); in_100 > 0) question.by_kind.emplace_back(kind, in_100);
    }
    out.questions.push_back(std::move(question));
  }
  return out;
}

}  // namespace fettle
