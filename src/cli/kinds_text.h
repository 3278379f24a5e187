#pragma once

#include <string>

#include "catalogue/catalogue.h"
#include "text/sentence.h"

namespace fettle {

/// Every kind with its id, its name, its places and its members.
[[nodiscard]] std::string kinds_list_text(const Catalogue& known, Language language);

/// One kind whole, as a person reads it at the bench: places, what may be judged, cautions, how to measure it, mistakes, and the source of
/// each line.
[[nodiscard]] std::string kind_text(const Kind& kind, const Catalogue& known, Language language);

}  // namespace fettle
