#pragma once

// Cases and results of the independent version of the shape model (bench/peers), as the tests and the timings read them.

#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "form/shape_knowledge.h"
#include "numeric/block_gaussian.h"
#include "numeric/mixture_chance.h"

namespace fettle::peer {

using Json = nlohmann::json;

inline Json read(const std::string& folder, const std::string& name) {
  std::ifstream in(std::string(FETTLE_SOURCE_DIR) + "/bench/peers/" + folder + "/" + name + ".json");
  return Json::parse(in);
}

inline ShapeKnowledge knowledge_of(const Json& c) {
  ShapeKnowledge out{WearPattern::from_first, c["heights"], {}, {}, false, c["as_made_mean_um"], std::nullopt, SizeHistory::stated};
  for (const bool reference : c["reference"]) out.wears.push_back(!reference);
  for (const double angle : c["angles_deg"]) out.angle_degrees.push_back(angle);
  out.three_directions = out.angle_degrees.size() > 2;
  if (!c["tolerance_um"].is_null()) out.tolerance_um = c["tolerance_um"].get<double>();
  if (c["before"] == "unknown") out.history = SizeHistory::unknown;
  return out;
}

inline BlockGaussian model_of(const Json& c) {
  std::vector<BlockRows> blocks;
  const std::size_t errors = c["shared"].size();
  for (std::size_t p = 0; p < c["parts"].size(); ++p) {
    const Json& part = c["parts"][p];
    const std::size_t n = part["y_um"].size();
    BlockRows rows{part["cell"], part["y_um"], std::vector<double>(n * n, 0.0), {}};
    for (std::size_t i = 0; i < n; ++i) {
      rows.noise[i * n + i] = part["noise_var"][i];
      for (const Json& source : c["shared"]) {
        rows.errors.push_back(source["sd_um"].get<double>() * source["coefficients"][p][i].get<double>());
      }
    }
    blocks.push_back(std::move(rows));
  }
  return BlockGaussian(std::move(blocks), errors);
}

inline Region region_of(const Json& limit) {
  Region out{{}, {}, false};
  for (const Json& form : limit["forms"]) {
    HalfSpace half{{}, limit["bound_um"]};
    for (std::size_t cell = 0; cell < form.size(); ++cell) {
      if (form[cell] != 0.0) half.sum.terms.emplace_back(cell, form[cell].get<double>());
    }
    out.half_spaces.push_back(std::move(half));
  }
  return out;
}

}  // namespace fettle::peer
