#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "store/store.h"

namespace fettle {

/// A job in one file that any other record can take over, and any person can open: events.jsonl (the log, each line as accepted),
/// acceptance.jsonl (what the store added to each), attachments/<hash> and thumbnails/<hash> with the endings of their types, folder/ (job.toml
/// and readings.csv as a person could write them, as a courtesy) and manifest.json (every other file with its hash). The same job gives the
/// same bytes. Problems: those of open_recorded; record.file_missing; those of the archive.
[[nodiscard]] Result<std::string> make_bundle(Store& store, const std::string& job);

/// What check_bundle takes and make_bundle makes at most: all files of an archive, and its own notes on each.
inline constexpr std::uint64_t kMostBundleBytes = std::uint64_t{1} << 32U;

struct TakenOver {
  std::string job;
  std::int64_t fresh;  ///< events that were new
  std::int64_t there;
  std::int64_t files;  ///< in the bundle
};

/// A bundle that hangs together: what it says of itself holds, and its log is a job.
struct CheckedBundle {
  std::string job;
  std::vector<AcceptedEvent> events;
  std::vector<StoredFile> files;
};

/// Problems: those of unpack and of the manifest; bundle.no_manifest, .file_gone, .file_changed (every one), .lines (events and acceptances do
/// not belong together), .file_missing; those of recorded_from.
[[nodiscard]] Result<CheckedBundle> check_bundle(std::string_view bytes, const Place& place);

/// Takes a bundle into the record, all or nothing: positions, times and hashes stay as they were. Problems: those of Store::take_over.
[[nodiscard]] Result<TakenOver> take_over_bundle(Store& store, const CheckedBundle& bundle);

}  // namespace fettle
