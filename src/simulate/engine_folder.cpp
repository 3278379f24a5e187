#include "simulate/engine_folder.h"

#include <charconv>
#include <utility>

#include "base/assertion.h"
#include "job/folder_text.h"

namespace fettle {
namespace {

const std::vector<std::string> kHeading = {"Invented and simulated: no such engine exists, and nobody read it."};

std::string decimal_text(double value, int decimals) {
  std::string out(64, ' ');
  const auto [end, error] =
      std::to_chars(out.data(), out.data() + out.size(), value, std::chars_format::fixed, decimals);
  FETTLE_ASSERT(error == std::errc(), std::to_string(decimals));
  out.resize(static_cast<std::size_t>(end - out.data()));
  return out;
}

std::string truth_text(const SimulatedEngine& engine) {
  const EngineTruth& truth = engine.truth;
  const Layout& layout = engine.job.layouts.front().value.layout;
  std::string out = "what,part,station,direction,value,unit\n";
  const auto row = [&](const std::string& what, const std::string& place, const std::string& value, const char* unit) {
    out += what + "," + place + "," + value + "," + unit + "\n";
  };
  row("invented and simulated; seed", ",,", std::to_string(engine.seed), "");
  row("number", ",,", std::to_string(engine.number), "");
  row("family", ",,", engine.family, "");
  row("hand", ",,", engine.hand, "");
  row("step", ",,", decimal_text(truth.hyper.step_um, 1), "µm");
  for (std::size_t c = 0; c < truth.hyper.components.size(); ++c) {
    const ComponentHyper& hyper = truth.hyper.components[c];
    const std::string name = "component " + std::to_string(c + 1);
    row(name + " amount", ",,", decimal_text(hyper.amount_um, 2), "µm");
    row(name + " length", ",,", decimal_text(hyper.length, 4), "");
    row(name + " likeness", ",,", decimal_text(hyper.likeness, 4), "");
  }
  row("three lobes unseen", ",,", decimal_text(truth.three_lobe_um, 1), "µm");
  if (truth.odd_part) row("the odd part", engine.job.parts[*truth.odd_part].value.id + ",,", "", "");
  for (std::size_t part = 0; part < truth.sizes_mm.size(); ++part) {
    for (std::size_t s = 0; s < layout.stations.size(); ++s) {
      for (std::size_t d = 0; d < layout.directions.size(); ++d) {
        row("size", engine.job.parts[part].value.id + "," + layout.stations[s].id + "," + layout.directions[d].id,
            decimal_text(truth.sizes_mm[part][layout.cell(s, d)], 5), "mm");
      }
    }
  }
  return out;
}

}  // namespace

std::vector<FolderFile> engine_folder(const SimulatedEngine& engine) {
  FolderTexts texts = folder_texts(engine.job, {}, kHeading);
  return {{"job.toml", std::move(texts.job_toml)}, {"readings.csv", std::move(texts.readings_csv)}, {"truth.csv", truth_text(engine)}};
}

}  // namespace fettle
