#include "attachment/pixels.h"

#include <gtest/gtest.h>

#include "attachment/pictures_for_tests.h"

namespace fettle {
namespace {

using Bytes = std::vector<unsigned char>;

// A picture of three columns and two rows, 1 2 3 over 4 5 6; expected by hand from the table of EXIF 2.3, tag 0112.
TEST(Pixels, AreSetUprightFromAllEightOrientations) {
  const Pixels taken{3, 2, 1, {1, 2, 3, 4, 5, 6}};
  EXPECT_EQ(upright(taken, 1), taken);
  EXPECT_EQ(upright(taken, 2), (Pixels{3, 2, 1, {3, 2, 1, 6, 5, 4}}));
  EXPECT_EQ(upright(taken, 3), (Pixels{3, 2, 1, {6, 5, 4, 3, 2, 1}}));
  EXPECT_EQ(upright(taken, 4), (Pixels{3, 2, 1, {4, 5, 6, 1, 2, 3}}));
  EXPECT_EQ(upright(taken, 5), (Pixels{2, 3, 1, {1, 4, 2, 5, 3, 6}}));
  EXPECT_EQ(upright(taken, 6), (Pixels{2, 3, 1, {4, 1, 5, 2, 6, 3}}));
  EXPECT_EQ(upright(taken, 7), (Pixels{2, 3, 1, {6, 3, 5, 2, 4, 1}}));
  EXPECT_EQ(upright(taken, 8), (Pixels{2, 3, 1, {3, 6, 2, 5, 1, 4}}));
}

TEST(Pixels, KeepTheBytesOfAPixelTogether) {
  EXPECT_EQ(upright({2, 1, 3, {1, 2, 3, 4, 5, 6}}, 3), (Pixels{2, 1, 3, {4, 5, 6, 1, 2, 3}}));
}

// By hand: three old pixels onto two new ones, each of one and a half: (2*0 + 90) / 3 and (90 + 2*255) / 3.
TEST(Pixels, ShrinkToTheMeanOverEachArea) {
  EXPECT_EQ(shrunk({3, 1, 1, {0, 90, 255}}, 2), (Pixels{2, 1, 1, {30, 200}}));
  EXPECT_EQ(shrunk({1, 3, 1, {0, 90, 255}}, 2), (Pixels{1, 2, 1, {30, 200}}));
  EXPECT_EQ(shrunk({4, 2, 1, {10, 20, 0, 255, 30, 40, 0, 255}}, 2), (Pixels{2, 1, 1, {25, 128}}));  // 25 and 127.5
  EXPECT_EQ(shrunk({4, 1, 2, {10, 1, 20, 2, 30, 3, 40, 4}}, 2), (Pixels{2, 1, 2, {15, 2, 35, 4}}));
}

TEST(Pixels, ShrinkOnlyWhatIsLarger) {
  const Pixels small{3, 2, 1, {1, 2, 3, 4, 5, 6}};
  EXPECT_EQ(shrunk(small, 3), small);
  EXPECT_EQ(shrunk(small, 100), small);
}

TEST(Pixels, ShrinkToTheLongestSideWhateverTheShape) {
  const auto size = [](int width, int height) {
    Pixels plain = room_for(width, height, 3);
    for (unsigned char& each : plain.bytes) each = 77;
    const Pixels out = shrunk(plain, 320);
    EXPECT_EQ(out.bytes, Bytes(out.row() * static_cast<std::size_t>(out.height), 77)) << width << " x " << height;
    return std::pair(out.width, out.height);
  };
  EXPECT_EQ(size(640, 480), std::pair(320, 240));
  EXPECT_EQ(size(480, 641), std::pair(240, 320));
  EXPECT_EQ(size(321, 320), std::pair(320, 319));
  EXPECT_EQ(size(5000, 1), std::pair(320, 1));
  EXPECT_EQ(size(3, 5000), std::pair(1, 320));
}

TEST(Exif, SaysTheOrientationInBothOrdersOfBytes) {
  for (std::uint32_t orientation = 1; orientation <= 8; ++orientation) {
    for (const bool lowest_first : {false, true}) EXPECT_EQ(orientation_in(made::exif(orientation, lowest_first)), static_cast<int>(orientation));
  }
}

TEST(Exif, ThatSaysNothingProperMeansUpright) {
  EXPECT_EQ(orientation_in(""), 1);
  EXPECT_EQ(orientation_in("II*"), 1);
  for (const std::uint32_t wrong : {0U, 9U, 0x600U, 0xFFFFU}) EXPECT_EQ(orientation_in(made::exif(wrong, true)), 1) << wrong;
  const std::string whole = made::exif(6, false);
  for (std::size_t size = 0; size < whole.size(); ++size) EXPECT_EQ(orientation_in(whole.substr(0, size)), size < 20 ? 1 : 6) << size;
  std::string elsewhere = whole;
  elsewhere.replace(4, 4, "\xFF\xFF\xFF\xFE");  // the directory is said to lie far behind the end
  EXPECT_EQ(orientation_in(elsewhere), 1);
}

}  // namespace
}  // namespace fettle
