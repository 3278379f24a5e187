#include <cstddef>
#include <cstdint>
#include <string>

#include "text/sentence.h"
#include "wire/act_reader.h"

namespace {

template <class T>
void say_problems(const fettle::Result<T>& read) {
  if (read.ok()) return;
  FETTLE_ASSERT(!read.problems().empty(), "refused without a word");
  for (const fettle::Problem& problem : read.problems()) {
    for (fettle::Language language : {fettle::Language::english, fettle::Language::german}) (void)fettle::sentence(problem, language);
  }
}

}  // namespace

/// The body of whatever a device may post.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string body(data, data + size);
  const auto acts = fettle::read_acts(body);
  if (acts.ok()) FETTLE_ASSERT(!acts.value().empty() && acts.value().size() <= static_cast<std::size_t>(fettle::kMostActs), "how many acts");
  say_problems(acts);
  say_problems(fettle::read_understood(body));
  say_problems(fettle::read_new_engine(body));
  return 0;
}
