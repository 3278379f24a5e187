#include "wire/bundle_manifest.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

const BundleManifest kManifest{"tern", 2, std::string(64, 'a'), {{"events.jsonl", 812, std::string(64, 'b')}}};

std::string first_code(const std::string& text) {
  const auto read = read_bundle_manifest(text, {"manifest.json", {}, {}});
  return read.ok() ? "" : read.problems().front().code;
}

std::string changed(std::string text, const std::string& old, const std::string& now) {
  const std::size_t at = text.find(old);
  EXPECT_NE(at, std::string::npos) << old;
  return text.replace(at, old.size(), now);
}

TEST(BundleManifest, ComesBackAsItWas) {
  const std::string text = bundle_manifest_json(kManifest);
  EXPECT_EQ(read_bundle_manifest(text, {}).value(), kManifest);
  EXPECT_NE(text.find("\"format\": \"fettle-bundle\""), std::string::npos);
}

TEST(BundleManifest, WhatItDoesNotKnowIsRefused) {
  const std::string text = bundle_manifest_json(kManifest);
  EXPECT_EQ(first_code(changed(text, "fettle-bundle", "other-bundle")), "wire.unknown_word");
  EXPECT_EQ(first_code(changed(text, "\"version\": 1", "\"version\": 2")), "wire.newer_version");
  EXPECT_EQ(first_code(changed(text, "\"version\": 1", "\"version\": 0")), "wire.out_of_range");
  EXPECT_EQ(first_code(changed(text, "\"job\"", "\"jobs\"")), "wire.missing_key");
  EXPECT_EQ(first_code(changed(text, "812", "\"812\"")), "wire.wrong_kind");
  EXPECT_EQ(first_code("{"), "wire.not_json");
}

TEST(BundleManifest, WhatTheStoreAddedIsOneLine) {
  const Accepted accepted{7, "2031-05-04T08:12:00.000000Z", std::string(64, 'a'), std::string(64, 'b')};
  const std::string line = accepted_json(accepted);
  EXPECT_EQ(line.find('\n'), std::string::npos);
  EXPECT_EQ(read_accepted(line, {}).value(), accepted);
  EXPECT_FALSE(read_accepted("{}", {}).ok());
}

}  // namespace
}  // namespace fettle
