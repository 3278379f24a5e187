#include "wire/guided_json.h"

#include "wire/page_words.h"
#include "wire/simulation_values.h"

namespace fettle {
namespace {

using json::Json;

Json ratio_or_null(const std::optional<Scattered>& figure) { return figure ? json::scattered(*figure) : Json(nullptr); }

Json guided_family(const GuidedScores& each) {
  return {{"family", each.family},
          {"hand", each.hand},
          {"engines", each.engines},
          {"price_of_a_minute", json::number(each.price)},
          {"first_readings", json::number(each.first_readings)},
          {"more_readings", json::number(each.more_readings)},
          {"more_settings", json::number(each.more_settings)},
          {"before", ratio_or_null(each.before)},
          {"guided", ratio_or_null(each.after)},
          {"notebook_guided", ratio_or_null(each.notebook)},
          {"notebook_more_readings", json::number(each.notebook_more_readings)},
          {"chances", each.chances ? json::reliability_of(*each.chances) : Json(nullptr)}};
}

}  // namespace

std::string guided_json(std::uint64_t seed, std::optional<double> share_wanted, Costs costs, const std::vector<GuidedScores>& families, bool stopped) {
  Json out = json::page("fettle-guided");
  out["seed"] = seed;
  out["share_wanted"] = share_wanted ? Json(json::number(*share_wanted)) : Json(nullptr);
  out["costs"] = {{"wrong_pass", json::number(costs.wrong_pass)}, {"wrong_fail", json::number(costs.wrong_fail)}};
  out["stopped"] = stopped;
  out["families"] = json::array_of(families, guided_family);
  return json::text_of(out);
}

}  // namespace fettle
