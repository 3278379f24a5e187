#include <cstddef>
#include <cstdint>
#include <string>

#include "job/fold.h"
#include "text/sentence.h"
#include "wire/event_json.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string line(data, data + size);
  const auto event = fettle::read_event(line, {"log", 1, std::nullopt});
  if (!event.ok()) {
    for (const fettle::Problem& problem : event.problems()) {
      for (fettle::Language language : {fettle::Language::english, fettle::Language::german}) (void)fettle::sentence(problem, language);
    }
    return 0;
  }
  // What is let in is written the same for ever, and folds without a fault of ours.
  const std::string written = fettle::event_json(event.value());
  const auto again = fettle::read_event(written, {"log", 1, std::nullopt});
  FETTLE_ASSERT(again.ok() && again.value() == event.value() && fettle::event_json(again.value()) == written, written);
  (void)fettle::fold({event.value(), again.value()});
  return 0;
}
