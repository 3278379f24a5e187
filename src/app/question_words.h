#pragma once

#include <set>
#include <string>

#include "advice/asked_again.h"
#include "app/group_mistakes.h"
#include "app/reading_weigher.h"

namespace fettle {

/// "28 ↻", or the text as it was typed.
[[nodiscard]] Argument typed_argument(const std::string& name, const TypedQuantity& typed);

/// A question that the wide band of a place asks.
[[nodiscard]] QuestionOfReading question_of_band(const AskedAgain& asked, Feature feature, const KnownSetting& setting, const TypedQuantity& typed, double chance);

/// A question that the group's readings ask, in one breath. `typed`, `setting`: of one reading; null for several.
[[nodiscard]] Message sentence_of_asked(const Job& job, const PartOnBench& part, const AskedReading& asked, const TypedQuantity* typed, const KnownSetting* setting);

/// "advice.slip." + id, by the gauge's unit where the figure in it depends on that.
[[nodiscard]] std::string word_of_slip(const std::string& mistake, const KnownSetting* setting);

/// As the bench speaks of sizes: a micrometre, a ten-thousandth of an inch.
[[nodiscard]] UnitId unit_shown(const Job& job);
[[nodiscard]] std::string bench_figure(const Ratio& counts, UnitId unit, bool halves);
/// The same of a size in mm, rounded.
[[nodiscard]] std::string size_figure(double mm, UnitId unit);

/// A chance as it is shown: never 0 nor 100.
[[nodiscard]] std::int64_t in_hundred(double chance);

/// Readings that were asked about, by what a person said of them last: that they stand, that the question is put off.
[[nodiscard]] std::set<std::string> said_to_stand(const Job& job);
[[nodiscard]] std::set<std::string> put_off(const Job& job);
/// Both: no good witnesses.
[[nodiscard]] std::set<std::string> questions_open(const Job& job);

}  // namespace fettle
