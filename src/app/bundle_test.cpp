#include "app/bundle.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>

#include "app/judge_job.h"
#include "app/record_on_bench.h"
#include "archive/archive.h"
#include "base/digest.h"
#include "wire/bundle_manifest.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

const std::string kJob = "tern-curlew-3";
const Place kPlace{"tern.zip", {}, {}};

/// The example with a paper attached.
struct Bench : RecordOnBench {
  Bench() {
    EXPECT_TRUE(take(read_folder(kExample).value()).ok());
    store.keep_file({paper, "application/pdf", "%PDF-1.4 a paper %%EOF", ""});
    EXPECT_TRUE(append(store, recorded(kJob), {FileAttached{paper, "application/pdf", "bill.pdf", "bore-1", ""}}, doing).ok());
  }
  std::string paper = file_digest("%PDF-1.4 a paper %%EOF");
};

/// Another record, whose clock goes otherwise.
struct Elsewhere {
  WoundClock clock;
  std::unique_ptr<Store> store = std::make_unique<MemoryStore>(clock);
};

/// As the command does it.
Result<TakenOver> take_over_bundle(Store& store, std::string_view bytes, const Place& place) {
  const Result<CheckedBundle> bundle = check_bundle(bytes, place);
  if (!bundle.ok()) return bundle.problems();
  return take_over_bundle(store, bundle.value());
}

std::string judged(Store& store) {
  return judgement_json(view_of(judge_job(open_recorded(store, kJob).value().job, {{}, usual_accuracy()}).value()));
}

TEST(Bundle, GoesFromStoreToStoreWithEqualBytesAndVerdicts) {
  Bench bench;
  const std::string first = make_bundle(bench.store, kJob).value();
  Elsewhere elsewhere;
  elsewhere.clock.at = "2040-01-01T00:00:00.000000Z";
  const TakenOver taken = take_over_bundle(*elsewhere.store, first, kPlace).value();
  EXPECT_EQ(taken.job, kJob);
  EXPECT_EQ(taken.fresh, static_cast<std::int64_t>(bench.store.events(kJob, 0).size()));
  EXPECT_EQ(taken.files, 1);
  EXPECT_TRUE(make_bundle(*elsewhere.store, kJob).value() == first) << "positions, times and hashes stay";
  EXPECT_TRUE(judged(*elsewhere.store) == judged(bench.store));
  EXPECT_EQ(take_over_bundle(*elsewhere.store, first, kPlace).value().fresh, 0) << "twice adds nothing";
  EXPECT_TRUE(elsewhere.store->faults().empty());
}

TEST(Bundle, APersonFindsAFolderInItThatJudgesTheSame) {
  Bench bench;
  const std::vector<PackedFile> files = unpack(make_bundle(bench.store, kJob).value(), kPlace).value();
  const auto text = [&](const std::string& name) {
    return std::find_if(files.begin(), files.end(), [&](const PackedFile& each) { return each.name == name; })->bytes;
  };
  RecordOnBench other;
  ASSERT_TRUE(other.take({"folder", text("folder/job.toml"), text("folder/readings.csv")}).ok());
  EXPECT_TRUE(judged(other.store) == judged(bench.store));
}

TEST(Bundle, ALaterBundleGoesOnWhereTheEarlierEnded) {
  Bench bench;
  Elsewhere elsewhere;
  ASSERT_TRUE(take_over_bundle(*elsewhere.store, make_bundle(bench.store, kJob).value(), kPlace).ok());
  const FindingSeen seen{{"bore-1", "score", FindingWeight::note, "", {}}};
  ASSERT_TRUE(append(bench.store, bench.recorded(kJob), {seen}, bench.doing).ok());
  EXPECT_EQ(take_over_bundle(*elsewhere.store, make_bundle(bench.store, kJob).value(), kPlace).value().fresh, 1);
}

TEST(Bundle, TwoLogsThatWentApartAreNotMixed) {
  Bench bench;
  Elsewhere elsewhere;
  const std::string common = make_bundle(bench.store, kJob).value();
  ASSERT_TRUE(take_over_bundle(*elsewhere.store, common, kPlace).ok());
  const FindingSeen here{{"bore-1", "score", FindingWeight::note, "", {}}};
  const FindingSeen there{{"bore-1", "crack", FindingWeight::condemns, "", {}}};
  ASSERT_TRUE(append(bench.store, bench.recorded(kJob), {here}, bench.doing).ok());
  ASSERT_TRUE(append(*elsewhere.store, open_recorded(*elsewhere.store, kJob).value(), {there}, bench.doing).ok());
  EXPECT_EQ(refused(take_over_bundle(*elsewhere.store, make_bundle(bench.store, kJob).value(), kPlace)), "store.went_apart");
  EXPECT_EQ(open_recorded(*elsewhere.store, kJob).value().job.findings.back().value.what, "crack");
}

TEST(Bundle, CutOffAnywhereItIsRefusedAndTheRecordStaysAsItWas) {
  Bench bench;
  const std::string whole = make_bundle(bench.store, kJob).value();
  Elsewhere elsewhere;
  for (std::size_t length = 0; length < whole.size(); length += 97) {
    EXPECT_FALSE(take_over_bundle(*elsewhere.store, std::string_view(whole).substr(0, length), kPlace).ok()) << length;
  }
  EXPECT_FALSE(take_over_bundle(*elsewhere.store, std::string_view(whole).substr(0, whole.size() - 1), kPlace).ok());
  EXPECT_TRUE(elsewhere.store->jobs().empty());
  EXPECT_TRUE(elsewhere.store->files().empty());
}

/// The bundle with one of its files changed by `change`, packed again as a person might.
template <class Change>
std::string repacked(const std::string& bundle, const Change& change) {
  std::vector<PackedFile> files = unpack(bundle, kPlace).value();
  change(files);
  return pack(files);
}

TEST(Bundle, WhatSomebodyChangedInItIsNamed) {
  Bench bench;
  const std::string whole = make_bundle(bench.store, kJob).value();
  const auto code = [&](const auto& change) { return refused(take_over_bundle(bench.store, repacked(whole, change), kPlace)); };
  const auto file = [](std::vector<PackedFile>& files, const std::string& name) -> PackedFile& {
    return *std::find_if(files.begin(), files.end(), [&](const PackedFile& each) { return each.name == name; });
  };
  EXPECT_EQ(code([](auto&) {}), "");
  EXPECT_EQ(code([&](auto& files) { file(files, "events.jsonl").bytes[40] = 'x'; }), "bundle.file_changed");
  EXPECT_EQ(code([&](auto& files) { std::erase_if(files, [](const auto& each) { return each.name == "events.jsonl"; }); }), "bundle.file_gone");
  EXPECT_EQ(code([&](auto& files) { std::erase_if(files, [](const auto& each) { return each.name == "manifest.json"; }); }), "bundle.no_manifest");
  EXPECT_EQ(code([&](auto& files) { files.push_back({"__notes/from-another-program", "x"}); }), "") << "what a desktop adds is passed over";
}

/// Changes a file and makes the manifest say so: somebody who knows how bundles are made.
TEST(Bundle, AForgedLogDoesNotHangTogether) {
  Bench bench;
  const std::string whole = make_bundle(bench.store, kJob).value();
  const auto forge = [&](const std::string& name, const std::function<void(std::string&)>& change) {
    return repacked(whole, [&](std::vector<PackedFile>& files) {
      BundleManifest manifest = read_bundle_manifest(files.front().bytes, {}).value();
      for (PackedFile& each : files) {
        if (each.name != name) continue;
        change(each.bytes);
        for (BundledFile& listed : manifest.files) {
          if (listed.name == name) listed = {name, static_cast<std::int64_t>(each.bytes.size()), file_digest(each.bytes)};
        }
      }
      files.front().bytes = bundle_manifest_json(manifest);
    });
  };
  const auto code = [&](const std::string& bundle) { return refused(take_over_bundle(bench.store, bundle, kPlace)); };
  const auto swap = [](const std::string& old, const std::string& now) {
    return [=](std::string& text) { text.replace(text.find(old), old.size(), now); };
  };
  EXPECT_EQ(code(forge("events.jsonl", swap("144 acw", "114 acw"))), "store.chain_broken");
  EXPECT_EQ(code(forge("events.jsonl", swap("Harbour", "Harvour"))), "store.chain_broken");
  EXPECT_EQ(code(forge("acceptance.jsonl", swap("2031", "2032"))), "store.chain_broken");
  EXPECT_EQ(code(forge("events.jsonl", [](std::string& text) { text.resize(text.rfind('\n', text.size() - 2) + 1); })), "bundle.lines");
  EXPECT_EQ(code(forge("attachments/" + bench.paper + ".pdf", swap("paper", "forge"))), "bundle.file_missing");
}

TEST(Bundle, AFileThatTheRecordLostIsNamed) {
  RecordOnBench bench;
  ASSERT_TRUE(bench.take(read_folder(kExample).value()).ok());
  ASSERT_TRUE(append(bench.store, bench.recorded(kJob), {FileAttached{std::string(64, 'a'), "application/pdf", "bill.pdf", {}, ""}}, bench.doing).ok());
  EXPECT_EQ(refused(make_bundle(bench.store, kJob)), "record.file_missing");
  EXPECT_EQ(refused(make_bundle(bench.store, "nobody's")), "record.no_such_job");
}

}  // namespace
}  // namespace fettle
