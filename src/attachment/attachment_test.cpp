#include "attachment/attachment.h"

#include <gtest/gtest.h>

#include "attachment/file_sort.h"
#include "base/digest.h"

namespace fettle {
namespace {

using namespace std::string_literals;

const Place kPlace{"paper", std::nullopt, std::nullopt};

Problem refusal(std::string_view bytes) {
  const auto out = read_attachment(bytes, kPlace);
  EXPECT_FALSE(out.ok());
  EXPECT_EQ(out.problems().size(), 1U);
  return out.problems().front();
}

const std::string kPaper = "%PDF-1.4\n1 0 obj\n<</Title(SECRET)>>\nendobj\ntrailer<</Root 1 0 R>>\n%%EOF\n";

TEST(Attachment, APaperIsKeptAsItIs) {
  const auto out = read_attachment(kPaper, kPlace);
  ASSERT_TRUE(out.ok());
  EXPECT_EQ(out.value(), (Attachment{"application/pdf", kPaper, "", std::nullopt, std::nullopt, file_digest(kPaper), {}}));
}

TEST(Attachment, APaperWithoutItsEndIsRefused) {
  const std::size_t end = kPaper.find("%%EOF");
  for (std::size_t size = 5; size < end + 5; ++size) EXPECT_EQ(refusal(kPaper.substr(0, size)).code, "attachment.pdf_cut_off") << size;
  EXPECT_TRUE(has_pdf_end(kPaper + std::string(1000, ' ')));
  EXPECT_FALSE(has_pdf_end(kPaper + std::string(1024, ' ')));
}

TEST(Attachment, OtherPicturesAreNamed) {
  const std::vector<std::pair<std::string, std::string>> known = {
      {"\0\0\0\x18" "ftypheic\0\0\0\0mif1heic"s, "HEIC"}, {"\0\0\0\x18" "ftypmif1\0\0\0\0"s, "HEIC"}, {"\0\0\0\x18" "ftypavif\0\0\0\0"s, "AVIF"},
      {"RIFF\x10\0\0\0WEBPVP8 "s, "WebP"}, {"II*\0\x08\0\0\0"s, "TIFF"}, {"MM\0*\0\0\0\x08"s, "TIFF"}, {"GIF89a\1\0\1\0"s, "GIF"}, {"BM\x3a\0\0\0"s, "BMP"}};
  for (const auto& [bytes, format] : known) {
    EXPECT_EQ(refusal(bytes), (Problem{"attachment.other_picture", kPlace, {verbatim("format", format)}})) << format;
  }
}

TEST(Attachment, AllElseIsRefused) {
  EXPECT_EQ(refusal("").code, "attachment.empty");
  for (const std::string& bytes : {"PK\x03\x04"s, "<svg xmlns='x'/>"s, "MZ"s, "\xFF\xD8"s, " %PDF-1.4 %%EOF"s, "RIFF\x10\0\0\0WAVEfmt "s, "\0\0\0\x18" "ftypmp42"s}) {
    EXPECT_EQ(refusal(bytes).code, "attachment.other_type") << bytes;
  }
}

TEST(Attachment, TheLimitOfSizeIsKept) {
  const std::string most = kPaper + std::string(kMostAttachmentBytes - kPaper.size() - 5, ' ') + "%%EOF";
  EXPECT_TRUE(read_attachment(most, kPlace).ok());
  EXPECT_EQ(refusal(most + " "), (Problem{"attachment.too_large", kPlace, {count("most", 24)}}));
}

}  // namespace
}  // namespace fettle
