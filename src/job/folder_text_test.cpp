#include "job/folder_text.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "job/fold.h"

namespace fettle {
namespace {

/// A job that uses every key of job.toml and every column.
const std::string kJob = R"(
[job]
id = "j"
name = "a job"
decimal_mark = "comma"
trade_words = "inch"
shown_unit = "in"
remark = "seen \"by hand\""
[engine]
name = "an engine"
cylinders = 3
banks = ["A", "B"]
number_one_end = "flywheel"
turns = "anticlockwise"
seen_from = "flywheel"
thrust_side = "left"
remark = "heavy"
[[layout]]
kind = "cylinder-bore"
station = [
  { id = "top", role = "first", depth = "12,3450 mm" },
  { id = "in", role = "inner", counted = false, depth = "1 1/2 in" },
  { id = "foot", role = "reference" },
]
direction = [ { id = "thrust", angle = "0 °" }, { id = "odd", angle = "20 arcmin" }, { id = "pin", angle = "90 °", counted = false } ]
[[part]]
id = "bore-1"
kind = "cylinder-bore"
position = "A1"
material = "ductile-iron"
step = "+0,25 mm"
step_seen = "pan rail"
condition = "machined"
[[part]]
id = "piston-1"
kind = "piston"
condition = "worn"
[[part]]
id = "pair"
kind = "bore-and-piston"
members = { bore = "bore-1", piston = "piston-1" }
[[finding]]
part = "bore-1"
what = "score"
weight = "needs-test"
where = "below the deck"
depth = "0,02 mm"
[[gauge]]
id = "mic"
preset = "outside-micrometer-75-100-mm"
reads = "75,002 mm"
on_standard = "75 mm"
component = [
  { id = "frame-flex", scope = "master", shape = "normal", standard_uncertainty = "1 µm", degrees_of_freedom = 9, origin = "trial" },
  { id = "dirt", scope = "reading", shape = "triangular", half_width = "2 tenths" },
]
[[gauge]]
id = "bg"
preset = "dial-bore-gauge-0-001-mm"
division = "0,001 mm"
turn = "0,2 mm"
pressed_in = "clockwise"
[gauge.kit]
rods = ["80 mm", "3 1/4 in"]
washers = ["1 mm", "1 mm"]
extensions = ["50 mm"]
rods_reach = "middle-of-travel"
travel = "1,6 mm"
least_pressed = "0,2 mm"
range = ["50 mm", "150 mm"]
[[gauge]]
id = "ring"
preset = "setting-ring"
marked = "84,002 mm"
[[setting]]
id = "s"
gauge = "bg"
master = "mic"
wanted = "84 mm"
set = "3,307 in"
opening_zero = ["0", "1 acw", "0"]
closing_zero = "2 cw"
plus_means = "anticlockwise"
master_temperature = "19,5 °C"
part_temperature = "68 °F"
[[setting.check]]
after_order = 1
shows = "1 acw"
round = "r"
[[setting]]
id = "s2"
gauge = "bg"
master = "mic"
wanted = "84 mm"
set = "84 mm"
opening_zero = "1 cw"
afresh_of = "s"
[[setting]]
id = "m"
gauge = "mic"
[[found_out]]
gauge = "mic"
what = "fell"
last_good = "s"
good_again = "m"
shows_too_much = "3 tenths"
[[found_out]]
gauge = "ring"
what = "rust"
may_be_off = "0,001 mm"
[[limit]]
id = "size"
kind = "cylinder-bore"
definition = "size-1"
role = "service"
side = "at-most"
bound = "84,10 mm"
book = "book"
edition = "2nd"
page = "7"
decision = "as printed"
[[limit]]
id = "taper"
kind = "cylinder-bore"
definition = "tap-6"
role = "new"
side = "at-most"
bound = "0,001 in"
per = "1 in"
rule_of_thumb = true
accepted = true
[rule]
kind = "reading"
level = "0.975"
tie = "equal-is-beyond"
)";

const std::string kReadings =
    "part,station,direction,reading,unit,setting,round,order,repeat,temperature,flag,note,who,when\n"
    "bore-1,top,thrust,\"+31\",div,s,r,1,1,\"20,5 °C\",deposit,\"a \"\"note\"\", with a comma\nand a line\",M,2031-05-04 10:12\n"
    "bore-1,top,thrust,31 cw,,s,r,2,2,,,,,\n"
    "bore-1,top,pin,\"0,031 cw\",mm,s,,,,,,,,\n"
    "bore-1,in,odd,0,division,s2,,,,,,,,\n"
    "piston-1,skirt,across,\"83,95\",mm,m,,,,,damage,# not a comment,N,\n"
    "piston-1,skirt,along,\"3,304\"\"\",,m,,,,,mistake,,,later\n";

std::vector<EventEnvelope> imported(const std::string& job, const std::string& readings) {
  Imported read = import_folder({"f", job, readings});
  for (const Problem& each : read.problems) ADD_FAILURE() << each.code << " " << each.place.file << " " << each.place.line.value_or(0);
  return std::move(read.events);
}

std::vector<EventEnvelope> events() { return imported(kJob, kReadings); }

std::vector<std::string> codes(const Problems& problems) {
  std::vector<std::string> out;
  for (const Problem& each : problems) out.push_back(each.code);
  return out;
}

std::vector<std::string> keys(const std::vector<Message>& messages) {
  std::vector<std::string> out;
  for (const Message& each : messages) out.push_back(each.key);
  return out;
}

WrittenFolder written(const std::vector<EventEnvelope>& events) {
  auto folder = written_folder(events);
  EXPECT_TRUE(folder.ok());
  return std::move(folder).value();
}

/// Nothing was lost on the way.
void expect_whole(const WrittenFolder& folder, const std::string& what = "") {
  for (const Message& each : folder.left_out) ADD_FAILURE() << what << " " << each.key << " " << std::get<Verbatim>(each.arguments.back().value).text;
  for (const Problem& each : folder.refused) ADD_FAILURE() << what << " " << each.code << " " << each.place.file << ":" << each.place.line.value_or(0);
}

TEST(FolderText, HoldsEveryKeyAndEveryColumn) {
  const std::vector<EventEnvelope> first = events();
  ASSERT_FALSE(first.empty());
  const WrittenFolder folder = written(first);
  expect_whole(folder);
  for (const char* as_typed : {"\"3,307 in\"", "\"3 1/4 in\"", "\"2 tenths\"", "\"68 °F\"", "\"+0,25 mm\"", "[\"0\", \"1 acw\", \"0\"]"}) {
    EXPECT_NE(folder.texts.job_toml.find(as_typed), std::string::npos) << as_typed;
  }
  EXPECT_NE(folder.texts.readings_csv.find("\"3,304\"\"\""), std::string::npos);
  const std::vector<EventEnvelope> again = imported(folder.texts.job_toml, folder.texts.readings_csv);
  ASSERT_EQ(again.size(), first.size());
  for (std::size_t i = 0; i < first.size(); ++i) {
    EXPECT_TRUE(again[i].payload == first[i].payload) << type_of(first[i].payload).name << " " << i;
    // Rows are the very same events, units spelt as they were.
    EXPECT_TRUE(again[i] == first[i] || !std::holds_alternative<ReadingTaken>(first[i].payload)) << i;
  }
}

TEST(FolderText, TheSecondWritingGivesTheSameBytes) {
  const FolderTexts first = written(events()).texts;
  const FolderTexts second = written(imported(first.job_toml, first.readings_csv)).texts;
  EXPECT_TRUE(first.job_toml == second.job_toml);
  EXPECT_TRUE(first.readings_csv == second.readings_csv);
}

TEST(FolderText, AColumnThatIsEmptyInEveryRowIsLeftOut) {
  const std::string readings = "part,station,direction,reading,setting\nbore-1,top,thrust,31 cw,s\n";
  EXPECT_EQ(written(imported(kJob, readings)).texts.readings_csv, readings);
}

/// The events with a text put wherever a person may write one.
std::vector<EventEnvelope> with_text(const std::string& text) {
  std::vector<EventEnvelope> out = events();
  for (EventEnvelope& event : out) {
    if (auto* opened = std::get_if<JobOpened>(&event.payload)) opened->name = opened->remark = text;
    if (auto* engine = std::get_if<EngineDescribed>(&event.payload)) engine->name = engine->thrust_side = engine->banks[0] = text;
    if (auto* entered = std::get_if<PartEntered>(&event.payload)) entered->part.position = entered->part.step.seen_where = text;
    if (auto* seen = std::get_if<FindingSeen>(&event.payload)) seen->finding.what = seen->finding.where = text;
    if (auto* entered = std::get_if<LimitEntered>(&event.payload)) entered->limit.origin.book = entered->limit.origin.decision = text;
    if (auto* made = std::get_if<SettingMade>(&event.payload); made != nullptr && made->setting.id == "m") made->setting.id = text;
    if (auto* found = std::get_if<GaugeFoundOut>(&event.payload); found != nullptr && found->found.good_again) found->found.good_again = text;
    if (auto* taken = std::get_if<ReadingTaken>(&event.payload)) {
      taken->reading.note = taken->reading.round = event.who = event.made_at = text;
      if (taken->reading.setting == "m") taken->reading.setting = text;
    }
  }
  return out;
}

TEST(FolderText, ATextMayBeAnything) {
  for (const std::string& text :
       {std::string("\""), std::string("a \"b\" \\ c"), std::string("\\n \\u0041 \\"), std::string("'''\"\"\""), std::string("one,two;three\tfour"),
        std::string("line\nline\n\nline\n"), std::string("\x01\x08\x0B\x1B\x7F"), std::string("#"), std::string("# bore-9,top,thrust,1 cw,s"),
        std::string(" blanks around\t"), std::string("=1+1"), std::string("[part]"), std::string("\xEF\xBB\xBF"), std::string("Ø ° µ \u2028 \U0001F527 \u202E"),
        std::string("}\n[[part]]\nid = \"x\""), std::string(2000, '"')}) {
    expect_whole(written(with_text(text)), text);
  }
}

TEST(FolderText, ATextMayBeMadeOfAnyTwoPieces) {
  const std::vector<std::string> pieces = {"\"", "\\", "\n", ",", ";", "\t", "#", " ", "'", "\x1B", "=", "Ø", "x"};
  for (const std::string& a : pieces) {
    for (const std::string& b : pieces) expect_whole(written(with_text(a + b)), a + b);
  }
}

TEST(FolderText, AJobThatWasNeverOpenedGetsItsIdAsNameAndThatIsSaid) {
  std::vector<EventEnvelope> log = imported("[job]\nid = \"j\"\nname = \"n\"\n", "part,station,direction,reading,setting\n");
  log.front().payload = EngineDescribed{"an engine", {}, {}, {}, {}, {}, {}, {}};
  const WrittenFolder folder = written(log);
  EXPECT_TRUE(folder.refused.empty());
  EXPECT_EQ(folder.left_out, (std::vector<Message>{{"folder.differs", {word("what", "folder.job"), verbatim("id", "")}}}));
}

TEST(FolderText, WhatTheImporterRefusesIsSaid) {
  EXPECT_EQ(codes(written(with_text(std::string("a\0b", 3))).refused), (std::vector<std::string>{"entry.table_not_utf8"}));
  EXPECT_EQ(codes(written(with_text("\xC3")).refused), (std::vector<std::string>{"document.not_utf8"}));
  EXPECT_EQ(codes(written(with_text(std::string(70'000, 'x'))).refused).front(), "entry.table_line_too_long");
}

TEST(FolderText, LineEndsThatATableCannotHoldAreSaid) {
  std::vector<EventEnvelope> log = events();
  std::get<ReadingTaken>(log.back().payload).reading.note = "a\r\nb";
  const WrittenFolder folder = written(log);
  EXPECT_TRUE(folder.refused.empty());
  EXPECT_EQ(folder.left_out, (std::vector<Message>{{"folder.differs", {word("what", "folder.reading"), verbatim("id", "bore-1 in odd")}}}));
}

TEST(FolderText, WhatIsLeftOutIsCounted) {
  std::vector<EventEnvelope> log = events();
  EventEnvelope correction = log.back();
  auto& reading = std::get<ReadingTaken>(correction.payload).reading;
  reading.supersedes = correction.id;
  reading.note = "line\nline";
  correction.id = std::string(32, 'a');
  EventEnvelope renamed = log.front();
  renamed.id = std::string(32, 'b');
  renamed.who = "M";
  std::get<JobOpened>(renamed.payload).name = "another name";
  log.push_back(correction);
  log.push_back(renamed);
  log.push_back(renamed);  // accepted once
  correction.id = std::string(32, 'c');
  std::get<ReadingTaken>(correction.payload).reading.supersedes = std::string(32, 'a');
  std::get<ReadingTaken>(correction.payload).reading.note = "";
  log.push_back(correction);
  const WrittenFolder folder = written(log);
  EXPECT_TRUE(folder.refused.empty());
  EXPECT_EQ(keys(folder.left_out), (std::vector<std::string>{"folder.left_out_corrected", "folder.left_out_earlier", "folder.left_out_entered"}));
  EXPECT_NE(folder.texts.readings_csv.find("\n# corrected: bore-1,in,odd,"), std::string::npos);
  EXPECT_NE(folder.texts.readings_csv.find("line line"), std::string::npos);
  const std::vector<EventEnvelope> again = imported(folder.texts.job_toml, folder.texts.readings_csv);
  EXPECT_EQ(fold(again).job.readings.size(), 6U);
  EXPECT_EQ(std::get<JobOpened>(again.front().payload).name, "another name");
}

TEST(FolderText, AQuantityWithoutItsOwnUnitGetsOneAndThatIsSaid) {
  std::vector<EventEnvelope> log = events();
  for (EventEnvelope& event : log) {
    if (auto* made = std::get_if<SettingMade>(&event.payload); made != nullptr && made->setting.id == "s2") made->setting.set->text = "84";
  }
  const WrittenFolder folder = written(log);
  EXPECT_NE(folder.texts.job_toml.find("set = \"84 mm\""), std::string::npos);
  ASSERT_EQ(keys(folder.left_out), (std::vector<std::string>{"folder.differs"}));
  EXPECT_EQ(folder.left_out.front().arguments, (std::vector<Argument>{word("what", "folder.setting"), verbatim("id", "s2")}));
}

TEST(FolderText, RowsThatAreAlikeAreNumbered) {
  std::vector<EventEnvelope> log = imported(kJob, "part,station,direction,reading,setting\nbore-1,top,thrust,31 cw,s\nbore-1,top,thrust,32 cw,s\n");
  for (int i = 0; i < 2; ++i) {
    log.push_back(log.back());
    log.back().id = std::string(32, i == 0 ? 'a' : 'b');
  }
  const WrittenFolder folder = written(log);
  EXPECT_TRUE(folder.refused.empty());
  EXPECT_EQ(folder.texts.readings_csv.substr(folder.texts.readings_csv.find('\n') + 1).size(), std::string("bore-1,top,thrust,31 cw,s,\n").size() * 4 + 2);
  EXPECT_EQ(fold(imported(folder.texts.job_toml, folder.texts.readings_csv)).job.readings.size(), 4U);
}

TEST(FolderText, EventsThatDoNotFoldAreRefused) {
  std::vector<EventEnvelope> log = events();
  log.back().job = "another";
  const auto folder = written_folder(log);
  ASSERT_FALSE(folder.ok());
  EXPECT_EQ(folder.problems().front().code, "job.another_job");
}

TEST(WrittenFolder, SerialNumberStaysFilesAndWithdrawalsAreCounted) {
  const auto event = [](const std::string& id, Payload payload) { return EventEnvelope{id, "tern", "d", 1, "", "", std::move(payload)}; };
  EngineDescribed engine{"Curlew 3", {}, {}, "", {}, "", "", ""};
  engine.serial = "K \"4711\"";
  const std::string first(32, 'a');
  const FindingSeen seen{{"bore-1", "score", FindingWeight::note, "", {}}};
  const Part bore{"bore-1", "cylinder-bore", "", {}, {StepKind::unknown, {}, ""}, Condition::worn};
  const WrittenFolder folder = written_folder({event(std::string(32, '1'), JobOpened{"Tern", {}, {}, UnitId::millimetre, ""}),
                                               event(std::string(32, '2'), engine), event(std::string(32, '3'), PartEntered{bore}), event(first, seen),
                                               event(std::string(32, 'b'), EventWithdrawn{first, "wrong bore"}),
                                               event(std::string(32, 'c'), FileAttached{std::string(64, 'a'), "image/png", "x.png", {}, ""})})
                                   .value();
  EXPECT_EQ(keys(folder.left_out), (std::vector<std::string>{"folder.left_out_files"}));
  EXPECT_EQ(folder.texts.job_toml.find("score"), std::string::npos) << "what was withdrawn is not written";
  EXPECT_NE(folder.texts.job_toml.find("serial = \"K \\\"4711\\\"\""), std::string::npos) << folder.texts.job_toml;
}

}  // namespace
}  // namespace fettle
