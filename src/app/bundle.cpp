#include "app/bundle.h"

#include <algorithm>
#include <map>
#include <set>

#include "app/recorded_job.h"
#include "archive/archive.h"
#include "base/digest.h"
#include "job/folder_text.h"
#include "wire/bundle_manifest.h"
#include "wire/event_json.h"

namespace fettle {
namespace {

constexpr const char* kManifest = "manifest.json";
constexpr const char* kEvents = "events.jsonl";
constexpr const char* kAcceptance = "acceptance.jsonl";

std::string ending_of(const std::string& type) {
  if (type == "image/jpeg") return ".jpg";
  if (type == "image/png") return ".png";
  return ".pdf";
}

std::string attachment_name(const std::string& hash, const std::string& type) { return "attachments/" + hash + ending_of(type); }
std::string thumbnail_name(const std::string& hash) { return "thumbnails/" + hash + ".jpg"; }

/// What the job's events attach, each once, by hash.
std::map<std::string, FileAttached> attached_by(const std::vector<EventEnvelope>& events) {
  std::map<std::string, FileAttached> out;
  for (const EventEnvelope& each : events) {
    if (const auto* attached = std::get_if<FileAttached>(&each.payload)) out.emplace(attached->hash, *attached);
  }
  return out;
}

std::vector<std::string_view> lines_of_text(std::string_view text) {
  std::vector<std::string_view> out;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    out.push_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return out;
}

/// The files of a bundle by name, once its manifest has been held against them.
class Bundle {
 public:
  Bundle(std::vector<PackedFile> files, const Place& place) : place_(place) {
    for (PackedFile& each : files) files_.emplace(each.name, std::move(each.bytes));
  }

  Result<std::vector<AcceptedEvent>> events() {
    Problems problems = check_files();
    if (!problems.empty()) return problems;
    const auto lines = lines_of_text(files_.at(kEvents));
    const auto acceptances = lines_of_text(files_.at(kAcceptance));
    if (lines.size() != acceptances.size() || lines.empty()) return Problem{"bundle.lines", place_, {}};
    std::vector<AcceptedEvent> out;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const Place at{kAcceptance, static_cast<int>(i) + 1, std::nullopt};
      auto accepted = take(read_accepted(acceptances[i], at), problems);
      auto event = take(read_event_id(lines[i], i), problems);
      if (accepted && event) out.push_back({{manifest_.job, *event, std::string(lines[i])}, std::move(*accepted)});
    }
    if (!problems.empty()) return problems;
    const bool whole = static_cast<std::int64_t>(out.size()) == manifest_.events && out.back().accepted.hash == manifest_.head;
    if (!whole) return Problem{"bundle.lines", place_, {}};
    return out;
  }

  /// Problems: bundle.file_missing.
  Result<std::vector<StoredFile>> attachments(const std::vector<EventEnvelope>& events) const {
    std::vector<StoredFile> out;
    Problems problems;
    for (const auto& [hash, attached] : attached_by(events)) {
      const auto bytes = files_.find(attachment_name(hash, attached.type));
      const auto thumbnail = files_.find(thumbnail_name(hash));
      if (bytes == files_.end() || file_digest(bytes->second) != hash) {
        problems.push_back({"bundle.file_missing", place_, {verbatim("name", attached.name), verbatim("hash", hash)}});
        continue;
      }
      out.push_back({hash, attached.type, bytes->second, thumbnail == files_.end() ? std::string() : thumbnail->second});
    }
    if (!problems.empty()) return problems;
    return out;
  }

 private:
  Problems check_files() {
    const auto text = files_.find(kManifest);
    if (text == files_.end()) return {Problem{"bundle.no_manifest", place_, {}}};
    Result<BundleManifest> manifest = read_bundle_manifest(text->second, {kManifest, std::nullopt, std::nullopt});
    if (!manifest.ok()) return manifest.problems();
    manifest_ = std::move(manifest).value();
    Problems problems;
    std::set<std::string> needed = {kEvents, kAcceptance};
    for (const BundledFile& each : manifest_.files) {
      needed.erase(each.name);
      const auto file = files_.find(each.name);
      if (file == files_.end()) problems.push_back({"bundle.file_gone", place_, {verbatim("name", each.name)}});
      const bool same = file == files_.end() || file_digest(file->second) == each.hash;
      if (!same) problems.push_back({"bundle.file_changed", place_, {verbatim("name", each.name)}});
    }
    for (const std::string& each : needed) problems.push_back({"bundle.file_gone", place_, {verbatim("name", each)}});
    return problems;
  }

  static Result<std::string> read_event_id(std::string_view line, std::size_t index) {
    const Result<EventEnvelope> event = read_event(line, {kEvents, static_cast<int>(index) + 1, std::nullopt});
    if (!event.ok()) return event.problems();
    return event.value().id;
  }

  const Place place_;
  std::map<std::string, std::string> files_;
  BundleManifest manifest_{};
};

/// A courtesy: where the events hold what no folder can say, there is none.
void add_folder(const std::vector<EventEnvelope>& events, std::vector<PackedFile>& files) {
  const Result<WrittenFolder> folder = written_folder(events);
  if (!folder.ok() || !folder.value().refused.empty()) return;
  files.push_back({"folder/job.toml", folder.value().texts.job_toml});
  files.push_back({"folder/readings.csv", folder.value().texts.readings_csv});
  for (const FolderSheet& each : folder.value().texts.sheets) files.push_back({"folder/" + each.file, each.text});
}

}  // namespace

Result<std::string> make_bundle(Store& store, const std::string& job) {
  const std::vector<AcceptedEvent> events = store.events(job, 0);
  if (events.empty()) return Problem{"record.no_such_job", {}, {verbatim("job", job)}};
  const Result<RecordedJob> recorded = recorded_from(events);
  if (!recorded.ok()) return recorded.problems();
  std::vector<PackedFile> files = {{kEvents, ""}, {kAcceptance, ""}};
  for (const AcceptedEvent& each : events) {
    files[0].bytes += each.envelope.line + "\n";
    files[1].bytes += accepted_json(each.accepted) + "\n";
  }
  Problems problems;
  for (const auto& [hash, attached] : attached_by(recorded.value().events)) {
    const auto file = store.file(hash);
    if (!file) {
      problems.push_back({"record.file_missing", {}, {verbatim("job", job), verbatim("name", attached.name), verbatim("hash", hash)}});
      continue;
    }
    files.push_back({attachment_name(hash, file->type), file->bytes});
    if (!file->thumbnail.empty()) files.push_back({thumbnail_name(hash), file->thumbnail});
  }
  if (!problems.empty()) return problems;
  add_folder(recorded.value().events, files);
  BundleManifest manifest{job, static_cast<std::int64_t>(events.size()), events.back().accepted.hash, {}};
  for (const PackedFile& each : files) manifest.files.push_back({each.name, static_cast<std::int64_t>(each.bytes.size()), file_digest(each.bytes)});
  files.insert(files.begin(), {kManifest, bundle_manifest_json(manifest)});
  if (Problems wrong = why_not_packed(files, {}); !wrong.empty()) return wrong;
  return pack(files);
}

Result<CheckedBundle> check_bundle(std::string_view bytes, const Place& place) {
  Result<std::vector<PackedFile>> files = unpack(bytes, place);
  if (!files.ok()) return files.problems();
  Bundle bundle(std::move(files).value(), place);
  Result<std::vector<AcceptedEvent>> events = bundle.events();
  if (!events.ok()) return events.problems();
  const Result<RecordedJob> recorded = recorded_from(events.value());
  if (!recorded.ok()) return recorded.problems();
  Result<std::vector<StoredFile>> attachments = bundle.attachments(recorded.value().events);
  if (!attachments.ok()) return attachments.problems();
  return CheckedBundle{recorded.value().job.id, std::move(events).value(), std::move(attachments).value()};
}

Result<TakenOver> take_over_bundle(Store& store, const CheckedBundle& bundle) {
  const std::vector<AcceptedEvent> there = store.events(bundle.job, 0);
  const std::size_t common = std::min(there.size(), bundle.events.size());
  const bool goes_on = std::equal(there.begin(), there.begin() + static_cast<std::ptrdiff_t>(common), bundle.events.begin());
  // Files first, so that an event which names one finds it; but none of a bundle that will be refused.
  for (const StoredFile& each : bundle.files) {
    if (goes_on) store.keep_file(each);
  }
  const Result<std::int64_t> fresh = store.take_over(bundle.events);
  if (!fresh.ok()) return fresh.problems();
  return TakenOver{bundle.job, fresh.value(), static_cast<std::int64_t>(bundle.events.size()) - fresh.value(), static_cast<std::int64_t>(bundle.files.size())};
}

}  // namespace fettle
