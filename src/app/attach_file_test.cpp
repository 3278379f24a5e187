#include "app/attach_file.h"

#include <gtest/gtest.h>

#include "app/record_on_bench.h"
#include "base/digest.h"

namespace fettle {
namespace {

const std::string kJob = "tern-curlew-3";
const std::string kPaper = "%PDF-1.4\n1 0 obj\n<<>>\nendobj\ntrailer\n<<>>\nstartxref\n0\n%%EOF\n";

struct Bench : RecordOnBench {
  Bench() { EXPECT_TRUE(take(read_folder(kExample).value()).ok()); }
  [[nodiscard]] Result<Attached> attach(const ToAttach& what) { return attach_file(store, recorded(kJob), what, doing); }
};

TEST(AttachFile, IsKeptOnceHoweverOftenItIsAttached) {
  Bench bench;
  const Attached first = bench.attach({kPaper, "bill.pdf", "bore-1", "the shop's bill"}).value();
  EXPECT_EQ(first.hash, file_digest(kPaper));
  EXPECT_EQ(first.type, "application/pdf");
  const Attached second = bench.attach({kPaper, "again.pdf", std::nullopt, ""}).value();
  EXPECT_NE(first.event, second.event);
  EXPECT_EQ(bench.store.files().size(), 1U);
  const Job job = bench.recorded(kJob).job;
  ASSERT_EQ(job.files.size(), 2U);
  EXPECT_EQ(job.files[0].value.name, "bill.pdf");
  EXPECT_EQ(job.files[0].value.part, "bore-1");
  EXPECT_EQ(job.files[0].event, first.event);
  EXPECT_EQ(bench.store.file(first.hash)->bytes, kPaper);
}

TEST(AttachFile, WhatIsSentAgainIsAttachedOnceUntilItIsTakenBack) {
  Bench bench;
  const Attached first = bench.attach({kPaper, "image.pdf", "bore-1", "top"}).value();
  const std::size_t events = bench.store.events(kJob, 0).size();
  const Attached again = bench.attach({kPaper, "image (1).pdf", "bore-1", "top"}).value();
  EXPECT_EQ(again.event, first.event) << "the answer was lost";
  EXPECT_EQ(again.hash, first.hash);
  EXPECT_EQ(again.size, first.size);
  EXPECT_EQ(bench.store.events(kJob, 0).size(), events);
  EXPECT_NE(bench.attach({kPaper, "image.pdf", "bore-2", "top"}).value().event, first.event) << "another part";
  EXPECT_NE(bench.attach({kPaper, "image.pdf", "bore-1", "oil at the foot"}).value().event, first.event) << "other words";
  ASSERT_TRUE(append(bench.store, bench.recorded(kJob), {EventWithdrawn{first.event, "blurred"}}, bench.doing).ok());
  EXPECT_NE(bench.attach({kPaper, "image.pdf", "bore-1", "top"}).value().event, first.event);
}

TEST(AttachFile, WhatIsNoPhotoAndNoPaperLeavesTheRecordAsItWas) {
  Bench bench;
  const std::size_t before = bench.store.events(kJob, 0).size();
  EXPECT_EQ(refused(bench.attach({"Dear Sir", "letter.pdf", std::nullopt, ""})), "attachment.other_type");
  const auto both = bench.attach({"", "x.jpg", "bore-9", ""});
  ASSERT_FALSE(both.ok());
  EXPECT_EQ(both.problems().size(), 2U) << "all at once: no such part, and an empty file";
  EXPECT_EQ(bench.store.events(kJob, 0).size(), before);
  EXPECT_TRUE(bench.store.files().empty());
}

}  // namespace
}  // namespace fettle
