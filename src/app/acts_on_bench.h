#pragma once

#include "app/do_acts.h"
#include "app/new_engine.h"
#include "app/record_on_bench.h"
#include "base/assertion.h"
#include "text/sentence.h"
#include "wire/event_json.h"

// For the tests of app and server: the invented engine "Linnet 4" of four bores and five mains, made by acts alone.
namespace fettle {

struct ActsOnBench {
  WoundClock clock;
  MemoryStore store{clock};
  OpenJobs jobs{store};
  std::int64_t sequence = 0;
  std::string job;

  ActsOnBench() : job(new_engine(store, engine("Linnet 4")).value()) {}

  [[nodiscard]] std::string next_id() {
    std::string number = std::to_string(++sequence);
    return std::string(32 - number.size(), 'a') + number;
  }
  [[nodiscard]] ActHead head() { return {next_id(), "d-1", sequence, "2031-05-04T10:12:05+02:00", "JB"}; }
  [[nodiscard]] Act act(ActBody body) { return {head(), std::move(body)}; }

  [[nodiscard]] NewEngineAct engine(const std::string& name) {
    return {head(), name, "four-cylinder petrol, invented", UnitId::millimetre, DecimalMark::point, {{"cylinder-bore", 4}, {"main-journal", 5}},
            "pulley end", NeedleSide::clockwise, "pulley end", "exhaust side"};
  }
  [[nodiscard]] Act limit(const std::string& id, const std::string& kind, const std::string& definition, LimitRole role, LimitSide side, const std::string& bound) {
    return act(LimitAct{id, kind, definition, role, side, bound, "Linnet notes (invented)", "first", "14", {}});
  }
  [[nodiscard]] std::vector<Act> limits() {
    return {limit("bore-low", "cylinder-bore", "size-3", LimitRole::fresh, LimitSide::at_least, "78.000 mm"),
            limit("bore-high", "cylinder-bore", "size-1", LimitRole::fresh, LimitSide::at_most, "78.020 mm"),
            limit("bore-service", "cylinder-bore", "size-1", LimitRole::service, LimitSide::at_most, "78.100 mm"),
            limit("main-low", "main-journal", "size-1", LimitRole::fresh, LimitSide::at_least, "51.981 mm"),
            limit("main-high", "main-journal", "size-3", LimitRole::fresh, LimitSide::at_most, "52.000 mm"),
            limit("main-service", "main-journal", "size-1", LimitRole::service, LimitSide::at_least, "51.950 mm")};
  }
  /// The gauges, and both set: "bg-1" for the bores, "m-1" for the mains.
  [[nodiscard]] std::vector<Act> set_up() {
    return {act(GaugeAct{"mic-in", "outside-micrometer-3-4-in", {}, {}, {}, "3.0001 in", "3.0000 in", {}}),
            act(GaugeAct{"bg", "dial-bore-gauge-0-001-mm", {}, "0.2 mm", NeedleSide::clockwise, {}, {}, {}}),
            act(GaugeAct{"mic", "outside-micrometer-50-75-mm", {}, {}, {}, "49.998 mm", "50.000 mm", {}}),
            act(SettingAct{"bg-1", "bg", "mic-in", "78.000 mm", "3.0709 in", std::vector<std::string>{"0", "1 acw", "0"}, {}, {}, {}, {}}),
            act(SettingAct{"m-1", "mic", {}, {}, {}, {}, {}, {}, {}, {}})};
  }
  [[nodiscard]] ReadingAct bore(const std::string& part, const std::string& station, const std::string& direction, const std::string& text) {
    return {part, station, direction, text, UnitId::division, "bg-1", "1", ++order_, {}, {}, {}, {}, {}, {}, {}};
  }
  [[nodiscard]] ReadingAct main(const std::string& part, const std::string& station, const std::string& direction, const std::string& text) {
    return {part, station, direction, text, UnitId::millimetre, "m-1", "1", ++order_, {}, {}, {}, {}, {}, {}, {}};
  }

  ActsDone send(const std::vector<Act>& acts) {
    const auto done = do_acts(jobs, job, acts);
    return done.value();
  }
  ActDone send(ActBody body) { return send(std::vector<Act>{act(std::move(body))}).acts.at(0); }
  void ready(bool with_limits = true) {
    if (with_limits) need_kept(send(limits()));
    need_kept(send(set_up()));
  }
  static void need_kept(const ActsDone& done) {
    for (const ActDone& each : done.acts) FETTLE_ASSERT(each.kept, sentence(each.problems.front(), Language::english));
  }
  /// A bore read all round but for one place, in the order of the hand: down one axis, up the other.
  void read_bore(const std::string& part, const std::vector<int>& thrust, const std::vector<int>& pin, const std::string& but_for = "") {
    const std::vector<std::string> stations = {"top", "mid", "bottom", "foot"};
    for (std::size_t i = 0; i < 4; ++i) {
      if (but_for != stations[i] + "/thrust") read_place(part, stations[i], "thrust", thrust[i]);
    }
    for (std::size_t i = 4; i-- > 0;) {
      if (but_for != stations[i] + "/pin") read_place(part, stations[i], "pin", pin[i]);
    }
  }
  void read_place(const std::string& part, const std::string& station, const std::string& direction, int divisions) {
    need_kept({0, {send(bore(part, station, direction, std::to_string(divisions) + " acw"))}});
  }
  [[nodiscard]] RecordedJob recorded() { return open_recorded(store, job).value(); }
  [[nodiscard]] const Job& now() {
    shown_ = jobs.job(job).value();
    return shown_->job;
  }

 private:
  std::int64_t order_ = 0;
  std::shared_ptr<const RecordedJob> shown_;
};

inline std::string english(const std::optional<Message>& message) { return message ? sentence(*message, Language::english) : "-"; }
inline std::string codes_of(const Problems& problems) {
  std::string out;
  for (const Problem& each : problems) out += (out.empty() ? "" : " ") + each.code;
  return out;
}

}  // namespace fettle
