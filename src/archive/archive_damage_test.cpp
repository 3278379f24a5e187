#include <gtest/gtest.h>

#include "archive/archive.h"

namespace fettle {
namespace {

const Place kPlace{"job.zip", std::nullopt, std::nullopt};

/// An archive within an archive, so that a cut can leave what looks like the end of a whole one.
std::vector<PackedFile> some_files() {
  return {{"events.jsonl", "{\"id\":1}\n"}, {"papers/Nº 4.zip", pack({{"events.jsonl", "{}\n"}, {"empty", ""}})}, {"empty", ""}};
}

/// A folder p, p/ab with "ab" twelve times and an empty e, deflated by Python 3.11's zipfile, with a comment at the end; in hexadecimal.
constexpr std::string_view kByPython =
    "504b03041400000000000000210000000000000000000000000002000000702f504b030414000000080000002100aacfeafa06000000180000000400"
    "0000702f61624b4c4ac40a01504b03041400000008000000210000000000020000000000000001000000650300504b01021403140000000000000021"
    "00000000000000000000000000020000000000000000001000ed4100000000702f504b0102140314000000080000002100aacfeafa06000000180000"
    "00040000000000000000000000a48120000000702f6162504b0102140314000000080000002100000000000200000000000000010000000000000000"
    "000000a4814800000065504b05060000000003000300910000006900000004006e6f7465";
/// The same written into a pipe: sizes and checksums stand behind the bytes.
constexpr std::string_view kByPythonThroughAPipe =
    "504b03041400080000000000210000000000000000000000000002000000702f504b0708000000000000000000000000504b03041400080008000000"
    "210000000000000000000000000004000000702f61624b4c4ac40a01504b0708aacfeafa0600000018000000504b0304140008000800000021000000"
    "0000000000000000000001000000650300504b0708000000000200000000000000504b01021403140008000000000021000000000000000000000000"
    "00020000000000000000001000ed4100000000702f504b0102140314000800080000002100aacfeafa06000000180000000400000000000000000000"
    "00a48130000000702f6162504b0102140314000800080000002100000000000200000000000000010000000000000000000000a4816800000065504b"
    "05060000000003000300910000009900000004006e6f7465";

std::string bytes_of(std::string_view hexadecimal) {
  const auto half = [](char digit) { return static_cast<unsigned>(digit <= '9' ? digit - '0' : digit - 'a' + 10); };
  std::string out;
  for (std::size_t i = 0; i + 1 < hexadecimal.size(); i += 2) {
    out += static_cast<char>(static_cast<unsigned char>((half(hexadecimal[i]) << 4U) | half(hexadecimal[i + 1])));
  }
  return out;
}

std::vector<PackedFile> files_by_python() { return {{"p/ab", "abababababababababababab"}, {"e", ""}}; }

bool refused_or_the_same(std::string_view bytes, const std::vector<PackedFile>& files) {
  const auto unpacked = unpack(bytes, kPlace);
  return !unpacked.ok() || unpacked.value() == files;
}

void no_byte_may_change(const std::string& packed, const std::vector<PackedFile>& files) {
  for (std::size_t at = 0; at < packed.size(); ++at) {
    for (unsigned change = 1; change < 256; ++change) {
      std::string flipped = packed;
      flipped[at] = static_cast<char>(static_cast<unsigned char>(flipped[at]) ^ change);
      ASSERT_TRUE(refused_or_the_same(flipped, files)) << "byte " << at << " by " << change;
    }
  }
}

TEST(ArchiveDamage, CutAnywhereIsRefused) {
  const std::string packed = pack(some_files());
  for (std::size_t size = 0; size < packed.size(); ++size) {
    ASSERT_FALSE(unpack(packed.substr(0, size), kPlace).ok()) << size;
    ASSERT_FALSE(unpack(packed.substr(packed.size() - size), kPlace).ok()) << "last " << size;
  }
}

TEST(ArchiveDamage, AnyByteChangedIsRefusedOrHarmless) { no_byte_may_change(pack(some_files()), some_files()); }

TEST(ArchiveDamage, DeflatedEntriesAreReadWholeOrNotAtAll) {
  for (const std::string_view each : {kByPython, kByPythonThroughAPipe}) {
    const std::string packed = bytes_of(each);
    const auto unpacked = unpack(packed, kPlace);
    ASSERT_TRUE(unpacked.ok());
    EXPECT_EQ(unpacked.value(), files_by_python());
    for (std::size_t size = 0; size < packed.size(); ++size) ASSERT_FALSE(unpack(packed.substr(0, size), kPlace).ok()) << size;
    no_byte_may_change(packed, files_by_python());
  }
}

TEST(ArchiveDamage, AnythingBehindTheEndIsRefused) {
  const std::string packed = pack(some_files());
  EXPECT_FALSE(unpack(packed + "x", kPlace).ok());
  EXPECT_FALSE(unpack(packed + packed, kPlace).ok());
}

}  // namespace
}  // namespace fettle
