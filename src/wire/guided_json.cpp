#include "wire/guided_json.h"

#include "wire/page_words.h"
#include "wire/simulation_values.h"

namespace fettle {
namespace {

using json::Json;

Json guided_family(const GuidedScores& each) {
  Json out = {{"family", each.family},
              {"hand", each.hand},
              {"engines", each.engines},
              {"price_of_a_minute", json::number(each.price)},
              {"first_readings", json::number(each.first_readings)},
              {"more_readings", json::number(each.more_readings)},
              {"more_settings", json::number(each.more_settings)},
              {"notebook_more_readings", json::number(each.notebook_more_readings)}};
  if (each.before) out["before"] = json::scattered(*each.before);
  if (each.after) out["guided"] = json::scattered(*each.after);
  if (each.notebook) out["notebook_guided"] = json::scattered(*each.notebook);
  if (each.chances) out["chances"] = json::reliability_of(*each.chances);
  return out;
}

Json guided_hand(const GuidedHand& each) {
  Json out = {{"hand", each.hand}, {"price_of_a_minute", json::number(each.price)}};
  if (each.chances) out["chances"] = json::reliability_of(*each.chances);
  return out;
}

}  // namespace

std::string guided_json(std::uint64_t seed, std::optional<double> share_wanted, Costs costs, const std::vector<GuidedScores>& families, const std::vector<GuidedHand>& hands,
                        bool stopped) {
  Json out = json::page("fettle-guided");
  out["seed"] = seed;
  if (share_wanted) out["share_wanted"] = json::number(*share_wanted);
  out["costs"] = {{"wrong_pass", json::number(costs.wrong_pass)}, {"wrong_fail", json::number(costs.wrong_fail)}};
  out["stopped"] = stopped;
  out["families"] = json::array_of(families, guided_family);
  out["hands"] = json::array_of(hands, guided_hand);
  return json::text_of(out);
}

}  // namespace fettle
