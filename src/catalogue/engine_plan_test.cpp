#include "catalogue/engine_plan.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <set>

#include "catalogue/catalogue.h"
#include "text/sentence.h"

namespace fettle {
namespace {

std::size_t count_of(const EnginePlan& plan, std::string_view kind) {
  return static_cast<std::size_t>(std::count_if(plan.parts.begin(), plan.parts.end(), [&](const PlannedPart& each) { return each.kind == kind; }));
}

const PlannedPart* part_named(const EnginePlan& plan, std::string_view id) {
  const auto found = std::find_if(plan.parts.begin(), plan.parts.end(), [&](const PlannedPart& each) { return each.id == id; });
  return found == plan.parts.end() ? nullptr : &*found;
}

std::size_t stations_of(const EnginePlan& plan, std::string_view kind) {
  for (const PlannedLayout& each : plan.layouts) {
    if (each.kind == kind) return each.layout.stations.size();
  }
  return catalogue().kind(kind)->layout.stations.size();
}

std::vector<std::string> codes(const Result<EnginePlan>& plan) {
  std::vector<std::string> out;
  if (!plan.ok()) {
    for (const Problem& each : plan.problems()) out.push_back(each.code);
  }
  return out;
}

TEST(EngineData, EveryPartIsOfAKnownKindAndEveryMemberOfOneThatMayTakeIt) {
  const EngineData& data = engine_data();
  for (const EnginePart& part : data.parts) {
    const Kind* kind = catalogue().kind(part.kind);
    ASSERT_NE(kind, nullptr) << part.kind;
    ASSERT_EQ(part.members.size(), kind->members.size()) << part.kind;
    for (std::size_t i = 0; i < part.members.size(); ++i) {
      const KindMember& place = kind->members[i];
      EXPECT_EQ(part.members[i].role, place.role) << part.kind;
      const auto taker = std::find_if(data.parts.begin(), data.parts.end(), [&](const EnginePart& each) { return each.name == part.members[i].name; });
      ASSERT_NE(taker, data.parts.end()) << part.members[i].name;
      EXPECT_NE(std::find(place.kinds.begin(), place.kinds.end(), taker->kind), place.kinds.end()) << part.kind << " " << place.role << " by " << taker->kind;
    }
    for (const std::string& station : part.only) EXPECT_TRUE(kind->layout.find_station(station)) << part.kind << " " << station;
  }
}

TEST(EngineData, EveryConditionAsksForAWordThatItsQuestionHas) {
  const auto sound = [](const std::vector<EngineCondition>& when) {
    for (const EngineCondition& each : when) {
      const auto& questions = engine_data().questions;
      const auto question = std::find_if(questions.begin(), questions.end(), [&](const EngineQuestion& one) { return one.id == each.question; });
      ASSERT_NE(question, questions.end()) << each.question;
      for (const std::string& word : each.any_of) EXPECT_NE(std::find(question->choices.begin(), question->choices.end(), word), question->choices.end()) << word;
    }
  };
  for (const EngineQuestion& each : engine_data().questions) {
    sound(each.when);
    for (const Language language : {Language::english, Language::german}) {
      EXPECT_TRUE(has_key("engine_question." + each.id, language)) << each.id;
      for (const std::string& word : each.choices) EXPECT_TRUE(has_key("engine_choice." + word, language)) << word;
    }
  }
  for (const EnginePart& each : engine_data().parts) sound(each.when);
}

TEST(EnginePlanned, AFourCylinderWithSixteenValves) {
  const auto plan = plan_engine({{"inlets", "2"}, {"exhausts", "2"}, {"camshafts", "2"}, {"lash", "shims"}});
  ASSERT_TRUE(plan.ok());
  EXPECT_EQ(count_of(plan.value(), "cylinder-bore"), 4U);
  EXPECT_EQ(count_of(plan.value(), "main-journal"), 5U);
  EXPECT_EQ(count_of(plan.value(), "crankpin"), 4U);
  EXPECT_EQ(count_of(plan.value(), "valve-guide"), 16U);
  EXPECT_EQ(count_of(plan.value(), "cam-journal"), 10U);
  EXPECT_EQ(count_of(plan.value(), "lash-shim"), 16U);
  EXPECT_EQ(count_of(plan.value(), "valve-lash"), 0U);
  std::set<std::string> kinds;
  for (const PlannedPart& each : plan.value().parts) kinds.insert(each.kind);
  EXPECT_GE(kinds.size(), 35U);
  const PlannedPart* fit = part_named(plan.value(), "stem-fit-3ex-2");
  ASSERT_NE(fit, nullptr);
  EXPECT_EQ(fit->position, "3ex 2");
  EXPECT_EQ(fit->members, (std::vector<PlannedMember>{{"bore", "guide-3ex-2"}, {"shaft", "stem-3ex-2"}}));
}

TEST(EnginePlanned, EveryIdIsOneOfItsOwnAndEveryMemberIsThere) {
  for (const EngineAnswers& answers : {EngineAnswers{}, {{"cylinders", "9"}, {"liners", "wet"}, {"valve-gear", "push-rods"}, {"clutch", "wet"}},
                                       {{"cylinders", "8"}, {"banks", "2"}, {"liners", "dry"}, {"oil-pump", "rotors"}, {"timing-drive", "gears"}},
                                       {{"cycle", "two-stroke"}, {"cylinders", "2"}, {"big-ends", "rolling"}, {"liners", "plated"}, {"clutch", "dry"}}}) {
    const auto plan = plan_engine(answers);
    ASSERT_TRUE(plan.ok());
    std::set<std::string> ids;
    for (const PlannedPart& each : plan.value().parts) {
      EXPECT_TRUE(ids.insert(each.id).second) << each.id;
      for (const PlannedMember& member : each.members) EXPECT_TRUE(ids.contains(member.part)) << each.id << " needs " << member.part << " before it";
    }
    for (const PlannedLayout& each : plan.value().layouts) EXPECT_TRUE(layout_problems(each.layout, {}).empty()) << each.kind;
  }
}

TEST(EnginePlanned, NineCylindersHaveTenMainsAndNineTests) {
  const auto plan = plan_engine({{"cylinders", "9"}, {"liners", "wet"}});
  ASSERT_TRUE(plan.ok());
  EXPECT_EQ(count_of(plan.value(), "liner-bore"), 9U);
  EXPECT_EQ(count_of(plan.value(), "main-journal"), 10U);
  EXPECT_EQ(count_of(plan.value(), "liner-neighbours"), 8U);
  EXPECT_EQ(stations_of(plan.value(), "compression"), 9U);
  EXPECT_EQ(stations_of(plan.value(), "crankshaft"), 10U);
  EXPECT_EQ(part_named(plan.value(), "stand-out-step-8-9")->members, (std::vector<PlannedMember>{{"one", "stand-out-8"}, {"next", "stand-out-9"}}));
  EXPECT_EQ(word_for("station.cylinder-9", Language::english), "cylinder 9");
  EXPECT_EQ(word_for("station.main-10", Language::german), "Hauptlager 10");
}

TEST(EnginePlanned, AVeeHasItsBanksByLettersAndSharesItsPins) {
  const auto plan = plan_engine({{"cylinders", "8"}, {"banks", "2"}});
  ASSERT_TRUE(plan.ok());
  EXPECT_EQ(plan.value().banks, (std::vector<std::string>{"A", "B"}));
  EXPECT_NE(part_named(plan.value(), "bore-b4"), nullptr);
  EXPECT_EQ(count_of(plan.value(), "main-journal"), 5U);
  EXPECT_EQ(count_of(plan.value(), "crankpin"), 4U);
  EXPECT_EQ(count_of(plan.value(), "head-face"), 2U);
}

TEST(EnginePlanned, ATwoStrokeHasPortsAndNoValves) {
  const auto plan = plan_engine({{"cycle", "two-stroke"}, {"cylinders", "2"}, {"big-ends", "rolling"}});
  ASSERT_TRUE(plan.ok());
  EXPECT_EQ(count_of(plan.value(), "port"), 4U);
  EXPECT_EQ(part_named(plan.value(), "exhaust-port-2")->position, "2 exhaust");
  for (const char* none : {"valve-guide", "camshaft", "main-journal", "compression"}) EXPECT_EQ(count_of(plan.value(), none), 0U) << none;
  EXPECT_EQ(stations_of(plan.value(), "rod-play"), 3U);
}

TEST(EnginePlanned, EverythingWrongIsToldAtOnce) {
  EXPECT_EQ(codes(plan_engine({{"cycle", "two-stroke"}, {"inlets", "2"}, {"cylinders", "0"}, {"liners", "damp"}, {"turbos", "2"}})),
            (std::vector<std::string>{"engine.count_bad", "engine.choice_unknown", "engine.question_idle", "engine.question_unknown"}));
  EXPECT_EQ(codes(plan_engine({{"cylinders", "5"}, {"banks", "2"}})), (std::vector<std::string>{"engine.banks_uneven"}));
  EXPECT_EQ(codes(plan_engine({{"cylinders", "4.0"}})), (std::vector<std::string>{"engine.count_bad"}));
}

TEST(EnginePlanned, PartsAreCalledAsTheTradeCallsThem) {
  EXPECT_EQ(part_name_of_kind("cylinder-bore"), "bore");
  EXPECT_EQ(part_name_of_kind("bearing-housing"), "housing");
  EXPECT_EQ(part_name_of_kind("own-kind"), "own-kind");
}

}  // namespace
}  // namespace fettle
