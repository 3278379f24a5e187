#pragma once

#include "app/take_in.h"

namespace fettle {

/// The folder of the invented example engine, as it is built into the program.
[[nodiscard]] FolderTexts example_folder();

/// Takes the example into the record; a second time adds nothing. Gives its job.
[[nodiscard]] Result<std::string> take_example_in(Store& store, const Doing& doing);

}  // namespace fettle
