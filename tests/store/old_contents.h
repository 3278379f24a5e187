#pragma once

#include "store/test_events.h"

namespace fettle {

/// What the frozen files hold. Nothing here may change once a file was frozen; a newer version adds a function.
void write_old_contents(Store& store, SetClock& time, int version);

[[nodiscard]] std::vector<Envelope> old_events();
[[nodiscard]] StoredFile old_file();
[[nodiscard]] JobRow old_row();           ///< since version 2
[[nodiscard]] StoredJudgement old_judgement();  ///< since version 2

[[nodiscard]] StoredDevice old_device();  ///< since version 3

}  // namespace fettle
