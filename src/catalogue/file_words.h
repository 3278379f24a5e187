#pragma once

#include "catalogue/gauge_preset.h"
#include "catalogue/kind.h"
#include "catalogue/layout.h"
#include "catalogue/words.h"

namespace fettle {

// The words that people write in the catalogue's files and in job.toml for the same things.

inline constexpr WordTable<StationRole, 5> kRoles{{{"first", StationRole::first},
                                            {"middle", StationRole::middle},
                                            {"last", StationRole::last},
                                            {"inner", StationRole::inner},
                                            {"reference", StationRole::reference}}};
inline constexpr WordTable<MeasuredWhen, 14> kMeasuredWhen{{{"clean", MeasuredWhen::clean},
                                            {"rested", MeasuredWhen::rested},
                                            {"settled", MeasuredWhen::settled},
                                            {"torqued", MeasuredWhen::torqued},
                                            {"clamped", MeasuredWhen::clamped},
                                            {"unloaded", MeasuredWhen::unloaded},
                                            {"pushed-one-way", MeasuredWhen::pushed_one_way},
                                            {"level", MeasuredWhen::level},
                                            {"supported", MeasuredWhen::supported},
                                            {"closed-valves", MeasuredWhen::closed_valves},
                                            {"top-dead-centre", MeasuredWhen::top_dead_centre},
                                            {"warm-engine", MeasuredWhen::warm_engine},
                                            {"cold-engine", MeasuredWhen::cold_engine},
                                            {"new-mate", MeasuredWhen::new_mate}}};
inline constexpr WordTable<ErrorScope, 4> kScopes{{{"master", ErrorScope::master},
                                            {"setting", ErrorScope::setting},
                                            {"round", ErrorScope::round},
                                            {"reading", ErrorScope::reading}}};
inline constexpr WordTable<ErrorShape, 3> kShapes{{{"normal", ErrorShape::normal},
                                            {"rectangular", ErrorShape::rectangular},
                                            {"triangular", ErrorShape::triangular}}};
/// What may be read at a place.
inline constexpr WordTable<Dimension, 7> kQuantities{{{"length", Dimension::length},
                                                      {"angle", Dimension::angle},
                                                      {"force", Dimension::force},
                                                      {"torque", Dimension::torque},
                                                      {"pressure", Dimension::pressure},
                                                      {"volume", Dimension::volume},
                                                      {"mass", Dimension::mass}}};

}  // namespace fettle
