#include "wire/bundle_manifest.h"

#include "wire/event_json.h"
#include "wire/event_reader.h"
#include "wire/event_writer.h"

namespace fettle {
namespace json {

template <class Walk, Either<BundledFile> T>
void describe(Walk& walk, T& file) {
  auto& [name, size, hash] = file;
  walk("name", name);
  walk("size", size);
  walk("hash", hash);
}

template <class Walk, Either<BundleManifest> T>
void describe(Walk& walk, T& manifest) {
  auto& [job, events, head, files] = manifest;
  walk("job", job);
  walk("events", events);
  walk("head", head);
  walk("files", files);
}

template <class Walk, Either<Accepted> T>
void describe(Walk& walk, T& accepted) {
  auto& [position, accepted_at, previous, hash] = accepted;
  walk("position", position);
  walk("accepted_at", accepted_at);
  walk("previous", previous);
  walk("hash", hash);
}

}  // namespace json

namespace {

constexpr const char* kFormat = "fettle-bundle";
constexpr std::int64_t kVersion = 1;

}  // namespace

std::string bundle_manifest_json(const BundleManifest& manifest) {
  json::EventWriter walk;
  walk("format", std::string(kFormat));
  walk("version", kVersion);
  json::describe(walk, manifest);
  return std::move(walk).take().dump(json::kIndent) + "\n";
}

Result<BundleManifest> read_bundle_manifest(std::string_view text, const Place& place) {
  Problems problems;
  const auto node = json::read_line(text, place, problems);
  if (!node) return problems;
  const json::Spot spot{"", place, problems};
  json::EventReader reader(*node, spot);
  std::string format;
  std::int64_t version = 0;
  reader("format", format);
  reader("version", version);
  if (problems.empty() && format != kFormat) spot.inside("format").add("wire.unknown_word", {verbatim("word", format), verbatim("known", kFormat)});
  if (!problems.empty()) return problems;
  if (version > kVersion) {
    return Problem{"wire.newer_version", place, {verbatim("key", "version"), verbatim("type", kFormat), count("version", version), count("known", kVersion)}};
  }
  if (version < 1) spot.inside("version").add("wire.out_of_range", {verbatim("least", "1"), verbatim("most", std::to_string(kVersion))});
  BundleManifest out{};
  json::describe(reader, out);
  reader.finish();
  if (!problems.empty()) return problems;
  return out;
}

std::string accepted_json(const Accepted& accepted) {
  json::EventWriter walk;
  json::describe(walk, accepted);
  return std::move(walk).take().dump();
}

Result<Accepted> read_accepted(std::string_view line, const Place& place) {
  Problems problems;
  const auto node = json::read_line(line, place, problems);
  if (!node) return problems;
  json::EventReader reader(*node, json::Spot{"", place, problems});
  Accepted out{};
  json::describe(reader, out);
  reader.finish();
  if (!problems.empty()) return problems;
  return out;
}

}  // namespace fettle
