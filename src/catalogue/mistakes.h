#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "catalogue/words.h"

namespace fettle {

/// definite: gauge or text say what was meant. spread: nobody knows how far off.
enum class MistakeAmount { definite, spread };
/// What the mistake makes of the size.
enum class MistakeSense { larger, smaller, both };
/// What has to be there for it to happen.
enum class MistakeWhere { any, dial, thimble, dial_in_bore, thimble_outside, first_of_bore, bore_with_ports, two_axes };
/// What one mistake spoils: a reading, both axes of a station, two stations of a direction, a part, all under a setting.
enum class MistakeReach { reading, station, heights, part, setting };

inline constexpr WordTable<MistakeAmount, 2> kMistakeAmounts{{{"definite", MistakeAmount::definite}, {"spread", MistakeAmount::spread}}};
inline constexpr WordTable<MistakeSense, 3> kMistakeSenses{
    {{"larger", MistakeSense::larger}, {"smaller", MistakeSense::smaller}, {"both", MistakeSense::both}}};
inline constexpr WordTable<MistakeWhere, 8> kMistakePlaces{{{"any", MistakeWhere::any},
                                                            {"dial", MistakeWhere::dial},
                                                            {"thimble", MistakeWhere::thimble},
                                                            {"dial-in-bore", MistakeWhere::dial_in_bore},
                                                            {"thimble-outside", MistakeWhere::thimble_outside},
                                                            {"first-of-bore", MistakeWhere::first_of_bore},
                                                            {"bore-with-ports", MistakeWhere::bore_with_ports},
                                                            {"two-axes", MistakeWhere::two_axes}}};
inline constexpr WordTable<MistakeReach, 5> kMistakeReaches{{{"reading", MistakeReach::reading},
                                                             {"station", MistakeReach::station},
                                                             {"heights", MistakeReach::heights},
                                                             {"part", MistakeReach::part},
                                                             {"setting", MistakeReach::setting}}};

/// A kind of mistake that hands make. Text keys "advice.slip." + id, what is asked, and "advice.why." + id.
struct MistakeKind {
  std::string id;
  double rate;          ///< share of readings, stations, parts or settings, before anything is read
  MistakeAmount amount;
  double scale_um;      ///< one standard deviation of a spread; 0 of a definite one
  MistakeSense sense;
  MistakeWhere where;
  MistakeReach reach;
  std::string origin;
  bool operator==(const MistakeKind&) const = default;
};

/// Built in, read once.
[[nodiscard]] const std::vector<MistakeKind>& mistake_kinds();
/// Null if there is none of this id.
[[nodiscard]] const MistakeKind* mistake_kind(std::string_view id);

}  // namespace fettle
