#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "app/recorded_job.h"

namespace fettle {

/// So many bytes of a file are looked at: enough for read_attachment to say what is too large.
inline constexpr std::uint64_t kMostFileBytes = std::uint64_t{64} << 20U;

struct ToAttach {
  std::string bytes;
  std::string name;  ///< as the person's file is called, without its folder
  std::optional<std::string> part;
  std::string note;
};

struct Attached {
  std::string event;
  std::string hash;
  std::string type;
  std::int64_t size;             ///< bytes that are kept
  std::vector<Message> notices;  ///< what was done to it
};

/// Keeps a photo or a paper with the job; see read_attachment for what is kept of it. The bytes are stored once, however often they are
/// attached. The same bytes at the same part with the same note are attached once, as when an answer was lost: the event that stands is
/// given again. Problems: those of read_attachment; record.no_such_part.
[[nodiscard]] Result<Attached> attach_file(Store& store, const RecordedJob& to, const ToAttach& what, const Doing& doing);

}  // namespace fettle
