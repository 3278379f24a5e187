#include "job/folder.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "job/fold.h"

namespace fettle {
namespace {

const std::string kHead = "[job]\nid = \"j\"\nname = \"a job\"\ndecimal_mark = \"point\"\n";
const std::string kGauges =
    "[[gauge]]\nid = \"mic\"\npreset = \"outside-micrometer-75-100-mm\"\n"
    "[[gauge]]\nid = \"bg\"\npreset = \"dial-bore-gauge-0-001-mm\"\npressed_in = \"clockwise\"\n"
    "[[setting]]\nid = \"s\"\ngauge = \"bg\"\nmaster = \"mic\"\nset = \"84.000 mm\"\n"
    "[[setting]]\nid = \"m\"\ngauge = \"mic\"\n";
const std::string kPart = "[[part]]\nid = \"bore-1\"\nkind = \"cylinder-bore\"\nstep = \"standard\"\ncondition = \"worn\"\n";
const std::string kColumns = "part,station,direction,reading,unit,setting\n";

Imported import(const std::string& job, const std::string& readings = kColumns) { return import_folder({"f", job, readings}); }

/// "code line" of every problem, in the order given.
std::vector<std::string> told(const Imported& imported) {
  std::vector<std::string> out;
  for (const Problem& each : imported.problems) {
    out.push_back(each.code + " " + (each.place.line ? std::to_string(*each.place.line) : "-"));
  }
  return out;
}

TEST(Folder, BecomesEventsWithStableIds) {
  const Imported first = import(kHead + kPart + kGauges, kColumns + "bore-1,top,thrust,57 acw,,s\nbore-1,top,pin,48 acw,,s\n");
  ASSERT_TRUE(first.problems.empty()) << told(first).front();
  const Imported shuffled = import(kHead + kPart + kGauges, kColumns + "bore-1,top,pin,48 acw,,s\n# a remark\nbore-1,top,thrust,57 acw,,s\n");
  ASSERT_EQ(first.events.size(), shuffled.events.size());
  for (std::size_t i = 0; i < first.events.size(); ++i) {
    EXPECT_EQ(first.events[i].id, shuffled.events[i].id);
    EXPECT_EQ(first.events[i].device_sequence, static_cast<std::int64_t>(i + 1));
  }
  EXPECT_TRUE(fold(first.events).problems.empty());
}

TEST(Folder, ATomlSyntaxErrorIsReportedAlone) {
  const Imported imported = import("[job\nid = 1\n", "nonsense\n");
  EXPECT_EQ(told(imported), (std::vector<std::string>{"document.syntax 1"}));
  EXPECT_TRUE(imported.events.empty());
}

TEST(Folder, AllOtherProblemsComeTogether) {
  const Imported imported =
      import(kHead + "[[part]]\nid = \"bore-1\"\nkind = \"cylinder\"\nstep = \"standard\"\ncondition = \"tired\"\n" +
                 "[[finding]]\npart = \"bore-9\"\nwhat = \"crack\"\nweight = \"condemns\"\n" + "[[colour]]\n" + kGauges +
                 "[[setting]]\nid = \"s\"\ngauge = \"bg\"\nset = 84.02\n[rule]\nkind = \"probability\"\nlevel = \"0.3\"\n",
             kColumns + "bore-1,top,thrust,57,,s\nbore-1,,pin,1 acw,,s\n");
  const auto all = told(imported);
  for (const char* code : {"job.kind_unknown", "catalogue.unknown_word", "job.part_unknown", "catalogue.unknown_key", "job.two_ids",
                           "job.quantity_not_quoted", "job.level_range", "entry.no_side", "job.cell_empty"}) {
    EXPECT_TRUE(std::any_of(all.begin(), all.end(), [&](const auto& each) { return each.starts_with(code); })) << code;
  }
  EXPECT_TRUE(imported.events.empty());
}

TEST(Folder, AKitIsReadAsTyped) {
  const std::string kit =
      "[[gauge]]\nid = \"k\"\npreset = \"dial-bore-gauge-0-001-mm\"\n[gauge.kit]\nrods = [\"80 mm\", \"3 1/4 in\"]\n"
      "washers = [\"2 mm\", \"2 mm\"]\nrods_reach = \"middle-of-travel\"\ntravel = \"1.2 mm\"\nrange = [\"50 mm\", \"150 mm\"]\n";
  const Imported imported = import(kHead + kit);
  ASSERT_TRUE(imported.problems.empty()) << told(imported).front();
  const auto& gauge = std::get<GaugeRegistered>(imported.events.at(1).payload).gauge;
  ASSERT_TRUE(gauge.kit.has_value());
  EXPECT_EQ(gauge.kit->rods.at(1).text, "3 1/4 in");
  EXPECT_EQ(gauge.kit->washers.size(), 2U);
  EXPECT_TRUE(gauge.kit->extensions.empty());
  EXPECT_EQ(gauge.kit->rods_reach, RodsReach::middle_of_travel);
  EXPECT_EQ(gauge.kit->range_to->text, "150 mm");
  EXPECT_FALSE(gauge.kit->least_pressed.has_value());
}

TEST(Folder, AKitThatIsWrittenWrongIsRefused) {
  const std::string kit =
      "[[gauge]]\nid = \"k\"\npreset = \"dial-bore-gauge-0-001-mm\"\n[gauge.kit]\nrods = \"80 mm\"\nwashers = [2, \"1 mm\"]\n"
      "rods_reach = \"contact-free\"\nrange = [\"50 mm\"]\n";
  EXPECT_EQ(told(import(kHead + kit)), (std::vector<std::string>{"catalogue.missing_key 8", "job.range_of_two 8", "job.not_a_list 9",
                                                                  "job.quantity_not_quoted 10"}));
}

TEST(Folder, AZeroThatWasFoundSeveralTimesIsAList) {
  const std::string several = kHead + kGauges + "[[setting]]\nid = \"z\"\ngauge = \"bg\"\nmaster = \"mic\"\nset = \"84.000 mm\"\n";
  const Imported imported = import(several + "opening_zero = [\"0\", \"1 acw\", \"0\"]\n");
  ASSERT_TRUE(imported.problems.empty()) << told(imported).front();
  const Setting* found = nullptr;
  for (const auto& event : imported.events) {
    const auto* made = std::get_if<SettingMade>(&event.payload);
    if (made != nullptr && made->setting.id == "z") found = &made->setting;
  }
  ASSERT_NE(found, nullptr);
  EXPECT_FALSE(found->opening_zero.has_value());
  ASSERT_TRUE(found->opening_zeros.has_value());
  EXPECT_EQ(found->opening_zeros->size(), 3U);
  EXPECT_EQ(found->opening_zeros->at(1).quantity.value, Ratio(-1));
  // A bare sign is refused in a list as it is alone.
  EXPECT_EQ(told(import(several + "opening_zero = [\"0\", \"1\"]\n")).front().substr(0, 13), "entry.no_side");
}

TEST(Folder, ChecksOfTheZeroBelongToTheirSetting) {
  const std::string setting = kHead + kGauges + "[[setting]]\nid = \"z\"\ngauge = \"bg\"\nmaster = \"mic\"\nset = \"84.000 mm\"\nafresh_of = \"s\"\n";
  const Imported imported = import(setting + "[[setting.check]]\nround = \"2\"\nafter_order = 7\nshows = \"1 acw\"\n");
  ASSERT_TRUE(imported.problems.empty()) << told(imported).front();
  const auto last = std::find_if(imported.events.rbegin(), imported.events.rend(),
                                 [](const auto& each) { return std::holds_alternative<SettingMade>(each.payload); });
  const Setting& made = std::get<SettingMade>(last->payload).setting;
  EXPECT_EQ(made.afresh_of, "s");
  ASSERT_TRUE(made.checks.has_value() && made.checks->size() == 1);
  EXPECT_EQ(made.checks->front().round, "2");
  EXPECT_EQ(made.checks->front().after_order, 7);
  EXPECT_EQ(made.checks->front().shows.quantity.value, Ratio(-1));
  EXPECT_EQ(told(import(setting + "[[setting.check]]\nround = \"2\"\n")),
            (std::vector<std::string>{"catalogue.missing_key 26", "catalogue.missing_key 26"}));
}

TEST(Folder, ReadingsSayWhichColumnIsWrong) {
  EXPECT_EQ(told(import(kHead + kPart + kGauges, "part,station,direction,readign,unit,setting\n")),
            (std::vector<std::string>{"job.column_missing 1", "job.column_unknown 1"}));
  const std::string header = "part,station,direction,reading,unit,setting,order,flag,temperature\n";
  EXPECT_EQ(told(import(kHead + kPart + kGauges, header + "bore-1,top,thrust,1 acw,,s,first,,\nbore-1,top,pin,1 acw,,s,,rust,\n"
                                                          "bore-1,top,pin,1 acw,furlong,s,,,\nbore-1,top,pin,2 acw,,s,,,hot\n")),
            (std::vector<std::string>{"job.not_a_count 2", "job.flag_unknown 3", "job.unit_unknown 4", "entry.not_a_number 5"}));
}

TEST(Folder, TheSameRowTwiceIsAskedAbout) {
  EXPECT_EQ(told(import(kHead + kPart + kGauges, kColumns + "bore-1,top,pin,1 acw,,s\nbore-1,top,pin,1 acw,,s\n")),
            (std::vector<std::string>{"job.same_row_twice 3"}));
}

TEST(Folder, AMicrometerReadingIsAWholeSize) {
  const Imported imported = import(kHead + kPart + kGauges, kColumns + "bore-1,top,pin,84.02 mm,,m\nbore-1,top,thrust,84.02 mm acw,,m\n");
  EXPECT_EQ(told(imported), (std::vector<std::string>{"entry.side_not_wanted 3"}));
}

TEST(Folder, AMaterialMustBeKnown) {
  EXPECT_EQ(told(import(kHead + kPart + "material = \"cheese\"\n")), (std::vector<std::string>{"job.material_unknown 5"}));
}

// Each of these was taken silently, or ended the program.
TEST(Folder, WhatWouldBeGuessedOrDroppedIsRefused) {
  const std::string layout = "[[layout]]\nkind = \"cylinder-bore\"\nstation = [{ id = \"a\", role = \"first\" }]\n";
  EXPECT_EQ(told(import(kHead + layout + layout)), (std::vector<std::string>{"job.layout_twice 8"}));
  std::string many = "[[layout]]\nkind = \"cylinder-bore\"\ndirection = [";
  for (int i = 0; i < 30; ++i) many += "{ id = \"d" + std::to_string(i) + "\", angle = \"" + std::to_string(i * 5) + " °\" },";
  EXPECT_EQ(told(import(kHead + many + "]\n")), (std::vector<std::string>{"job.layout_too_large 5"}));
  const std::string pin = "[[part]]\nid = \"pin-1\"\nkind = \"crankpin\"\ncondition = \"worn\"\nstep = \"";
  EXPECT_EQ(told(import(kHead + pin + "0.25 mm\"\n")), (std::vector<std::string>{"job.step_unsigned 9"}));
  EXPECT_TRUE(import(kHead + pin + "-0.25 mm\"\n").problems.empty());
  const std::string finding = "[[finding]]\npart = \"bore-1\"\nwhat = \"score\"\nweight = \"note\"\n";
  EXPECT_EQ(told(import(kHead + kPart + finding + finding)), (std::vector<std::string>{"job.finding_twice 14"}));
}

TEST(Folder, ErrorComponentsAreChecked) {
  const auto with = [](const std::string& components) {
    return told(import(kHead + "[[gauge]]\nid = \"m\"\npreset = \"outside-micrometer-75-100-mm\"\ncomponent = [" + components + "]\n"));
  };
  const auto component = [](const std::string& id, const std::string& width, const std::string& more = {}) {
    return "{ id = \"" + id + "\", scope = \"reading\", shape = \"rectangular\", half_width = \"" + width + "\"" + more + " },";
  };
  EXPECT_TRUE(with(component("feel", "2 µm")).empty());
  EXPECT_TRUE(with(component("my own worry", "2 µm")).empty());
  EXPECT_EQ(with(component("fel", "2 µm")), (std::vector<std::string>{"job.component_misspelt 8"}));
  EXPECT_EQ(with(component("feel", "-2 µm")), (std::vector<std::string>{"job.component_negative 8"}));
  EXPECT_EQ(with(component("feel", "2 µm", ", degrees_of_freedom = 0")), (std::vector<std::string>{"job.no_freedom 8"}));
  EXPECT_EQ(with(component("feel", "2 µm") + component("feel", "3 µm")), (std::vector<std::string>{"job.component_twice 8"}));
}

TEST(Folder, NamesAreLookedUpWithEverythingElse) {
  EXPECT_EQ(told(import(kHead + kPart + kGauges, "part,station,direction,reading,unit,setting,flag\n"
                                                 "bore-9,top,thrust,1 acw,,s,\nbore-1,attic,sideways,1 acw,,s,\nbore-1,top,thrust,1 acw,,x,rust\n")),
            (std::vector<std::string>{"gauging.unknown_part 2", "gauging.unknown_station 3", "gauging.unknown_direction 3",
                                      "gauging.unknown_setting 4", "job.flag_unknown 4"}));
}

TEST(Folder, AJobNeedsItsHead) { EXPECT_EQ(told(import(kPart)).front(), "catalogue.missing_key 1"); }

}  // namespace
}  // namespace fettle
