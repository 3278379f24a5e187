#include <cstddef>
#include <cstdint>
#include <string>

#include "archive/archive.h"
#include "text/sentence.h"

namespace {

/// What archive.h promises of every archive that is not refused: its files may be packed, and come back the same.
void check_promises(const std::vector<fettle::PackedFile>& files) {
  FETTLE_ASSERT(fettle::why_not_packed(files, {}).empty(), "what was unpacked may be packed");
  const auto again = fettle::unpack(fettle::pack(files), {});
  FETTLE_ASSERT(again.ok() && again.value() == files, "the same files come back");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string bytes(data, data + size);
  const auto files = fettle::unpack(bytes, {"f.zip", std::nullopt, std::nullopt});
  if (files.ok()) {
    check_promises(files.value());
    return 0;
  }
  for (const fettle::Problem& problem : files.problems()) {
    for (fettle::Language language : {fettle::Language::english, fettle::Language::german}) (void)fettle::sentence(problem, language);
  }
  return 0;
}
