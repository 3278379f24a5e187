#include <gtest/gtest.h>

#include "attachment/attachment.h"
#include "attachment/jpeg.h"
#include "attachment/pictures_for_tests.h"
#include "attachment/png_library.h"

namespace fettle {
namespace {

std::string photo(std::uint32_t orientation) {
  return made::with_orientation(encode_jpeg(made::quarters(40, 24, made::kQuarters), 92, JpegColour::colour), orientation, true);
}

std::string drawing() {
  const Pixels pixels = made::quarters(12, 8, made::kQuarters);
  PngWriter writer;
  EXPECT_TRUE(writer.encode({12, 8, 8, PNG_COLOR_TYPE_RGB, nullptr, 0, nullptr, 0, nullptr}, pixels.bytes.data(), pixels.row()));
  return made::with_chunk(writer.bytes(), "eXIf", made::exif(6, true));
}

/// What holds of everything that is not refused: no place, and the same when it is handed in again.
void look_at(std::string_view bytes) {
  const auto out = read_attachment(bytes, {});
  if (!out.ok()) return;
  ASSERT_EQ(out.value().bytes.find(made::kSecret), std::string::npos);
  const auto again = read_attachment(out.value().bytes, {});
  ASSERT_TRUE(again.ok());
  ASSERT_EQ(again.value().hash, out.value().hash);
}

TEST(AttachmentDamage, CutAnywhereIsRefusedOrTold) {
  for (const std::uint32_t orientation : {1U, 6U}) {
    const std::string whole = photo(orientation);
    ASSERT_TRUE(read_attachment(whole, {}).value().notices.empty());
    for (std::size_t size = 0; size < whole.size(); ++size) {
      const std::string cut = whole.substr(0, size);
      look_at(cut);
      const auto out = read_attachment(cut, {});
      if (!out.ok()) continue;
      EXPECT_EQ(out.value().notices, (std::vector<Message>{{"notice.attachment_damaged", {}}})) << size;
    }
  }
}

TEST(AttachmentDamage, AHalfPhotoIsKeptWithANotice) {
  const std::string whole = photo(1);
  const auto out = read_attachment(whole.substr(0, whole.size() - 20), {});
  ASSERT_TRUE(out.ok());
  EXPECT_EQ(out.value().notices.size(), 1U);
  const made::Quarters seen = made::middles(decode_jpeg(out.value().bytes).value().pixels);
  EXPECT_LE(made::apart({seen[0], seen[1], seen[0], seen[1]}, {made::kQuarters[0], made::kQuarters[1], made::kQuarters[0], made::kQuarters[1]}), 4);
}

TEST(AttachmentDamage, AnyByteChangedDoesNoHarmAndPrintsNothing) {
  testing::internal::CaptureStdout();
  testing::internal::CaptureStderr();
  for (const std::string& whole : {photo(1), photo(6), drawing()}) {
    for (std::size_t at = 0; at < whole.size(); ++at) {
      for (const unsigned change : {0x01U, 0x80U, 0xFFU}) {
        std::string flipped = whole;
        flipped[at] = static_cast<char>(static_cast<unsigned char>(flipped[at]) ^ change);
        look_at(flipped);
      }
    }
  }
  EXPECT_EQ(testing::internal::GetCapturedStdout(), "");
  EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
}

TEST(AttachmentDamage, ACutPngIsRefused) {
  const std::string whole = drawing();
  ASSERT_TRUE(read_attachment(whole, {}).ok());
  for (std::size_t size = 0; size < whole.size(); ++size) EXPECT_FALSE(read_attachment(whole.substr(0, size), {}).ok()) << size;
}

}  // namespace
}  // namespace fettle
