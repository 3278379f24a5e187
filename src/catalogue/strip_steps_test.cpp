#include "catalogue/strip_steps.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <set>

#include "catalogue/catalogue.h"
#include "text/sentence.h"

namespace fettle {
namespace {

TEST(StripSteps, WhatAStepDestroysIsMeasuredBeforeIt) {
  std::set<std::string> seen;
  for (const StripStep& each : strip_steps()) {
    EXPECT_TRUE(seen.insert(each.id).second) << each.id << " twice";
    for (const std::string& before : each.before) {
      EXPECT_NE(strip_step(before), nullptr) << each.id << " names " << before;
      EXPECT_FALSE(seen.contains(before)) << each.id << " comes after " << before;
    }
  }
}

TEST(StripSteps, EveryStepHasItsKindsItsWordsAndItsCautions) {
  for (const StripStep& each : strip_steps()) {
    for (const std::string& kind : each.kinds) EXPECT_NE(catalogue().kind(kind), nullptr) << each.id << " " << kind;
    for (const std::string& station : each.stations) {
      const auto has = [&](const std::string& kind) { return catalogue().kind(kind)->layout.find_station(station).has_value(); };
      EXPECT_TRUE(std::any_of(each.kinds.begin(), each.kinds.end(), has)) << each.id << " " << station;
    }
    EXPECT_FALSE(each.origin.empty()) << each.id;
    EXPECT_TRUE(each.act != StripAct::measure || !each.kinds.empty()) << each.id << " measures nothing";
    for (const Language language : {Language::english, Language::german}) {
      EXPECT_TRUE(has_key("strip_step." + each.id, language)) << each.id;
      EXPECT_TRUE(has_key("strip_why." + each.id, language)) << each.id;
      for (const std::string& caution : each.cautions) EXPECT_TRUE(has_key("caution." + caution, language)) << caution;
    }
  }
}

// workshop-design: everything that stripping destroys stands in the list, each in its step.
TEST(StripSteps, WhatStrippingDestroysIsAllThere) {
  std::set<std::string> measured;
  for (const StripStep& each : strip_steps()) {
    if (each.act == StripAct::measure && !each.before.empty()) measured.insert(each.kinds.begin(), each.kinds.end());
  }
  for (const char* kind : {"compression", "leak-down", "valve-lash", "lash-shim", "timing-chain", "timing-belt", "cam-lobe", "crank-end-float", "rod-play",
                           "deck-clearance", "liner-protrusion", "gear-backlash", "flywheel-face", "clock-face", "cam-end-play", "case-test", "squish-solder"}) {
    EXPECT_TRUE(measured.contains(kind)) << kind;
  }
}

}  // namespace
}  // namespace fettle
