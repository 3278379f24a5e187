#pragma once

#include <string>
#include <vector>

#include "drawing/drawing.h"
#include "text/sentence.h"

// Invented parts, usual and extreme, for tests and for looking at.
namespace fettle {

struct SamplePicture {
  std::string name;
  Drawing drawing;
};

[[nodiscard]] std::vector<SamplePicture> sample_pictures(Language language);

}  // namespace fettle
