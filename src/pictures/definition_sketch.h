#pragma once

#include <string>

#include "catalogue/definition.h"
#include "catalogue/kind.h"
#include "drawing/drawing.h"
#include "text/sentence.h"

namespace fettle {

/// How a definition looks at a part, 148 x 92: a bore or a shaft in outline with every reading that counts marked, from the side and from
/// the end, and what is compared with what; of an assembly the gap, of anything else its places in a row. Made from the expression and
/// the kind's usual places alone, for definitions of anybody's own too. `name` becomes the title; the description counts what is marked.
/// Kept by DefinitionSketch.*.
[[nodiscard]] Drawing definition_sketch(const Kind& kind, const Definition& definition, const std::string& name, Language language);

}  // namespace fettle
