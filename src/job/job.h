#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/kept.h"
#include "job/events.h"

namespace fettle {

/// Everything known about one rebuild: the fold of its events. Every item keeps the id of the event that made it.
struct Job {
  std::string id;
  std::optional<Kept<JobOpened>> opened;
  std::optional<Kept<EngineDescribed>> engine;
  std::vector<Kept<LayoutChosen>> layouts;
  std::vector<Kept<Part>> parts;
  std::vector<Kept<Finding>> findings;
  std::vector<Kept<Gauge>> gauges;
  std::vector<Kept<Setting>> settings;             ///< with what was seen later of their zeros and temperatures, see fold.h
  std::vector<Kept<ZeroLooked>> zero_looks;        ///< in the order they came
  std::vector<Kept<TemperaturesTaken>> temperatures;
  std::vector<Kept<FoundOut>> found_out;
  std::vector<Kept<StudiedGauge>> studies;         ///< of each gauge and person the last
  std::vector<Kept<Reading>> readings;            ///< current ones
  std::vector<Kept<Reading>> superseded_readings; ///< corrected or withdrawn: kept for ever, used for nothing
  std::vector<Kept<Limit>> limits;                ///< entered by themselves, then those of the sheets, see limits_of_sheets.h
  std::vector<Kept<SheetEntered>> sheets;         ///< the last version of each, in the order of their first
  std::vector<Kept<SheetEntered>> earlier_sheets; ///< versions that were replaced: kept for ever, judged by nothing
  std::map<std::string, std::string> readers;     ///< who entered a reading, by its event, where anything is said of it
  Rule rule;
  std::vector<Kept<FileAttached>> files;
  std::vector<Kept<VerdictTaken>> taken;           ///< of each part, and of each limit of it, the last
  std::vector<Kept<StepSeen>> steps_seen;          ///< the parts have them already, see fold.h
  std::vector<Kept<StripStepAnswered>> strip_answers;  ///< of each step of taking apart, the last
  std::vector<Kept<PartsReady>> ready;
  std::vector<Kept<QuestionAnswered>> answers;         ///< to questions about readings: of each reading, the last
  std::vector<Kept<EventWithdrawn>> withdrawn;     ///< that stand, in their order
  bool operator==(const Job&) const = default;
};

}  // namespace fettle
