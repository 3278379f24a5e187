#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/message.h"
#include "catalogue/words.h"
#include "entry/typed_quantity.h"

namespace fettle {

/// note: kept; needs_test: another test must say; condemns: the part is beyond whatever the gauge says.
enum class FindingWeight { note, needs_test, condemns };

/// What sort of damage it is. Text keys "finding_sort." + word.
enum class FindingSort { score, pit, crack, blueing, fretting, broken, wiped, spun, pick_up, bent, thread, other };

/// How it was found, or looked for. Text keys "finding_test." + word.
enum class FindingTest { eye, nail, dye, magnetic, pressure, ultrasonic, straightedge, other };

/// What a test said. none_found: it was made and showed nothing of the sort.
enum class TestOutcome { found, none_found };

/// In folders, in the log and in text keys.
inline constexpr WordTable<FindingSort, 12> kFindingSorts{{{"score", FindingSort::score},
                                                           {"pit", FindingSort::pit},
                                                           {"crack", FindingSort::crack},
                                                           {"blueing", FindingSort::blueing},
                                                           {"fretting", FindingSort::fretting},
                                                           {"broken", FindingSort::broken},
                                                           {"wiped", FindingSort::wiped},
                                                           {"spun", FindingSort::spun},
                                                           {"pick-up", FindingSort::pick_up},
                                                           {"bent", FindingSort::bent},
                                                           {"thread", FindingSort::thread},
                                                           {"other", FindingSort::other}}};
inline constexpr WordTable<FindingTest, 8> kFindingTests{{{"eye", FindingTest::eye},
                                                          {"nail", FindingTest::nail},
                                                          {"dye", FindingTest::dye},
                                                          {"magnetic", FindingTest::magnetic},
                                                          {"pressure", FindingTest::pressure},
                                                          {"ultrasonic", FindingTest::ultrasonic},
                                                          {"straightedge", FindingTest::straightedge},
                                                          {"other", FindingTest::other}}};

inline constexpr WordTable<TestOutcome, 2> kTestOutcomes{{{"found", TestOutcome::found}, {"none-found", TestOutcome::none_found}}};

/// What the eye saw, or a test. A finding like a reading; it outranks the size.
struct Finding {
  std::string part;
  std::string what;                      ///< as the person says it
  FindingWeight weight;
  std::string where;                     ///< in words; may be empty
  std::optional<TypedQuantity> depth;
  std::optional<FindingSort> sort = {};
  std::optional<FindingTest> test = {};
  std::optional<TestOutcome> outcome = {};
  std::optional<std::string> station = {};    ///< of the part's places, where it lies; with it a depth counts for what is machined there
  std::optional<std::string> direction = {};
  std::optional<std::string> photo = {};      ///< hash of a file of the job
  bool operator==(const Finding&) const = default;
};

/// "By eye: a score (top, exhaust side)".
[[nodiscard]] Message seen_message(const Finding& finding);

[[nodiscard]] std::string_view weight_name(FindingWeight weight);
[[nodiscard]] std::string_view sort_name(FindingSort sort);
[[nodiscard]] std::string_view test_name(FindingTest test);


}  // namespace fettle
