#include <gtest/gtest.h>

#include <algorithm>

#include "text/sentence.h"
#include "wire/event_json.h"

namespace fettle {
namespace {

const Place kPlace{"events.log", 12, std::nullopt};

const std::string kReading =
    R"({"id":"00112233445566778899aabbccddeeff","job":"tern","device":"d","device_sequence":17,"made_at":"","who":"",)"
    R"("type":"reading-taken","version":1,"payload":{"part":"bore-1","station":"top","direction":"thrust",)"
    R"("quantity":{"text":"84.02 mm","dimension":"length","unit":"mm","numerator":"4201","denominator":"50","decimals":2,)"
    R"("mm":"84.0200000"},"setting":"s","round":"","flag":"none","note":""}})";
const std::string kLayout =
    R"({"id":"00112233445566778899aabbccddeeff","job":"tern","device":"d","device_sequence":1,"made_at":"","who":"",)"
    R"("type":"layout-chosen","version":1,"payload":{"kind":"k","stations":[{"id":"top","role":"first","counted":true,)"
    R"("depth":{"value":"12.0000000","unit":"mm"}}],"directions":[{"id":"pin","angle_degrees":{"numerator":"90",)"
    R"("denominator":"1"},"counted":true}]}})";

const std::string kGauge =
    R"({"id":"00112233445566778899aabbccddeeff","job":"tern","device":"d","device_sequence":2,"made_at":"","who":"",)"
    R"("type":"gauge-registered","version":1,"payload":{"id":"g","preset":"p","replaced":[{"id":"c","scope":"round","shape":"normal",)"
    R"("spread":{"value":{"numerator":"1","denominator":"1"},"unit":"µm"},"spread_as_typed":"1 µm","degrees_of_freedom":8,)"
    R"("use":"always","mark":"seen","origin":""}]}})";
const std::string kPart =
    R"({"id":"00112233445566778899aabbccddeeff","job":"tern","device":"d","device_sequence":2,"made_at":"","who":"",)"
    R"("type":"part-entered","version":1,"payload":{"id":"p","kind":"k","position":"","step":{"kind":"offset",)"
    R"("offset":{"text":"+0.5 mm","dimension":"length","unit":"mm","numerator":"1","denominator":"2","decimals":1,)"
    R"("mm":"0.5000000"},"seen":""},"condition":"worn"}})";
/// A bound of another dimension than length, which has no mm.
const std::string kWeight =
    R"({"id":"00112233445566778899aabbccddeeff","job":"tern","device":"d","device_sequence":3,"made_at":"","who":"",)"
    R"("type":"limit-entered","version":1,"payload":{"id":"l","kind":"k","definition":"d","role":"new","side":"at-most",)"
    R"("bound":{"text":"3 kg","dimension":"mass","unit":"kg","numerator":"3","denominator":"1","decimals":0},)"
    R"("origin":{"book":"","edition":"","page":"","decision":"","rule_of_thumb":false,"accepted":false}}})";

/// `text` with the one place where `old` stands changed.
std::string with(std::string text, const std::string& old, const std::string& fresh) {
  const auto at = text.find(old);
  EXPECT_NE(at, std::string::npos) << old;
  EXPECT_EQ(text.find(old, at + 1), std::string::npos) << old;
  return at == std::string::npos ? text : text.replace(at, old.size(), fresh);
}

/// "code key" of every problem.
std::vector<std::string> told(const std::string& line) {
  const auto read = read_event(line, kPlace);
  std::vector<std::string> out;
  if (read.ok()) return out;
  for (const Problem& each : read.problems()) {
    EXPECT_EQ(each.place.file, kPlace.file);
    EXPECT_EQ(each.place.line, kPlace.line);
    const auto key = std::find_if(each.arguments.begin(), each.arguments.end(),
                                  [](const auto& argument) { return argument.name == "key"; });
    out.push_back(each.code + (key == each.arguments.end() ? "" : " " + std::get<Verbatim>(key->value).text));
    for (Language language : {Language::english, Language::german}) {
      // A key without its sentence comes out as "[problem.wire...]", an argument that nobody gave as "{name}".
      const std::string said = sentence(each, language);
      for (const char* sign : {"{", "[problem.", "[wire."}) EXPECT_EQ(said.find(sign), std::string::npos) << said;
    }
  }
  return out;
}

using Told = std::vector<std::string>;

TEST(ReadEvent, TheLinesOfThisTestAreSound) {
  EXPECT_EQ(told(kReading), Told{});
  for (const std::string& line : {kLayout, kGauge, kPart, kWeight}) EXPECT_EQ(told(line), Told{});
  EXPECT_EQ(told(" " + kReading + " \r\n"), Told{});
}

TEST(ReadEvent, UnknownTypesAndNewerVersionsAreRefusedAlone) {
  EXPECT_EQ(told(with(kReading, "reading-taken", "reading-guessed")), Told{"wire.unknown_event_type type"});
  EXPECT_EQ(told(with(kReading, R"("version":1)", R"("version":2)")), Told{"wire.newer_version version"});
  EXPECT_EQ(told(with(kReading, R"("version":1,"payload":{)", R"("version":2,"mood":1,"payload":{"mood":2,)")),
            Told{"wire.newer_version version"});
  EXPECT_EQ(told(with(kReading, R"("version":1)", R"("version":0)")), Told{"wire.out_of_range version"});
  EXPECT_EQ(told(with(kReading, R"("type":"reading-taken",)", "")), Told{"wire.missing_key type"});
  EXPECT_EQ(told(with(kReading, R"("version":1)", R"("version":"1")")), Told{"wire.wrong_kind version"});
}

TEST(ReadEvent, BrokenJsonIsRefusedWithItsColumn) {
  EXPECT_EQ(told(kReading.substr(0, kReading.size() - 1)), Told{"wire.not_json"});
  EXPECT_EQ(told(kReading + kReading), Told{"wire.not_json"});
  EXPECT_EQ(told(""), Told{"wire.not_json"});
  EXPECT_EQ(told(with(kReading, "17", "1e999")), Told{"wire.not_json"});
  EXPECT_EQ(told(with(kReading, R"("note":"")", R"("note":"\ud800")")), Told{"wire.not_json"});
  EXPECT_EQ(told(with(kReading, R"("note":"")", R"("note":NaN)")), Told{"wire.not_json"});
  // The stray x is the seventh character; the é before it has two bytes.
  EXPECT_EQ(read_event("{\"é\":1x}", kPlace).problems().front().place.column, 7);
}

TEST(ReadEvent, RepeatedKeysAreRefusedAtEveryLevel) {
  EXPECT_EQ(told(with(kReading, R"("who":"",)", R"("who":"","who":"M",)")), Told{"wire.key_twice who"});
  EXPECT_EQ(told(with(kReading, R"("decimals":2,)", R"("decimals":2,"decimals":2,)")), Told{"wire.key_twice decimals"});
  EXPECT_EQ(told(with(kReading, R"("note":""}})", R"("note":""},"who":"M"})")),
            Told{"wire.key_twice who"});  // behind an inner object
  // The same key spelt with an escape is the same key.
  EXPECT_EQ(told(with(kReading, R"("who":"",)", R"("who":"","\u0077ho":"M",)")), Told{"wire.key_twice who"});
}

TEST(ReadEvent, HostileBytesAreRefused) {
  EXPECT_EQ(told(with(kReading, R"("note":"")", "\"note\":\"\xc3\"")), Told{"wire.not_utf8"});
  EXPECT_EQ(told(with(kReading, R"("note":"")", std::string("\"note\":\"\0\"", 10))), Told{"wire.not_utf8"});
  EXPECT_EQ(told(std::string(1'000'000, '[')), Told{"wire.too_deep"});
  EXPECT_EQ(told(with(kReading, R"("note":"")", R"("note":)" + std::string(14, '[') + std::string(14, ']'))),
            Told{"wire.wrong_kind payload.note"});  // 2 objects and 14 lists: 16 levels are looked at
  EXPECT_EQ(told(with(kReading, R"("note":"")", R"("note":)" + std::string(15, '[') + std::string(15, ']'))),
            Told{"wire.too_deep"});
  EXPECT_EQ(told(std::string((32U << 20U) + 1, ' ')), Told{"wire.too_large"});
}

TEST(ReadEvent, AFloodOfProblemsIsCut) {
  std::string keys;
  for (int i = 0; i < 1000; ++i) keys += "\"k" + std::to_string(i) + "\":0,";
  EXPECT_EQ(told(with(kReading, R"("who":"",)", R"("who":"",)" + keys)).size(), 100U);
  std::string zeros = "0";
  for (int i = 0; i < 1000; ++i) zeros += ",0";
  EXPECT_EQ(told(with(kLayout, R"("directions":[)", R"("directions":[)" + zeros + ",")).size(), 100U);
  std::string empty = "{}";  // each lacks three keys
  for (int i = 0; i < 1000; ++i) empty += ",{}";
  EXPECT_EQ(told(with(kLayout, R"("directions":[)", R"("directions":[)" + empty + ",")).size(), 100U);
  std::string twice;
  for (int i = 0; i < 1000; ++i) twice += R"("who":"",)";
  EXPECT_EQ(told(with(kReading, R"("who":"",)", twice)).size(), 100U);
}

TEST(ReadEvent, KeysAreNeitherMissingNorUnknown) {
  EXPECT_EQ(told(with(kReading, R"("station":"top",)", "")), Told{"wire.missing_key payload.station"});
  EXPECT_EQ(told(with(kReading, R"("station":"top",)", R"("staton":"top",)")),
            (Told{"wire.missing_key payload.station", "wire.unknown_key payload.staton"}));
  EXPECT_EQ(told(with(kReading, R"("who":"",)", R"("who":"","mood":1,)")), Told{"wire.unknown_key mood"});
  EXPECT_EQ(told(with(kReading, R"("decimals":2,)", R"("decimals":2,"place":{},)")),
            Told{"wire.unknown_key payload.quantity.place"});
  EXPECT_EQ(told(with(kLayout, R"("role":"first",)", "")), Told{"wire.missing_key payload.stations[0].role"});
}

TEST(ReadEvent, AStepHasItsOffsetOrNone) {
  const std::string offset =
      kPart.substr(kPart.find(R"("offset":{)"), kPart.find(R"("seen")") - kPart.find(R"("offset":{)"));
  EXPECT_EQ(told(with(kPart, offset, "")), Told{"wire.missing_key payload.step.offset"});
  EXPECT_EQ(told(with(kPart, R"("kind":"offset")", R"("kind":"standard")")),
            Told{"wire.unknown_key payload.step.offset"});
  EXPECT_EQ(told(with(kPart, R"("kind":"offset")", R"("kind":"over")")), Told{"wire.unknown_word payload.step.kind"});
  EXPECT_EQ(told(with(with(kPart, offset, ""), R"("kind":"offset")", R"("kind":"standard")")), Told{});
}

TEST(ReadEvent, ValuesAreOfTheirKind) {
  EXPECT_EQ(told("[]"), Told{"wire.wrong_kind event"});
  EXPECT_EQ(told(with(kReading, "17", "17.0")), Told{"wire.wrong_kind device_sequence"});
  EXPECT_EQ(told(with(kReading, "17", "9007199254740992")), Told{"wire.out_of_range device_sequence"});
  EXPECT_EQ(told(with(kReading, "17", "-9007199254740992")), Told{"wire.out_of_range device_sequence"});
  EXPECT_EQ(told(with(kReading, "17", "18446744073709551615")), Told{"wire.out_of_range device_sequence"});
  EXPECT_EQ(told(with(kReading, "17", "9007199254740991")), Told{});
  EXPECT_EQ(told(with(kReading, R"("note":"")", R"("note":null)")), Told{"wire.wrong_kind payload.note"});
  EXPECT_EQ(told(with(kReading, R"("note":"")", R"("note":"","order":null)")), Told{"wire.wrong_kind payload.order"});
  EXPECT_EQ(told(with(kGauge, R"("degrees_of_freedom":8)", R"("degrees_of_freedom":2147483648)")),
            Told{"wire.out_of_range payload.replaced[0].degrees_of_freedom"});
  EXPECT_EQ(told(with(kGauge, R"("degrees_of_freedom":8)", R"("degrees_of_freedom":-2147483648)")),
            Told{"wire.out_of_range payload.replaced[0].degrees_of_freedom"});
  EXPECT_EQ(told(with(kReading, R"("flag":"none")", R"("flag":"rust")")), Told{"wire.unknown_word payload.flag"});
  EXPECT_EQ(told(with(kReading, R"("unit":"mm")", R"("unit":"furlong")")),
            Told{"wire.unknown_word payload.quantity.unit"});
  EXPECT_EQ(told(with(kLayout, R"("role":"first","counted":true)", R"("role":"first","counted":1)")),
            Told{"wire.wrong_kind payload.stations[0].counted"});
  EXPECT_EQ(told(with(kLayout, R"("stations":[)", R"("stations":7,"lost":[)")),
            (Told{"wire.wrong_kind payload.stations", "wire.unknown_key payload.lost"}));
  EXPECT_EQ(told(with(kReading, "00112233445566778899aabbccddeeff", "E1")), Told{"wire.not_an_id id"});
  EXPECT_EQ(told(with(kReading, "00112233445566778899aabbccddeeff", "00112233445566778899AABBCCDDEEFF")),
            Told{"wire.not_an_id id"});
}

TEST(ReadEvent, ExactFiguresHaveOneSpelling) {
  for (const char* numerator :
       {R"("04201")", R"("+4201")", R"("-0")", R"("4201.0")", R"("")", R"("-")", R"("42010000000000000000000000")"}) {
    EXPECT_EQ(told(with(kReading, R"("4201")", numerator)), Told{"wire.not_exact payload.quantity"}) << numerator;
  }
  EXPECT_EQ(told(with(kLayout, R"("90")", R"("-0")")), Told{"wire.not_exact payload.directions[0].angle_degrees"});
  EXPECT_EQ(told(with(kLayout, R"("90")", "\"1" + std::string(36, '0') + "\"")),
            Told{"wire.not_exact payload.directions[0].angle_degrees"});
  EXPECT_EQ(told(with(kLayout, R"("90")", "\"" + std::string(36, '9') + "\"")), Told{});
  EXPECT_EQ(told(with(kWeight, R"("3")", "\"" + std::string(25, '9') + "\"")), Told{});
  EXPECT_EQ(told(with(kWeight, R"("3")", "\"" + std::string(26, '9') + "\"")), Told{"wire.not_exact payload.bound"});
  EXPECT_EQ(told(with(kReading, R"("4201")", "4201")), Told{"wire.wrong_kind payload.quantity.numerator"});
  EXPECT_EQ(told(with(kReading, R"("4201","denominator":"50")", R"("8402","denominator":"100")")),
            Told{"wire.not_exact payload.quantity"});
  EXPECT_EQ(told(with(kReading, R"("denominator":"50")", R"("denominator":"0")")),
            Told{"wire.not_exact payload.quantity"});
  EXPECT_EQ(told(with(kReading, R"("denominator":"50")", R"("denominator":"-50")")),
            Told{"wire.not_exact payload.quantity"});
  // 4201/3 mm is no whole count of 0.1 nm.
  EXPECT_EQ(told(with(kReading, R"("denominator":"50")", R"("denominator":"3")")),
            Told{"wire.not_exact payload.quantity"});
  EXPECT_EQ(told(with(kReading, R"("decimals":2)", R"("decimals":19)")),
            Told{"wire.out_of_range payload.quantity.decimals"});
  for (const char* depth : {"12", "12.0", "+12.0000000", "012.0000000", "12.00000000", "1.2e1", "x", ""}) {
    EXPECT_EQ(told(with(kLayout, "12.0000000", depth)), Told{"wire.not_exact payload.stations[0].depth"}) << depth;
  }
  EXPECT_EQ(told(with(kLayout, "12.0000000", "10000.0000001")), Told{"wire.out_of_range payload.stations[0].depth"});
  EXPECT_EQ(told(with(kLayout, "12.0000000", "10000.0000000")), Told{});
  EXPECT_EQ(told(with(kLayout, R"("12.0000000","unit":"mm")", R"("12.0000000","unit":"in")")),
            Told{"wire.not_exact payload.stations[0].depth"});
}

TEST(ReadEvent, WhatAQuantitySaysTwiceMustAgree) {
  EXPECT_EQ(told(with(kReading, "84.0200000", "84.0200001")), Told{"wire.disagrees payload.quantity"});
  EXPECT_EQ(told(with(kReading, R"("unit":"mm")", R"("unit":"in")")), Told{"wire.disagrees payload.quantity"});
  EXPECT_EQ(told(with(kReading, R"("dimension":"length")", R"("dimension":"mass")")),
            Told{"wire.disagrees payload.quantity"});
  EXPECT_EQ(told(with(kReading, R"(,"mm":"84.0200000")", "")), Told{"wire.disagrees payload.quantity"});
  EXPECT_EQ(told(with(kReading, R"("decimals":2)", R"("decimals":2,"needle":"anticlockwise")")),
            Told{"wire.disagrees payload.quantity"});
  EXPECT_EQ(told(with(kReading, R"("decimals":2)", R"("decimals":2,"needle":"clockwise")")), Told{});
  EXPECT_EQ(told(with(kReading, R"("4201","denominator":"50","decimals":2,"mm":"84.0200000")",
                      R"("10001","denominator":"1","decimals":0,"mm":"10001.0000000")")),
            Told{"wire.out_of_range payload.quantity.mm"});
}

}  // namespace
}  // namespace fettle
