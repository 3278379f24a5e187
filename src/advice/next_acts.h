#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "advice/next_visit.h"
#include "base/kept.h"
#include "gauging/setting.h"
#include "verdict/judge.h"

namespace fettle {

/// What a person may do next with the gauge in hand.
enum class ActSort { read_unread, read_again, set_afresh, set_afresh_twice, other_master, rest_first };

/// Why an act is not worth its time. closed: the round under that setting is over, a reading now needs a fresh setting. setting_in_doubt,
/// master_in_doubt: all readings would share the error that the doubt hangs on. too_little: it settles next to nothing. slower: another
/// act does the same in less time.
enum class WhyUseless { closed, setting_in_doubt, master_in_doubt, too_little, slower };

struct NextPlace {
  std::string part;
  std::size_t cell;
  std::size_t setting;  ///< which of the fresh ones, from 0
  std::size_t times;
  bool read_before;
  bool unworn;          ///< a foot: it tells of the setting
};

struct SettledPart {
  std::string part;
  double chance;   ///< that it keeps its limits, now
  double settles;  ///< chance that its verdict is no longer too close to call afterwards
};

struct NextAct {
  ActSort sort;
  std::string kind;
  std::string setting;             ///< the last one that the parts were read under
  std::vector<NextPlace> places;
  double minutes;
  double waiting;                  ///< of these, minutes in which nobody has to stand there
  std::vector<SettledPart> settled;  ///< of the open parts
  double settles;                  ///< parts that it settles, on the average
  std::optional<WhyUseless> useless;
};

/// What one open part, or all of a group together, need.
struct AdviceFor {
  std::string part;             ///< empty: all open parts of the group
  std::string kind;
  std::vector<NextAct> acts;    ///< worth their time, the one that settles most in a minute first
  std::vector<NextAct> useless;
  DoubtShares doubt;            ///< of the first open part
};

struct NextInput {
  const std::vector<PartOnBench>& parts;
  const std::vector<GroupEstimate>& groups;
  const Judgement& judgement;
  const std::vector<Kept<Limit>>& limits;
  const std::vector<Kept<Setting>>& settings;
  const SizeSet& sizes;
  VisitMinutes minutes = {};
};

struct Advice {
  std::vector<AdviceFor> groups;  ///< those with something open; best first
  std::vector<AdviceFor> parts;   ///< every open part by itself, in the order of the parts; also those of which places were not read
  std::vector<std::string> not_worked_out;  ///< open parts whose limits are reckoned by formulas alone
};

/// Which acts with the gauge settle most of what is too close to call for each minute, over the engine and for each open part. By preposterior
/// analysis on draws of the estimate: what a visit explains of the margin of each part moves the chance that is stated. Places greedily, see
/// plan_visit. Chances to a few hundredths (1024 draws, cut-off margins taken as normal). Deterministic. Kept by NextActs.*.
[[nodiscard]] Advice next_acts(const NextInput& input);

/// "set-afresh"; text key "next." + name
[[nodiscard]] std::string_view act_sort_name(ActSort sort);
/// "setting-in-doubt"; text key "next.useless." + name
[[nodiscard]] std::string_view useless_name(WhyUseless why);
/// "master"; text key "next.doubt." + name
[[nodiscard]] std::string_view doubt_name(DoubtOf doubt);

}  // namespace fettle
