#pragma once

#include "app/server_keeper.h"

namespace fettle {

/// As ServerKeeper.
[[nodiscard]] Problems serve(const ServerAsked& asked, const RecordKeeper& records, Clock& clock, const std::function<void(const std::string& line)>& say);

}  // namespace fettle
