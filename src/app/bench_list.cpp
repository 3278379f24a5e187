#include "app/bench_list.h"

#include <algorithm>

#include "app/part_words.h"
#include "base/assertion.h"
#include "base/day.h"
#include "catalogue/catalogue.h"

namespace fettle {
namespace {

struct Opened {
  std::shared_ptr<const RecordedJob> recorded;
  std::shared_ptr<const JudgedJob> judged;  ///< or null
  std::string last_at;
  std::optional<std::string> read_next;
};

const EventEnvelope* last_reading(const RecordedJob& recorded, std::string& at) {
  for (std::size_t i = recorded.events.size(); i-- > 0;) {
    if (!std::holds_alternative<ReadingTaken>(recorded.events[i].payload)) continue;
    at = recorded.accepted[i].accepted_at;
    return &recorded.events[i];
  }
  return nullptr;
}

/// A fault of ours in one engine must not take the bench from all the others.
std::shared_ptr<const JudgedJob> judged_or_none(OpenJobs& jobs, const std::string& id) {
  try {
    const auto judged = jobs.judged(id);
    return judged.ok() ? judged.value() : nullptr;
  } catch (const InternalError&) {
    return nullptr;
  }
}

std::optional<GoOn> go_on_in(const Opened& opened, const Asking& asking) {
  std::string at;
  const EventEnvelope* last = last_reading(*opened.recorded, at);
  if (last == nullptr) return std::nullopt;
  std::string part = std::get<ReadingTaken>(last->payload).reading.part;
  auto plan = plan_round(*opened.recorded, opened.judged.get(), {part, {}, {}, false, asking});
  if (!plan.ok()) return std::nullopt;
  // Where the part is done, the hand goes on to the next.
  if (const auto& next = opened.read_next; next && !plan.value().next) {
    part = *next;
    plan = plan_round(*opened.recorded, opened.judged.get(), {part, {}, {}, false, asking});
    if (!plan.ok()) return std::nullopt;
  }
  const RoundPlan& round = plan.value();
  const Job& job = opened.recorded->job;
  GoOn out{job.id, name_of(job), part, where_message(round.part.part, round.count), {}, {}, {}};
  if (round.next) out.next = {"go_on.next", {list("place", {cell_message(round.part.layout, round.places[*round.next].cell)})}};
  const auto then = utc_seconds(at);
  const auto now = utc_seconds(asking.now);
  constexpr std::int64_t kSecondsPerMinute = 60;
  if (then && now && *now >= *then) out.left = {"go_on.left", {list("ago", {ago((*now - *then) / kSecondsPerMinute)})}};
  if (round.next && !round.setting) out.warning = {{"go_on.no_setting", {}}};
  if (round.next && round.setting) out.warning = round.closed ? std::vector<Message>{{"go_on.closed", {}}} : round.setting->why_stale;
  return out;
}

}  // namespace

Message cell_message(const Layout& layout, std::size_t cell) {
  const Argument station = station_argument("station", layout.stations[cell / layout.directions.size()].id);
  if (layout.directions.size() == 1) return {"cell_name.station", {station}};
  return {"cell_name.both", {station, direction_argument("direction", layout.directions[cell % layout.directions.size()].id)}};
}

Message where_message(const Part& part, std::size_t all) {
  if (all < 2) return part_message(part);
  return {"where_name", {part_argument("part", part), count("count", static_cast<std::int64_t>(all))}};
}

BenchList bench_list(Store& store, OpenJobs& jobs, const Asking& asking) {
  BenchList out;
  std::vector<std::pair<std::string, EngineOnBench>> engines;
  std::optional<Opened> last;
  std::string last_at;
  for (const std::string& id : store.jobs()) {
    const auto job = jobs.job(id);
    if (!job.ok()) {
      engines.emplace_back("", EngineOnBench{id, id, {{"engine_line.unreadable", {}}}, VerdictWord::not_judged});
      continue;
    }
    Opened opened{job.value(), judged_or_none(jobs, id), job.value()->accepted.back().accepted_at, {}};
    const WholeEngine whole = whole_engine(*opened.recorded, opened.judged.get(), asking);
    if (whole.read_next) opened.read_next = whole.read_next->part->id;
    engines.emplace_back(opened.last_at, EngineOnBench{id, name_of(opened.recorded->job), whole.line, whole.word});
    std::string at;
    if (last_reading(*opened.recorded, at) != nullptr && (!last || at > last_at)) {
      last = opened;
      last_at = at;
    }
  }
  std::stable_sort(engines.begin(), engines.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  for (auto& each : engines) out.engines.push_back(std::move(each.second));
  if (last) out.go_on = go_on_in(*last, asking);
  return out;
}

}  // namespace fettle
