#include <gtest/gtest.h>

#include "attachment/attachment.h"
#include "attachment/jpeg.h"
#include "attachment/pictures_for_tests.h"
#include "attachment/png_library.h"
#include "attachment/png_picture.h"

namespace fettle {
namespace {

const Place kPlace{"bore.png", std::nullopt, std::nullopt};

Attachment kept(std::string_view bytes) {
  auto out = read_attachment(bytes, kPlace);
  EXPECT_TRUE(out.ok()) << out.problems().front().code;
  return std::move(out).value();
}

std::string code(std::string_view bytes) {
  const auto out = read_attachment(bytes, kPlace);
  return out.ok() ? "" : out.problems().front().code;
}

/// Everything that a PNG holds of its picture, by libpng.
struct Raw {
  Pixels pixels;
  int depth;
  int colour;
  std::vector<unsigned char> palette;
  std::vector<unsigned char> alpha;
  std::vector<int> transparent;
  bool operator==(const Raw&) const = default;
};

Raw raw(std::string_view bytes) {
  PngReader reader(bytes);
  EXPECT_TRUE(reader.read_header());
  PngShape shape = reader.shape();
  Raw out{room_for(static_cast<int>(shape.width), static_cast<int>(shape.height), reader.row() / shape.width), shape.depth, shape.colour, {}, {}, {}};
  EXPECT_TRUE(reader.decode(out.pixels.bytes.data()));
  shape = reader.shape();
  for (int i = 0; i < shape.palette_size; ++i) out.palette.insert(out.palette.end(), {shape.palette[i].red, shape.palette[i].green, shape.palette[i].blue});
  if (shape.alpha != nullptr) out.alpha.assign(shape.alpha, shape.alpha + shape.alpha_size);
  if (shape.transparent != nullptr) out.transparent = {shape.transparent->red, shape.transparent->green, shape.transparent->blue, shape.transparent->gray};
  return out;
}

/// A picture of one sort, its pixels a pattern that no two rows or columns share.
struct Sort {
  int depth;
  int colour;
  std::size_t step;
};
const std::vector<Sort> kSorts = {{1, PNG_COLOR_TYPE_GRAY, 1},        {2, PNG_COLOR_TYPE_GRAY, 1},       {4, PNG_COLOR_TYPE_GRAY, 1},
                                  {8, PNG_COLOR_TYPE_GRAY, 1},        {16, PNG_COLOR_TYPE_GRAY, 2},      {8, PNG_COLOR_TYPE_RGB, 3},
                                  {16, PNG_COLOR_TYPE_RGB, 6},        {1, PNG_COLOR_TYPE_PALETTE, 1},    {2, PNG_COLOR_TYPE_PALETTE, 1},
                                  {4, PNG_COLOR_TYPE_PALETTE, 1},     {8, PNG_COLOR_TYPE_PALETTE, 1},    {8, PNG_COLOR_TYPE_GRAY_ALPHA, 2},
                                  {16, PNG_COLOR_TYPE_GRAY_ALPHA, 4}, {8, PNG_COLOR_TYPE_RGB_ALPHA, 4},  {16, PNG_COLOR_TYPE_RGB_ALPHA, 8}};

Pixels pattern(const Sort& sort, int width, int height) {
  Pixels out = room_for(width, height, sort.step);
  const unsigned most = sort.depth < 8 ? (1U << static_cast<unsigned>(sort.depth)) - 1U : 255U;
  std::uint32_t state = 1;
  for (unsigned char& each : out.bytes) {
    state = state * 1664525U + 1013904223U;  // any numbers that differ will do
    each = static_cast<unsigned char>((state >> 24U) & most);
  }
  return out;
}

std::string written(const Sort& sort, const Pixels& pixels) {
  std::vector<png_color> palette;
  std::vector<png_byte> alpha;
  PngShape shape{static_cast<png_uint_32>(pixels.width), static_cast<png_uint_32>(pixels.height), sort.depth, sort.colour, nullptr, 0, nullptr, 0, nullptr};
  if (sort.colour == PNG_COLOR_TYPE_PALETTE) {
    for (int i = 0; i < 1 << sort.depth; ++i) palette.push_back({static_cast<png_byte>(i), static_cast<png_byte>(255 - i), 7});
    alpha = {0, 128};
    shape.palette = palette.data();
    shape.palette_size = static_cast<int>(palette.size());
    shape.alpha = alpha.data();
    shape.alpha_size = static_cast<int>(alpha.size());
  }
  PngWriter writer;
  EXPECT_TRUE(writer.encode(shape, pixels.bytes.data(), pixels.row()));
  return writer.bytes();
}

constexpr Sort kColour = {8, PNG_COLOR_TYPE_RGB, 3};

std::vector<std::string> chunks(std::string_view png) {
  std::vector<std::string> out;
  const auto byte = [&](std::size_t at) -> std::size_t { return static_cast<unsigned char>(png.at(at)); };
  for (std::size_t at = 8; at < png.size();) {
    out.emplace_back(png.substr(at + 4, 4));
    at += 12 + (byte(at) << 24U) + (byte(at + 1) << 16U) + (byte(at + 2) << 8U) + byte(at + 3);
  }
  return out;
}

TEST(Png, KeepsThePictureAndNothingElse) {
  const std::string secret(made::kSecret);
  const std::string before = written(kColour, pattern(kColour, 20, 10));
  std::string taken = before;
  for (const char* name : {"tEXt", "zTXt", "iTXt", "eXIf", "prVt", "pHYs", "tIME", "gAMA", "cHRM", "sRGB", "iCCP", "sBIT", "bKGD", "sPLT"}) {
    taken = made::with_chunk(taken, name, std::string("Comment\0", 8) + secret);
  }
  taken.insert(taken.size() - 12, made::chunk("tEXt", std::string("Comment\0", 8) + secret));
  taken = made::with_chunk(taken, "eXIf", made::exif(1, false)) + secret;
  const Attachment out = kept(taken);
  EXPECT_EQ(out.type, "image/png");
  EXPECT_EQ(out.bytes.find("SECRET"), std::string::npos);
  EXPECT_EQ(chunks(out.bytes), (std::vector<std::string>{"IHDR", "IDAT", "IEND"}));
  EXPECT_EQ(raw(out.bytes), raw(before));
  EXPECT_EQ(out.bytes, before);
  EXPECT_EQ(out.thumbnail.find("SECRET"), std::string::npos);
}

TEST(Png, EverySortKeepsEveryPixel) {
  for (const Sort& sort : kSorts) {
    const Pixels pixels = pattern(sort, 13, 7);
    const Attachment out = kept(written(sort, pixels));
    EXPECT_EQ(raw(out.bytes).pixels, pixels) << sort.depth << " " << sort.colour;
    EXPECT_EQ(raw(out.bytes), raw(written(sort, pixels)));
    EXPECT_EQ(kept(out.bytes), out);
    const auto small = decode_jpeg(out.thumbnail);
    ASSERT_TRUE(small.has_value());
    EXPECT_EQ(std::pair(small->pixels.width, small->pixels.height), std::pair(13, 7));
  }
}

TEST(Png, EverySortIsSetUpright) {
  for (const Sort& sort : kSorts) {
    const Pixels pixels = pattern(sort, 13, 7);
    for (int orientation = 1; orientation <= 8; ++orientation) {
      const auto block = made::exif(static_cast<std::uint32_t>(orientation), orientation % 2 == 0);
      const Attachment out = kept(made::with_chunk(written(sort, pixels), "eXIf", block));
      EXPECT_EQ(raw(out.bytes).pixels, upright(pixels, orientation)) << sort.depth << " " << sort.colour << " " << orientation;
      EXPECT_EQ(out.width, orientation < 5 ? 13 : 7);
      EXPECT_EQ(out.height, orientation < 5 ? 7 : 13);
    }
  }
}

/// As libpng writes it in seven passes.
std::string interlaced(const Pixels& pixels) {
  std::string out;
  png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_infop info = png_create_info_struct(png);
  png_set_write_fn(png, &out, [](png_structp to, png_bytep bytes, png_size_t size) { static_cast<std::string*>(png_get_io_ptr(to))->append(bytes, bytes + size); }, nullptr);
  png_set_IHDR(png, info, static_cast<png_uint_32>(pixels.width), static_cast<png_uint_32>(pixels.height), 8, PNG_COLOR_TYPE_RGB, PNG_INTERLACE_ADAM7,
               PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
  png_write_info(png, info);
  std::vector<unsigned char> bytes = pixels.bytes;
  std::vector<png_bytep> rows;
  for (std::size_t y = 0; y < static_cast<std::size_t>(pixels.height); ++y) rows.push_back(bytes.data() + y * pixels.row());
  png_write_image(png, rows.data());
  png_write_end(png, info);
  png_destroy_write_struct(&png, &info);
  return out;
}

TEST(Png, InSevenPassesLosesNothing) {
  const Pixels pixels = pattern(kColour, 19, 11);
  EXPECT_EQ(kept(interlaced(pixels)).bytes, written(kColour, pixels));
}

TEST(Png, TransparentLiesOnWhiteInTheThumbnail) {
  Pixels clear = room_for(16, 16, 4);
  const std::string taken = written({8, PNG_COLOR_TYPE_RGB_ALPHA, 4}, clear);
  const Pixels small = decode_jpeg(kept(taken).thumbnail).value().pixels;
  EXPECT_EQ(small.bytes, std::vector<unsigned char>(small.bytes.size(), 255));
}

// Half grey in 16 bits is half grey in the thumbnail, as a screen shows it.
TEST(Png, SixteenBitsAreScaledToEight) {
  Pixels grey = room_for(16, 16, 2);
  for (unsigned char& each : grey.bytes) each = 0x80;
  const Pixels small = decode_jpeg(kept(written({16, PNG_COLOR_TYPE_GRAY, 2}, grey)).thumbnail).value().pixels;
  EXPECT_EQ(small.bytes, std::vector<unsigned char>(small.bytes.size(), 0x80));
}

TEST(Png, BombsAreRefusedByTheirHeader) {
  const std::string small = written(kColour, pattern(kColour, 8, 8));
  EXPECT_EQ(code(made::with_png_size(small, 60000, 60000)), "attachment.too_many_pixels");
  EXPECT_EQ(code(made::with_png_size(small, 0xFFFFFFFF, 0xFFFFFFFF)), "attachment.too_many_pixels");
  EXPECT_EQ(code(made::with_png_size(small, 0x7FFFFFFF, 1)), "attachment.too_many_pixels");
  // Few enough pixels, but more than the file can hold.
  EXPECT_EQ(code(made::with_png_size(small, 7000, 7000)), "attachment.cannot_decode");
  EXPECT_EQ(code(made::with_png_size(small, 0, 8)), "attachment.cannot_decode");
  const Sort deep = {16, PNG_COLOR_TYPE_GRAY, 2};
  EXPECT_EQ(code(made::with_png_size(written(deep, pattern(deep, 8, 8)), 6000, 6000)), "attachment.too_many_pixels");
}

}  // namespace
}  // namespace fettle
