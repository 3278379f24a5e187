#include "app/thumb_offers.h"

#include <gtest/gtest.h>

#include "app/acts_on_bench.h"
#include "app/thumb_page.h"
#include "job/fold.h"
#include "job/folder.h"
#include "job/job_text.h"

namespace fettle {
namespace {

const std::string kByThumb = std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/by-thumb";

Job job_of(const std::string& toml) {
  const Imported imported = import_folder({"f", toml, "part,station,direction,reading,unit,setting\n"});
  EXPECT_TRUE(imported.problems.empty()) << toml << "\n" << (imported.problems.empty() ? "" : sentence(imported.problems.front(), Language::english));
  return fold(imported.events).job;
}

std::string head(const std::string& more = "decimal_mark = \"point\"\n") { return "[job]\nid = \"j\"\nname = \"J\"\n" + more; }
std::string part(const std::string& id, const std::string& kind) {
  return "[[part]]\nid = \"" + id + "\"\nkind = \"" + kind + "\"\nstep = \"standard\"\ncondition = \"worn\"\n";
}
std::string limit(const std::string& id, const std::string& kind, const std::string& definition, const std::string& role, const std::string& side, const std::string& bound,
                  const std::string& more = "book = \"b\"\npage = \"1\"\n") {
  return "[[limit]]\nid = \"" + id + "\"\nkind = \"" + kind + "\"\ndefinition = \"" + definition + "\"\nrole = \"" + role + "\"\nside = \"" + side + "\"\nbound = \"" + bound + "\"\n" + more;
}
std::string bore_depths() {
  return "[[layout]]\nkind = \"cylinder-bore\"\nstation = [{ id = \"top\", role = \"first\", depth = \"10 mm\" }, { id = \"mid\", role = \"middle\", depth = \"60 mm\" }, "
         "{ id = \"bottom\", role = \"last\", depth = \"110 mm\" }, { id = \"foot\", role = \"reference\", depth = \"125 mm\" }]\n";
}

/// "bore-wear 0.084 mm", "bore-taper ?length"
std::vector<std::string> said(const std::vector<ThumbOffer>& offers) {
  std::vector<std::string> out;
  for (const ThumbOffer& each : offers) {
    out.push_back(each.id + " " + (each.limit ? each.limit->bound.text : "?" + std::string(thumb_size_name(*each.missing))));
  }
  return out;
}
std::vector<std::string> offered(const Job& job) { return said(thumb_offers(job, catalogue())); }
using Said = std::vector<std::string>;

const std::string kNewBore = limit("low", "cylinder-bore", "size-3", "new", "at-least", "100.00 mm");

TEST(ThumbOffers, AreForWhatHasNoLimitAndSayWhichSizeIsMissing) {
  EXPECT_EQ(offered(job_of(head() + part("b", "cylinder-bore"))), (Said{"bore-taper ?length", "bore-wear ?diameter"})) << "without depths nobody divides by a length";
  EXPECT_EQ(offered(job_of(head() + bore_depths() + part("b", "cylinder-bore") + kNewBore)), (Said{"bore-taper 0.05 mm", "bore-taper-slope 0.0005 in", "bore-wear 0.1 mm"}));
  EXPECT_EQ(offered(job_of(head() + bore_depths() + part("b", "cylinder-bore") + kNewBore + limit("t", "cylinder-bore", "tap-2", "service", "at-most", "0.1 mm"))),
            (Said{"bore-taper-slope 0.0005 in", "bore-wear 0.1 mm"}));
  EXPECT_TRUE(offered(job_of(head())).empty()) << "no part, no offer";
  EXPECT_TRUE(offered(job_of(head() + part("s", "bearing-housing"))).empty()) << "no rule is about it";
}

/// Wear counts from the size on the side where nothing wears; a largest new size in its place would forgive the tolerance.
TEST(ThumbOffers, WearNeverCountsFromTheWrongSize) {
  const std::string bore = head() + part("b", "cylinder-bore");
  EXPECT_EQ(offered(job_of(bore + limit("high", "cylinder-bore", "size-1", "new", "at-most", "100.03 mm"))), (Said{"bore-taper ?length", "bore-wear ?diameter"}));
  const auto offers = thumb_offers(job_of(bore + limit("high", "cylinder-bore", "size-1", "new", "at-most", "100.03 mm") + kNewBore), catalogue());
  ASSERT_EQ(said(offers).back(), "bore-wear 0.1 mm");
  EXPECT_EQ(offers.back().limit->standard->text, "100.00 mm");
  const std::string piston = head() + part("b", "cylinder-bore") + part("p", "piston") + kNewBore;
  EXPECT_EQ(offered(job_of(piston)).back(), "piston-wear ?diameter") << "the bore's size is no piston's: the clearance would count as wear";
  EXPECT_EQ(offered(job_of(piston + limit("p-high", "piston", "size-3", "new", "at-most", "99.96 mm"))).back(), "piston-wear 0.04998 mm");
}

TEST(ThumbOffers, AStandardThatALimitStatesGoesBeforeNewSizes) {
  const auto offers = thumb_offers(job_of(head() + part("b", "cylinder-bore") + kNewBore +
                                          limit("w3", "cylinder-bore", "wear-3", "service", "at-most", "0.2 mm", "standard = \"100.01 mm\"\nbook = \"b\"\npage = \"1\"\n")), catalogue());
  ASSERT_EQ(offers.size(), 2U);
  EXPECT_EQ(offers.back().limit->standard->text, "100.01 mm");
  EXPECT_EQ(offers.back().beside, (Said{"w3"})) << "the job limits wear already, by another definition";
}

TEST(ThumbOffers, WhatRunsInItStandsForItsSizeWhereOnlyAShareIsTaken) {
  const std::string bearing = limit("brg", "bearing-bore", "size-3", "new", "at-least", "50.00 mm");
  EXPECT_EQ(offered(job_of(head() + part("m", "main-journal") + bearing)), (Said{"journal-out-of-round-main-journal 0.02 mm"}));
  EXPECT_EQ(offered(job_of(head() + part("m", "main-journal") + part("c", "crankpin") + bearing)),
            (Said{"journal-out-of-round-main-journal ?diameter", "journal-out-of-round-crankpin ?diameter"}))
      << "nobody says whose bearing it is";
  EXPECT_EQ(offered(job_of(head() + part("m", "main-journal") + bearing + limit("m", "main-journal", "size-1", "new", "at-least", "49.95 mm"))),
            (Said{"journal-out-of-round-main-journal 0.01998 mm"}))
      << "its own goes before, near enough on either side";
}

TEST(ThumbOffers, SpringsAndLeakDown) {
  EXPECT_EQ(offered(job_of(head() + part("s", "valve-spring") + part("l", "leak-down"))),
            (Said{"spring-short ?new-size", "leak-down-loss 0.25", "leak-down-lower 0.2", "leak-down-good 0.15", "leak-down-rebuild 0.3"}));
  EXPECT_EQ(offered(job_of(head() + part("s", "valve-spring") + limit("f", "valve-spring", "spring-free", "new", "at-most", "48.0 mm"))), (Said{"spring-short 0.03"}));
}

/// A rule of thumb says no size that another could be reckoned from, and no figure to go by is offered.
TEST(ThumbOffers, NothingRestsOnARuleOfThumb) {
  const std::string thumb = "decision = \"JB\"\nrule_of_thumb = true\naccepted = true\n";
  EXPECT_EQ(offered(job_of(head() + part("b", "cylinder-bore") + limit("x", "cylinder-bore", "size-3", "new", "at-least", "100 mm", thumb))).back(), "bore-wear ?diameter");
  EXPECT_TRUE(offered(job_of(head() + part("b", "bearing-bore") + part("m", "main-journal") + "[[part]]\nid = \"bm\"\nkind = \"bearing-and-journal\"\nstep = \"unknown\"\n"
                                    "members = { bearing = \"b\", journal = \"m\" }\n" + limit("o", "main-journal", "oor-1", "service", "at-most", "0.02 mm"))).empty());
}

/// What a person pastes is read back, whatever mark the job has; an id that is taken is not taken again.
TEST(ThumbOffers, TheBlockIsReadBackAsTheAcceptedLimit) {
  for (const std::string& mark : {std::string("decimal_mark = \"point\"\n"), std::string("decimal_mark = \"comma\"\n"), std::string()}) {
    const std::string text = head(mark + "shown_unit = \"in\"\n") + bore_depths() + part("b", "cylinder-bore") + part("s", "valve-spring") + part("l", "leak-down") +
                             limit("thumb-bore-wear", "cylinder-bore", "size-3", "new", "at-least", "1084 mm");  // 1.084: three places may be thousands
    const auto offers = thumb_offers(job_of(text), catalogue());
    EXPECT_EQ(offers.size(), 8U);
    int read = 0;
    for (const ThumbOffer& each : offers) {
      if (!each.limit) continue;
      const Limit accepted = accepted_by(each, "JB");
      EXPECT_TRUE(each.limit->origin.rule_of_thumb && !each.limit->origin.accepted) << "never by itself";
      EXPECT_TRUE(accepted.origin.accepted && accepted.origin.rule_of_thumb);
      const Job with = job_of(text + limit_text(accepted, {"no maker's figure"}));
      ASSERT_EQ(with.limits.size(), 2U);
      EXPECT_EQ(with.limits.back().value, accepted) << mark << each.id;
      EXPECT_EQ(bound_of(with.limits.back().value), bound_of(*each.limit)) << mark << each.id;
      const auto left = thumb_offers(with, catalogue());
      EXPECT_TRUE(std::none_of(left.begin(), left.end(), [&](const ThumbOffer& other) { return other.definition == each.definition; })) << "a person picked one";
      ++read;
    }
    EXPECT_EQ(read, 7);
    const auto wear = std::find_if(offers.begin(), offers.end(), [](const ThumbOffer& each) { return each.id == "bore-wear"; });
    EXPECT_EQ(wear->limit->id, "thumb-bore-wear-2");
    EXPECT_EQ(wear->limit->bound.text, mark.empty() ? "1.0840 mm" : mark.find("comma") == std::string::npos ? "1.084 mm" : "1,084 mm");
  }
}

TEST(ThumbOffers, OnlyWhatIsLimitedInNoWayIsCalledUnlimited) {
  const auto offers = thumb_offers(job_of(head() + bore_depths() + part("b", "cylinder-bore") + part("p", "piston") + kNewBore +
                                          limit("s", "cylinder-bore", "size-1", "service", "at-most", "100.1 mm")), catalogue());
  EXPECT_EQ(unlimited_words(unlimited(offers, ""), Language::english),
            "taper, worse of two axes (cylinder bore); taper per length (cylinder bore); wear, worst place against standard (piston)");
  EXPECT_EQ(unlimited_words(unlimited(offers, "piston"), Language::german), "Verschleiß, schlechteste Stelle gegen Sollmaß (Kolben)");
}

TEST(ThumbOffers, AnActAcceptsOneAsItWasShown) {
  ActsOnBench bench;
  bench.ready();
  const auto offers = thumb_offers(bench.now(), catalogue());
  const auto wear = std::find_if(offers.begin(), offers.end(), [](const ThumbOffer& each) { return each.id == "bore-wear"; });
  ASSERT_NE(wear, offers.end());
  EXPECT_EQ(wear->limit->bound.text, "0.078 mm");
  const LimitAct as_shown{"w", "cylinder-bore", "wear-1", LimitRole::service, LimitSide::at_most, "0.078 mm", {}, {}, {}, "bore-wear"};
  const auto code = [&](LimitAct act) {
    const ActDone done = bench.send(ActBody(std::move(act)));
    return done.kept ? "kept" : codes_of(done.problems);
  };
  LimitAct other = as_shown;
  other.bound = "0.1 mm";
  EXPECT_EQ(code(other), "acts.thumb_other_figure");
  other = as_shown;
  other.side = LimitSide::at_least;
  EXPECT_EQ(code(other), "acts.thumb_other_figure");
  other = as_shown;
  other.page = "14";
  EXPECT_EQ(code(other), "acts.thumb_with_book");
  other = as_shown;
  other.thumb = "bore-taper";
  EXPECT_EQ(code(other), "acts.thumb_not_offered") << "no depth is known: it has no figure";
  other.thumb = "no-such";
  EXPECT_EQ(code(other), "acts.thumb_not_offered");
  const std::size_t before = bench.now().limits.size();
  const Act act = bench.act(as_shown);
  ASSERT_TRUE(bench.send({act}).acts.at(0).kept);
  EXPECT_FALSE(bench.send({act}).acts.at(0).fresh) << "sent again because the answer was lost";
  ASSERT_EQ(bench.now().limits.size(), before + 1);
  const Limit kept = bench.now().limits.back().value;
  EXPECT_EQ(kept.id, "w");
  EXPECT_EQ(kept.standard->text, "78.000 mm");
  const LimitOrigin& origin = kept.origin;
  EXPECT_TRUE(origin.rule_of_thumb && origin.accepted);
  EXPECT_EQ(origin.book + "|" + origin.decision, "TM 10-3930-647-14&P ix175 (W-11)|JB");
  EXPECT_EQ(code(as_shown), "acts.thumb_not_offered") << "it has one now";
}

}  // namespace
}  // namespace fettle
