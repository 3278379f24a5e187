#include <cstddef>
#include <cstdint>
#include <string>

#include "app/bundle.h"
#include "base/clock.h"
#include "store/memory_store.h"
#include "text/sentence.h"

namespace {

class NoTime final : public fettle::Clock {
 public:
  std::string now() override { return "2031-05-04T08:12:00.000000Z"; }
};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  NoTime time;
  fettle::MemoryStore store(time);
  const auto bundle = fettle::check_bundle(std::string(data, data + size), {"b.zip", std::nullopt, std::nullopt});
  if (!bundle.ok()) {
    for (const fettle::Problem& problem : bundle.problems()) {
      for (fettle::Language language : {fettle::Language::english, fettle::Language::german}) (void)fettle::sentence(problem, language);
    }
    return 0;
  }
  const auto taken = fettle::take_over_bundle(store, bundle.value());
  FETTLE_ASSERT(taken.ok() && store.faults().empty() && taken.value().fresh > 0, "what is taken over hangs together");
  FETTLE_ASSERT(fettle::make_bundle(store, taken.value().job).ok(), "and can be bundled again");
  return 0;
}
