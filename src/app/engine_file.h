#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "wire/act.h"

namespace fettle {

/// An engine described in one file (docs/FILES.md): its name, what a person sees of it, and answers. Problems, all at once: document.syntax
/// (alone), those of a catalogue file (missing and unknown keys), engine.answer_kind.
[[nodiscard]] Result<NewEngineAct> read_engine_file(std::string_view text, const std::string& file);

}  // namespace fettle
