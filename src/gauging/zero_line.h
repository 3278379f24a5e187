#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/kept.h"
#include "gauging/known_setting.h"
#include "gauging/reading.h"
#include "gauging/source_list.h"

namespace fettle {

/// The readings of one setting in the order they were taken, and what the looks at its zero say of each: between two looks the drift or
/// knock is by itself (see ClosingZero). A reading without an order has no place in the line and carries the wider doubt; the others keep
/// theirs: with so many more readings at unknown places between them, a knock came before the k-th of n still with a chance of k/n.
class ZeroLine {
 public:
  /// Needs at least one reading. Holds on to `known`.
  ZeroLine(const KnownSetting& known, std::vector<const Kept<Reading>*> readings);

  [[nodiscard]] bool looked_at_last() const { return looked_at_last_; }  ///< after the last reading
  /// Readings that have the order of another one of the setting, where the order counts.
  [[nodiscard]] const std::vector<const Kept<Reading>*>& taken_twice() const { return twice_; }
  /// How far the zero had moved at each look; nothing where it stood still.
  [[nodiscard]] std::vector<Message> notices() const;
  /// Takes the line of the zero off the size, and adds what it may be wrong by.
  void correct(const std::string& reading, SourceList& sources, Size& size) const;

 private:
  /// Readings between two looks at the zero, and how much larger the master seemed at either.
  struct Piece {
    std::size_t after;  ///< readings before it
    std::size_t readings;
    Ratio from;               ///< counts
    std::optional<Ratio> to;  ///< nothing: nobody looked after these
  };
  void put_in_order(std::vector<const Kept<Reading>*>& readings);
  void cut_in_pieces(const std::vector<std::size_t>& readings_before_each_check);
  [[nodiscard]] bool moved() const;
  [[nodiscard]] Ratio farthest() const;

  const KnownSetting& known_;
  std::vector<KnownCheck> checks_;  ///< in their order
  std::vector<Piece> pieces_;       ///< empty: nothing moved
  std::map<std::string, std::size_t> position_;  ///< reading id -> k of n, counted from 1; of those with an order
  std::vector<const Kept<Reading>*> twice_;
  std::size_t readings_;        ///< that have an order
  std::size_t without_order_;
  bool looked_at_last_;
};

}  // namespace fettle
