#include "archive/archive.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

const Place kPlace{"job.zip", std::nullopt, std::nullopt};

std::string all_bytes() {
  std::string out;
  for (int i = 0; i < 256; ++i) out += static_cast<char>(static_cast<unsigned char>(i));
  return out;
}

std::vector<PackedFile> some_files() {
  return {{"manifest.toml", "format = 1\n"}, {"events.jsonl", ""}, {"papers/Prüfblatt – Nº 4.pdf", all_bytes()}, {"b", "PK\x05\x06"}};
}

std::vector<std::string> told(const Problems& problems) {
  std::vector<std::string> out;
  for (const Problem& each : problems) {
    EXPECT_EQ(each.place, kPlace);
    out.push_back(each.code);
  }
  return out;
}

std::vector<std::string> refused(std::string_view bytes) {
  const auto files = unpack(bytes, kPlace);
  return files.ok() ? std::vector<std::string>{} : told(files.problems());
}

using Codes = std::vector<std::string>;

std::string replaced(std::string text, std::string_view what, std::string_view by) {
  FETTLE_ASSERT(what.size() == by.size(), "an archive holds its lengths");
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) text.replace(at, what.size(), by);
  return text;
}

/// Sets the two bytes at `at` behind each place where `mark` stands.
std::string with_field(std::string text, std::string_view mark, std::size_t at, unsigned value) {
  for (auto place = text.find(mark); place != std::string::npos; place = text.find(mark, place + 1)) {
    text[place + at] = static_cast<char>(static_cast<unsigned char>(value & 0xFFU));
    text[place + at + 1] = static_cast<char>(static_cast<unsigned char>(value >> 8U));
  }
  return text;
}

constexpr std::string_view kFile = "PK\x03\x04";
constexpr std::string_view kListed = "PK\x01\x02";
constexpr std::string_view kEnd = "PK\x05\x06";

TEST(Archive, GivesBackWhatWasPacked) {
  const auto files = unpack(pack(some_files()), kPlace);
  ASSERT_TRUE(files.ok());
  EXPECT_EQ(files.value(), some_files());
  const auto none = unpack(pack({}), kPlace);
  ASSERT_TRUE(none.ok());
  EXPECT_TRUE(none.value().empty());
}

// By hand from APPNOTE 6.3.10; the checksum of "123456789" is the published check value of CRC-32, CBF43926.
TEST(Archive, IsByteForByteWhatTheStandardSays) {
  using namespace std::string_literals;
  const std::string shared =
      "\x14\0\0\x08\0\0\0\0\x21\0"s + "\x26\x39\xf4\xcb" + "\x09\0\0\0\x09\0\0\0"s + "\x03\0\0\0"s;
  const std::string file = "PK\x03\x04" + shared + "a/b" + "123456789";
  const std::string listed = "PK\x01\x02\x14\x03"s + shared + "\0\0\0\0\0\0\0\0\xa4\x81\0\0\0\0"s + "a/b";
  const std::string end = "PK\x05\x06\0\0\0\0\x01\0\x01\0"s + "\x31\0\0\0\x2a\0\0\0\0\0"s;
  EXPECT_EQ(pack({{"a/b", "123456789"}}), file + listed + end);
}

TEST(Archive, NamesThatLeadElsewhereAreRefused) {
  for (const char* good : {"a", "a/b.txt", "..a", "a..", "...", "ä/ß", ".hidden", "a b"}) EXPECT_TRUE(may_be_packed(good)) << good;
  for (const char* bad : {"", "/", "/a", "a/", "a//b", ".", "..", "../a", "a/../b", "a/..", "./a", "a/.", "C:/a", "a\\b", "a\nb", "a\x7f",
                          "\xff", "\xc0\xaf", "a\xed\xa0\x80"}) {
    EXPECT_FALSE(may_be_packed(bad)) << bad;
    EXPECT_EQ(told(why_not_packed({{bad, ""}}, kPlace)), Codes{"archive.name"}) << bad;
  }
  EXPECT_TRUE(may_be_packed(std::string(kLongestPackedName, 'x')));
  EXPECT_FALSE(may_be_packed(std::string(kLongestPackedName + 1, 'x')));
  EXPECT_FALSE(may_be_packed(std::string_view("a\0b", 3)));
  const std::string packed = pack({{"aaaa", "1"}, {"b", "2"}});
  for (const char* bad : {"../a", "/aaa", "a/..", "a//a", "C:aa", "a\\aa", "a\xff/a"}) {
    EXPECT_EQ(refused(replaced(packed, "aaaa", bad)), Codes{"archive.name"}) << bad;
  }
}

TEST(Archive, NoNameTwice) {
  EXPECT_EQ(told(why_not_packed({{"a", ""}, {"b", ""}, {"a", "x"}}, kPlace)), Codes{"archive.name_twice"});
  EXPECT_EQ(refused(replaced(pack({{"aaaa", "1"}, {"bbbb", "2"}}), "bbbb", "aaaa")), Codes{"archive.name_twice"});
}

TEST(Archive, NothingIsBothFileAndFolder) {
  EXPECT_EQ(told(why_not_packed({{"a", ""}, {"a/b/c", ""}}, kPlace)), Codes{"archive.name_twice"});
  EXPECT_EQ(told(why_not_packed({{"a/b/c", ""}, {"a.b", ""}, {"a/b", ""}}, kPlace)), Codes{"archive.name_twice"});
  EXPECT_EQ(told(why_not_packed({{"a/b", ""}, {"a/c", ""}, {"a-", ""}, {"b", ""}}, kPlace)), Codes{});
}

TEST(Archive, WhatATerminalWouldObeyIsNotShown) {
  const auto problems = why_not_packed({{"a\x1b[2J", ""}, {"\xff", ""}}, kPlace);
  EXPECT_EQ(problems, (Problems{{"archive.name", kPlace, {verbatim("name", "a?[2J")}}, {"archive.name", kPlace, {verbatim("name", "?")}}}));
}

TEST(Archive, TooManyAndTooMuchAreRefusedBeforeAnythingIsUnpacked) {
  const std::vector<PackedFile> many(kMostPackedFiles + 1, PackedFile{"a", ""});
  EXPECT_EQ(told(why_not_packed(many, kPlace)).back(), "archive.too_many");
  std::string packed = pack({{"a", "1"}});
  EXPECT_EQ(refused(with_field(with_field(packed, kEnd, 8, 60000), kEnd, 10, 60000)), Codes{"archive.too_many"});
  // 0x8001 in the upper half of the size that is said to be unpacked: 2 GiB and more, and deflated so that it need not lie there.
  for (const auto& [mark, method, size] : {std::tuple{kFile, 8U, 22U}, std::tuple{kListed, 10U, 24U}}) {
    packed = with_field(with_field(packed, mark, method, 8), mark, size + 2, 0x8001);
  }
  EXPECT_EQ(refused(packed), Codes{"archive.too_large"});
}

TEST(Archive, LinksAndWhatIsNoFileAreRefused) {
  const std::string packed = pack({{"a", "b"}});
  EXPECT_EQ(refused(with_field(packed, kListed, 40, 0120777)), Codes{"archive.link"});  // a link
  EXPECT_EQ(refused(with_field(packed, kListed, 40, 0020644)), Codes{"archive.link"});  // a device
  EXPECT_EQ(refused(with_field(packed, kListed, 40, 0040755)), Codes{"archive.link"});  // a folder called like a file
  EXPECT_EQ(refused(with_field(packed, kListed, 40, 0)), Codes{});                      // not said
}

TEST(Archive, OtherSortsAreNamed) {
  const std::string packed = pack({{"a", "b"}});
  const auto both = [&](std::size_t file, std::size_t listed, unsigned value) {
    return with_field(with_field(packed, kFile, file, value), kListed, listed, value);
  };
  EXPECT_EQ(refused(both(6, 8, 0x0801)), Codes{"archive.encrypted"});
  EXPECT_EQ(refused(both(8, 10, 12)), Codes{"archive.method"});
  EXPECT_EQ(refused(with_field(packed, kEnd, 4, 1)), Codes{"archive.other_zip"});
  EXPECT_EQ(refused(with_field(with_field(packed, kListed, 20, 0xFFFF), kListed, 22, 0xFFFF)), Codes{"archive.other_zip"});
  EXPECT_EQ(refused(""), Codes{"archive.not_zip"});
  EXPECT_EQ(refused("[job]\nid = 1\n"), Codes{"archive.not_zip"});
  EXPECT_EQ(refused(packed.substr(0, packed.size() - 1)), Codes{"archive.cut_off"});
  EXPECT_EQ(refused("x" + packed), Codes{"archive.damaged"});
  EXPECT_EQ(refused(replaced(packed, "ab", "ac")), Codes{"archive.file_damaged"});
}

// How a small archive unpacks to a huge one: an entry whose record lies within the bytes of another.
TEST(Archive, EntriesThatShareBytesAreRefused) {
  const std::string single = pack({{"b", "2"}});
  const std::string record = single.substr(0, single.find(kListed));
  std::string packed = pack({{"a", record}, {"b", "2"}});
  ASSERT_EQ(refused(packed), Codes{});
  const std::size_t listed = packed.rfind(kListed);
  packed[listed + 42] = static_cast<char>(30 + 1);  // where the bytes of a begin
  EXPECT_EQ(refused(packed), Codes{"archive.damaged"});
}

/// The archive of one stored file, said to be deflated from `size` bytes with this checksum.
std::string said_to_be_deflated(const std::string& stream, std::uint32_t size, std::uint32_t checksum) {
  std::string out = pack({{"a", stream}});
  for (const auto& [mark, method] : {std::pair{kFile, std::size_t{8}}, std::pair{kListed, std::size_t{10}}}) {
    out = with_field(with_field(with_field(out, mark, method, 8), mark, method + 6, checksum & 0xFFFFU), mark, method + 8, checksum >> 16U);
    out = with_field(with_field(out, mark, method + 14, size & 0xFFFFU), mark, method + 16, size >> 16U);
  }
  return out;
}

// The stream of "ab" twelve times and its checksum are those of Python's zlib.
TEST(Archive, ADeflatedEntryMustBeItsStreamAndNoMore) {
  const std::string stream = "\x4b\x4c\x4a\xc4\x0a\x01";
  constexpr std::uint32_t kChecksum = 0xFAEACFAA;
  const auto files = unpack(said_to_be_deflated(stream, 24, kChecksum), kPlace);
  ASSERT_TRUE(files.ok());
  EXPECT_EQ(files.value(), (std::vector<PackedFile>{{"a", "abababababababababababab"}}));
  EXPECT_EQ(refused(said_to_be_deflated(stream + "x", 24, kChecksum)), Codes{"archive.file_damaged"});
  for (const std::uint32_t size : {0U, 23U, 25U}) EXPECT_EQ(refused(said_to_be_deflated(stream, size, kChecksum)), Codes{"archive.file_damaged"});
  EXPECT_EQ(refused(said_to_be_deflated(stream, 0x7FFFFFFF, kChecksum)), Codes{"archive.file_damaged"});  // more than deflate can reach
}

TEST(Archive, EveryProblemIsTold) {
  std::string packed = replaced(pack({{"aaaa", "1"}, {"bbbb", "2"}, {"cccc", "3"}}), "aaaa", "../a");
  packed = replaced(packed, "bbbb", "/bbb");
  EXPECT_EQ(refused(packed), (Codes{"archive.name", "archive.name"}));
}

}  // namespace
}  // namespace fettle
