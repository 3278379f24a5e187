#include "attachment/jpeg.h"

#include <gtest/gtest.h>

#include <set>

#include "attachment/attachment.h"
#include "attachment/jpeg_library.h"
#include "attachment/pictures_for_tests.h"
#include "base/digest.h"

namespace fettle {
namespace {

const Place kPlace{"bore.jpg", std::nullopt, std::nullopt};

/// Of a quarter's middle after compression at quality 92: flat blocks come back within two steps; the rest is room for rounding.
constexpr int kLoss = 4;

Attachment kept(std::string_view bytes) {
  auto out = read_attachment(bytes, kPlace);
  EXPECT_TRUE(out.ok());
  return std::move(out).value();
}

std::string code(std::string_view bytes) {
  const auto out = read_attachment(bytes, kPlace);
  return out.ok() ? "" : out.problems().front().code;
}

std::string plain(int width, int height) { return encode_jpeg(made::quarters(width, height, made::kQuarters), 92, JpegColour::colour); }

Pixels decoded(std::string_view jpeg) { return decode_jpeg(jpeg).value().pixels; }

/// The markers before the picture's bits, each with its segment passed over.
std::set<int> markers(std::string_view jpeg) {
  std::set<int> out;
  const auto byte = [&](std::size_t at) -> std::size_t { return static_cast<unsigned char>(jpeg.at(at)); };
  for (std::size_t at = 2; byte(at + 1) != 0xDA; at += 2 + byte(at + 2) * 256 + byte(at + 3)) {
    EXPECT_EQ(byte(at), 0xFFU);
    out.insert(static_cast<int>(byte(at + 1)));
  }
  return out;
}

// Tables (DQT, DHT), the frame (SOF0) and the one segment that every JPEG begins with (APP0).
const std::set<int> kBare = {0xDB, 0xC4, 0xC0, 0xE0};

TEST(Jpeg, KeepsThePictureAndNothingElse) {
  const std::string secret(made::kSecret);
  std::string taken = plain(48, 32);
  const Pixels before = decoded(taken);
  for (const int marker : {0xE0, 0xE2, 0xE3, 0xEC, 0xED, 0xEE, 0xEF, 0xFE}) {
    taken = made::with_segment(taken, static_cast<unsigned char>(marker), "Sort\0" + secret);
  }
  taken = made::with_segment(made::with_orientation(taken, 1, true), 0xE1, "xmp " + secret) + plain(16, 16) + secret;
  const Attachment out = kept(taken);
  EXPECT_EQ(out.type, "image/jpeg");
  EXPECT_EQ(out.bytes.find("SECRET"), std::string::npos);
  EXPECT_EQ(out.thumbnail.find("SECRET"), std::string::npos);
  EXPECT_EQ(out.bytes.find("Exif"), std::string::npos);
  EXPECT_EQ(markers(out.bytes), kBare);
  EXPECT_EQ(markers(out.thumbnail), kBare);
  EXPECT_EQ(decoded(out.bytes), before);  // without loss
  EXPECT_EQ(out.bytes, plain(48, 32));
  EXPECT_EQ(out.hash, file_digest(out.bytes));
  EXPECT_TRUE(out.notices.empty());
}

TEST(Jpeg, IsSetUprightFromAllEightOrientations) {
  for (int orientation = 1; orientation <= 8; ++orientation) {
    for (const bool lowest_first : {false, true}) {
      const Attachment out = kept(made::with_orientation(plain(64, 32), static_cast<std::uint32_t>(orientation), lowest_first));
      EXPECT_EQ(out.width, orientation < 5 ? 64 : 32);
      EXPECT_EQ(out.height, orientation < 5 ? 32 : 64);
      EXPECT_LE(made::apart(made::middles(decoded(out.bytes)), made::seen(orientation)), kLoss) << orientation;
      EXPECT_LE(made::apart(made::middles(decoded(out.thumbnail)), made::seen(orientation)), 2 * kLoss) << orientation;
      EXPECT_EQ(markers(out.bytes), kBare);
      EXPECT_EQ(out.bytes.find("SECRET"), std::string::npos);
      EXPECT_EQ(kept(out.bytes), out) << "what is kept is kept again as it is";
    }
  }
}

TEST(Jpeg, GreyStaysGrey) {
  const made::Quarters greys = {made::Colour{20, 20, 20}, made::Colour{90, 90, 90}, made::Colour{160, 160, 160}, made::Colour{240, 240, 240}};
  const std::string taken = encode_jpeg(made::quarters(32, 32, greys), 92, JpegColour::grey);
  EXPECT_EQ(kept(taken).bytes, taken);
  const Attachment out = kept(made::with_orientation(taken, 3, true));
  EXPECT_EQ(jpeg_header(out.bytes).value().channels, 1);
  EXPECT_LE(made::apart(made::middles(decoded(out.bytes)), {greys[3], greys[2], greys[1], greys[0]}), kLoss);
}

/// A JPEG as other programs write it: in passes, in printing colours, with coarse colour.
std::string written(const Pixels& pixels, J_COLOR_SPACE colours, bool in_passes) {
  JpegTrouble trouble;
  jpeg_compress_struct info{};
  info.err = &trouble.manager;
  unsigned char* bytes = nullptr;
  unsigned long size = 0;
  jpeg_create_compress(&info);
  jpeg_mem_dest(&info, &bytes, &size);
  info.image_width = static_cast<JDIMENSION>(pixels.width);
  info.image_height = static_cast<JDIMENSION>(pixels.height);
  info.input_components = static_cast<int>(pixels.step);
  info.in_color_space = colours;
  jpeg_set_defaults(&info);
  if (in_passes) jpeg_simple_progression(&info);
  jpeg_start_compress(&info, TRUE);
  std::vector<unsigned char> rows = pixels.bytes;
  for (std::size_t y = 0; y < info.image_height; ++y) {
    JSAMPROW row = rows.data() + y * pixels.row();
    jpeg_write_scanlines(&info, &row, 1);
  }
  jpeg_finish_compress(&info);
  std::string out(bytes, bytes + size);
  jpeg_destroy_compress(&info);
  std::free(bytes);
  return out;
}

TEST(Jpeg, InPassesAndWithCoarseColourLosesNothing) {
  const std::string taken = written(made::quarters(50, 37, made::kQuarters), JCS_RGB, true);
  const Attachment out = kept(taken);
  EXPECT_EQ(decoded(out.bytes), decoded(taken));
  EXPECT_EQ(markers(out.bytes), kBare);
  EXPECT_EQ(kept(out.bytes), out);
}

// A pass repeated sixty times costs little in the file and much in time.
TEST(Jpeg, ThousandsOfPassesAreRefused) {
  const std::string taken = written(made::quarters(16, 16, made::kQuarters), JCS_RGB, true);
  const std::size_t last = taken.rfind("\xFF\xDA");
  const std::string pass = taken.substr(last, taken.size() - 2 - last);
  std::string many = taken.substr(0, last);
  for (int i = 0; i < 60; ++i) many += pass;
  EXPECT_EQ(code(many + "\xFF\xD9"), "attachment.cannot_decode");
}

// Printing colours as such files hold them, 255 for no ink: white, cyan, black and red.
TEST(Jpeg, PrintingColoursBecomeThoseOfAScreen) {
  Pixels printed = room_for(32, 32, 4);
  const std::array<std::array<unsigned char, 4>, 4> inks = {
      {{255, 255, 255, 255}, {0, 255, 255, 255}, {255, 255, 255, 0}, {255, 0, 0, 255}}};
  for (std::size_t i = 0; i < printed.bytes.size(); ++i) {
    const std::size_t pixel = i / 4;
    printed.bytes[i] = inks.at((pixel % 32 >= 16 ? 1U : 0U) + (pixel >= 512 ? 2U : 0U)).at(i % 4);
  }
  const Attachment out = kept(written(printed, JCS_CMYK, false));
  const made::Quarters wanted = {made::Colour{255, 255, 255}, made::Colour{0, 255, 255}, made::Colour{0, 0, 0}, made::Colour{255, 0, 0}};
  EXPECT_LE(made::apart(made::middles(decoded(out.bytes)), wanted), 2 * kLoss);  // compressed twice, the first time at 75
  EXPECT_EQ(jpeg_header(out.bytes).value().channels, 3);
  EXPECT_EQ(kept(out.bytes), out);
}

TEST(Jpeg, BombsAreRefusedByTheirHeader) {
  const std::string small = plain(16, 16);
  EXPECT_EQ(code(made::with_jpeg_size(small, 65000, 65000)), "attachment.too_many_pixels");
  EXPECT_EQ(code(made::with_jpeg_size(small, 10000, 6001)), "attachment.too_many_pixels");
  // Few enough pixels, but more blocks than the file has bits.
  EXPECT_EQ(code(made::with_jpeg_size(small, 10000, 6000)), "attachment.cannot_decode");
  EXPECT_EQ(code(made::with_jpeg_size(small, 0, 16)), "attachment.cannot_decode");
}

// Noise that was compressed hard grows when it is set upright and compressed with care.
TEST(Jpeg, WhatWouldBeTooLargeOnceUprightIsRefused) {
  Pixels noise = room_for(5000, 3800, 3);
  std::uint32_t state = 1;
  for (unsigned char& each : noise.bytes) {
    state = state * 1664525U + 1013904223U;  // any numbers that differ will do
    each = static_cast<unsigned char>(state >> 24U);
  }
  const std::string hard = encode_jpeg(noise, 50, JpegColour::colour);
  ASSERT_LT(hard.size(), kMostAttachmentBytes);
  EXPECT_EQ(code(made::with_orientation(hard, 3, true)), "attachment.too_large");
}

TEST(Jpeg, AThumbnailOfALargePhotoHasTheStatedSide) {
  const Attachment out = kept(plain(1000, 700));
  const Pixels small = decoded(out.thumbnail);
  EXPECT_EQ(std::pair(small.width, small.height), std::pair(kThumbnailSide, 224));
  EXPECT_LE(made::apart(made::middles(small), made::kQuarters), 2 * kLoss);
}

}  // namespace
}  // namespace fettle
