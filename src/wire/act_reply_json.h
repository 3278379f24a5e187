#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "wire/border_json.h"

namespace fettle {

// What the server answers to what a device sends (docs/HTTP.md). Sentences come in finished.

struct SaidQuestion {
  std::string code;
  std::string sentence;
  std::int64_t in_100;  ///< chance that it is a mistake
};
struct SaidOffer {
  std::string sentence;
  std::string event;
  std::string flag;
  std::string why;
};

struct SaidAct {
  std::string id;
  bool kept;
  std::int64_t position;            ///< of a kept one
  std::optional<std::string> said;
  std::optional<SaidQuestion> question;
  std::vector<SaidProblem> problems;  ///< of a refused one
};
struct KeptReply {
  std::int64_t position;  ///< where the log ends now
  std::vector<SaidAct> acts;
};
/// kept.schema.json
[[nodiscard]] std::string kept_json(const KeptReply& kept);

struct UnderstoodReply {
  std::optional<std::string> understood;
  std::vector<SaidProblem> problems;
  std::optional<SaidQuestion> question;
  std::optional<SaidOffer> offer;
  std::optional<std::string> spoken;
};
/// understood.schema.json
[[nodiscard]] std::string understood_json(const UnderstoodReply& understood);

/// new-engine.schema.json
[[nodiscard]] std::string new_engine_json(const std::string& job);

/// file.schema.json
[[nodiscard]] std::string kept_file_json(const std::string& hash, const std::string& event);

/// One line, for the stream: the log of the job went on to `position`, by what this device sent.
[[nodiscard]] std::string accepted_event_json(const std::string& job, std::int64_t position, const std::string& device);

}  // namespace fettle
