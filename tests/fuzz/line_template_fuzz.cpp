#include <cstddef>
#include <cstdint>
#include <string>

#include "base/assertion.h"
#include "entry/line_template.h"
#include "text/sentence.h"

/// A template, a line feed, and the line of a gauge.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(data, data + size);
  const auto end = text.find('\n');
  const fettle::Result<fettle::LineTemplate> read = fettle::LineTemplate::read(text.substr(0, end));
  if (!read.ok()) {
    for (const fettle::Problem& each : read.problems()) {
      FETTLE_ASSERT(fettle::has_key("problem." + each.code, fettle::Language::english), each.code);
      (void)fettle::sentence(each, fettle::Language::german);
    }
    return 0;
  }
  const std::string line = end == std::string::npos ? std::string() : text.substr(end + 1);
  const auto reading = read.value().match(line);
  if (!reading) return 0;
  FETTLE_ASSERT(!reading->text.empty() && line.find(reading->text.substr(0, reading->text.find(' '))) != std::string::npos, line);
  return 0;
}
