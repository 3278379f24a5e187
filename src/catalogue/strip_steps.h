#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/words.h"

namespace fettle {

/// What a step of taking an engine apart is: a mark that is made, a reading or a look that is still possible, a test for cracks, nuts that are
/// loosened, something that comes off, parts made ready to be measured.
enum class StripAct { mark, measure, look, test, loosen, take_off, ready };

inline constexpr WordTable<StripAct, 7> kStripActs{{{"mark", StripAct::mark},
                                                    {"measure", StripAct::measure},
                                                    {"look", StripAct::look},
                                                    {"test", StripAct::test},
                                                    {"loosen", StripAct::loosen},
                                                    {"take-off", StripAct::take_off},
                                                    {"ready", StripAct::ready}}};

/// One step, in the order in which an engine comes apart. Text keys "strip_step." + id, what to do, and "strip_why." + id, why.
struct StripStep {
  std::string id;
  StripAct act;
  std::vector<std::string> kinds;     ///< the step belongs to an engine that has a part of one of them; empty: to every engine
  std::vector<std::string> stations;  ///< of a measuring step: what of these parts can be read now; empty: all of it
  std::vector<std::string> before;    ///< ids of the steps that make this one impossible, each a later one
  std::vector<std::string> cautions;  ///< text keys "caution." + each
  std::string origin;
  bool operator==(const StripStep&) const = default;
};

/// Built in, read once.
[[nodiscard]] const std::vector<StripStep>& strip_steps();
[[nodiscard]] const StripStep* strip_step(std::string_view id);

/// Whether parts of this kind are machined or bought in steps (standard, +0.50), which is stamped somewhere. Common practice.
[[nodiscard]] bool comes_in_steps(std::string_view kind);

}  // namespace fettle
