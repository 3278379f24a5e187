#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "limits/limit.h"
#include "limits/printed.h"

namespace fettle {

/// One line of a book's table, as printed.
struct SheetRow {
  std::string id;          ///< unique in the sheet
  std::string what;        ///< the book's own words
  std::string kind;        ///< id in the catalogue; empty: not said
  std::optional<Family> characteristic;  ///< what of the part it is; nothing: what the definition says
  std::string definition;  ///< id in the catalogue; empty: the book does not say, and every definition is judged
  std::string page;
  Printed step;            ///< oversize or undersize; empty: standard
  std::string grade;       ///< size class or letter
  PrintedRange fresh;      ///< as new
  Printed wear;            ///< up to where a used part may go on
  std::optional<LimitSide> worn;  ///< on which side of it, as printed: "max 84.1", "at least 8 bar"; nothing: not said
  Printed per;             ///< of a slope: "per inch"
  Printed standard;        ///< the size that wear is counted from
  std::string fit;         ///< as ISO 286 writes it: "52 H7", "52 H7/p6"; it says what is new where no figure does
  std::vector<PrintedRange> stages;  ///< of a bolt: torques and angles, one after the other
  std::string sequence;    ///< in which order bolts are tightened: "5-3-1-2-4-6", or in words
  Printed quantity;        ///< how many, or how much of a fluid
  bool once = false;       ///< never fitted twice
  std::string from;        ///< how the figure follows from other rows: "hole - 2 x shell - journal"
  std::string choose;      ///< of a row that says what to take for a size between `fresh`: "+0.005 washers"
  std::string note;        ///< footnotes and remarks
  Place place;
  bool operator==(const SheetRow& other) const {
    return id == other.id && what == other.what && kind == other.kind && characteristic == other.characteristic && definition == other.definition &&
           page == other.page && step == other.step && grade == other.grade && fresh == other.fresh && wear == other.wear && worn == other.worn && per == other.per &&
           standard == other.standard && fit == other.fit && stages == other.stages && sequence == other.sequence && quantity == other.quantity &&
           once == other.once && from == other.from && choose == other.choose && note == other.note;
  }
};

/// What may be asked about of a row, by where it stands. `stages` and `sequence` are no single figures.
enum class SheetField { fresh_from, fresh_to, wear, step, per, standard, quantity, stages, sequence };
/// The single figures.
inline constexpr std::array kSheetFields{SheetField::fresh_from, SheetField::fresh_to, SheetField::wear, SheetField::step,
                                         SheetField::per,        SheetField::standard, SheetField::quantity};
[[nodiscard]] std::string_view field_name(SheetField field);
/// Of a field that is a single figure.
[[nodiscard]] const Printed& figure(const SheetRow& row, SheetField field);
[[nodiscard]] Printed& figure(SheetRow& row, SheetField field);

enum class Decided { as_printed, put_right, ask };

/// What a person said to a finding of the proof. It holds as long as the same figure is printed there.
struct SheetDecision {
  std::string rule;
  std::string row;
  std::string field;
  std::string printed;  ///< the figure as it stood when it was decided
  Decided decided;
  std::string to;       ///< of put_right: the figure as it shall be, with its unit
  std::string who;
  std::string when;
  bool operator==(const SheetDecision&) const = default;
};

/// What was typed from a book, row by row. One version is one value.
struct LimitSheet {
  std::string book;
  std::string edition;
  std::optional<UnitFamily> original;  ///< the unit in which the book was made; the other one was converted from it
  std::vector<SheetRow> rows;
  std::vector<SheetDecision> decisions;

  [[nodiscard]] const SheetRow* row(std::string_view id) const;
  bool operator==(const LimitSheet&) const = default;
};

}  // namespace fettle
