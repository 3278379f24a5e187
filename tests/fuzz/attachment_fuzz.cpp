#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>

#include "attachment/attachment.h"
#include "base/digest.h"
#include "text/sentence.h"

namespace {

using fettle::Attachment;

void check_thumbnail(const Attachment& kept) {
  if (kept.type == "application/pdf") return;
  const auto small = fettle::read_attachment(kept.thumbnail, {});
  FETTLE_ASSERT(small.ok() && small.value().notices.empty(), "a thumbnail is a whole photo");
  const int side = std::max(small.value().width.value(), small.value().height.value());
  FETTLE_ASSERT(side == std::min(fettle::kThumbnailSide, std::max(kept.width.value(), kept.height.value())), std::to_string(side));
}

/// What attachment.h promises of everything that is not refused.
void check_promises(const Attachment& kept) {
  FETTLE_ASSERT(kept.hash == fettle::file_digest(kept.bytes), kept.hash);
  check_thumbnail(kept);
  const auto again = fettle::read_attachment(kept.bytes, {});
  FETTLE_ASSERT(again.ok(), "what is kept may be handed in again");
  FETTLE_ASSERT(again.value().bytes == kept.bytes, "and is kept as it is");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string bytes(data, data + size);
  const auto kept = fettle::read_attachment(bytes, {"f", std::nullopt, std::nullopt});
  if (kept.ok()) {
    check_promises(kept.value());
    return 0;
  }
  for (const fettle::Problem& problem : kept.problems()) {
    for (fettle::Language language : {fettle::Language::english, fettle::Language::german}) (void)fettle::sentence(problem, language);
  }
  return 0;
}
