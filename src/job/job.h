#pragma once

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
  std::vector<Kept<Setting>> settings;
  std::vector<Kept<FoundOut>> found_out;
  std::vector<Kept<Reading>> readings;            ///< current ones
  std::vector<Kept<Reading>> superseded_readings; ///< corrected or withdrawn: kept for ever, used for nothing
  std::vector<Kept<Limit>> limits;
  Rule rule;
  std::vector<Kept<FileAttached>> files;
  std::vector<Kept<EventWithdrawn>> withdrawn;     ///< that stand, in their order
};

}  // namespace fettle
