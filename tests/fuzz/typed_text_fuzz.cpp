#include <cstddef>
#include <cstdint>
#include <string>

#include "entry/typed_quantity.h"
#include "text/sentence.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(data, data + size);
  for (const bool dial : {false, true}) {
    const auto read = fettle::read_quantity(text, {{}, {}, {}, {}, dial, {}}, {"f", 1, 1});
    if (read.ok()) continue;
    for (const auto& problem : read.problems()) (void)fettle::sentence(problem, fettle::Language::german);
  }
  return 0;
}
