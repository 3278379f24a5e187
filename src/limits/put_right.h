#pragma once

#include <string>
#include <vector>

#include "limits/proof.h"

namespace fettle {

/// What a decision that puts a figure right has to say: a likeliest figure of one unit, with the figure in the other unit left as it is printed.
/// Empty where the likeliest figure cannot be read.
[[nodiscard]] std::string put_right_text(const Printed& printed, const std::string& likeliest);

/// Of each decision of the sheet: whether it still says something. One that puts right does where the figure is still printed that it was made for,
/// any other one where a finding asks what it answers.
[[nodiscard]] std::vector<bool> decisions_that_hold(const LimitSheet& sheet, const std::vector<ProofFinding>& findings);

}  // namespace fettle
