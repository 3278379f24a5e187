#include "cli/iso_fit_command.h"

#include "base/assertion.h"
#include "cli/exit_code.h"
#include "cli/iso_fit_text.h"
#include "entry/typed_quantity.h"
#include "limits/iso_fit.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

Result<IsoFit> fit_asked(const IsoFitAsked& asked) {
  const auto typed = read_quantity(asked.nominal, {{}, Dimension::length, {}, {}, false, {}}, {});
  if (!typed.ok()) return typed.problems();
  const auto nominal = exact_length(typed.value().quantity);
  FETTLE_ASSERT(nominal, "a typed length that is no whole count");
  return read_iso_fit(asked.code, *nominal, {});
}

}  // namespace

RunResult run_iso_fit(const IsoFitAsked& asked, Language language) {
  const Result<IsoFit> fit = fit_asked(asked);
  if (fit.ok()) return {kFine, asked.json ? iso_fit_json(fit.value()) : iso_fit_text(fit.value(), language), {}};
  RunResult out{kInput, {}, {}};
  if (asked.json) out.out = problems_json(fit.problems());
  for (const Problem& each : fit.problems()) {
    if (!asked.json) out.error += sentence(each, language) + "\n";
  }
  return out;
}

}  // namespace fettle
