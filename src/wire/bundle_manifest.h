#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "store/accepted.h"

namespace fettle {

/// A file of a bundle.
struct BundledFile {
  std::string name;
  std::int64_t size;  ///< bytes
  std::string hash;   ///< file_digest
  bool operator==(const BundledFile&) const = default;
};

/// What a bundle says of itself: bundle-manifest.schema.json.
struct BundleManifest {
  std::string job;
  std::int64_t events;
  std::string head;                ///< hash of the last event
  std::vector<BundledFile> files;  ///< all but the manifest
  bool operator==(const BundleManifest&) const = default;
};

[[nodiscard]] std::string bundle_manifest_json(const BundleManifest& manifest);
/// Problems: those of a text that is no JSON; wire.wrong_kind, .missing_key, .unknown_key, .out_of_range; wire.newer_version (alone).
[[nodiscard]] Result<BundleManifest> read_bundle_manifest(std::string_view text, const Place& place);

/// What the store added to an event, one line of JSON: position, accepted_at, previous, hash.
[[nodiscard]] std::string accepted_json(const Accepted& accepted);
[[nodiscard]] Result<Accepted> read_accepted(std::string_view line, const Place& place);

}  // namespace fettle
