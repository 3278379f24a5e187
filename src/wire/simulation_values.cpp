#include "wire/simulation_values.h"

#include "units/print.h"

namespace fettle::json {
namespace {

constexpr int kScoreDecimals = 4;

}  // namespace

std::string number(double value) { return print_fixed(value, kScoreDecimals); }

Json scattered(const Scattered& figure) { return {{"value", number(figure.value)}, {"standard_error", number(figure.standard_error)}}; }

Json reliability_of(const Reliability& all) {
  Json bins = Json::array();
  for (const ReliabilityBin& bin : all.bins) {
    Json entry = {{"from", number(bin.from)},
                  {"to", number(bin.to)},
                  {"count", bin.count},
                  {"mean_chance", number(bin.mean_chance)},
                  {"share_good", number(bin.share_good)},
                  {"low", number(bin.share_interval.low)},
                  {"high", number(bin.share_interval.high)}};
    if (bin.mean_exact) entry["mean_exact"] = number(*bin.mean_exact);
    bins.push_back(std::move(entry));
  }
  Json out = {{"count", all.count},
              {"calibration_error", number(all.calibration_error)},
              {"luck_mean", number(all.luck_mean)},
              {"luck_most", number(all.luck_most)},
              {"brier", number(all.brier)},
              {"log_loss", number(all.log_loss)},
              {"bins", std::move(bins)}};
  if (all.calibration_error_exact) out["calibration_error_exact"] = number(*all.calibration_error_exact);
  return out;
}

}  // namespace fettle::json
