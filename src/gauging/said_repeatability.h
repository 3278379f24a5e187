#pragma once

#include "base/message.h"
#include "gauging/repeatability.h"
#include "gauging/studied_repeatability.h"

namespace fettle {

/// "3 repeats with G1 by Anna spread by 4.0 µm; stated 3.0 µm, which counts like six: 3.4 µm is used for all her readings with it."
[[nodiscard]] Message said(const LearnedRepeatability& learned);

/// "96 readings with G1 by Anna take the 2.4 µm of a gauge study, with 60 degrees of freedom, in place of 3.1 µm stated."
[[nodiscard]] Message said(const UsedStudy& used);

}  // namespace fettle
