#include <algorithm>
#include <map>

#include "limits/proof_desk.h"
#include "limits/proof_row_unit.h"
#include "limits/proof_witness.h"

namespace fettle {
namespace {

/// Ends of the bands of one choice, open where one is missing.
struct Band {
  const SheetRow* row;
  std::optional<Ratio> from;
  std::optional<Ratio> to;
};

bool band_before(const Band& a, const Band& b) {
  if (!a.from || !b.from) return !a.from && b.from.has_value();
  return *a.from < *b.from;
}

using Rows = ProofDesk::Rows;

std::vector<Band> in_order(const Rows& rows, UnitFamily family) {
  std::vector<Band> out;
  for (const SheetRow* row : rows) {
    const auto& from = row->fresh.from.in(family);
    const auto& to = row->fresh.to.in(family);
    if (!from && !to) return {};
    out.push_back({row, from ? std::optional(from->quantity.in_base()) : std::nullopt, to ? std::optional(to->quantity.in_base()) : std::nullopt});
  }
  std::sort(out.begin(), out.end(), band_before);
  return out;
}

/// Each begins where the one before it ends.
bool meet(const std::vector<Band>& bands) {
  for (std::size_t i = 0; i + 1 < bands.size(); ++i) {
    if (!bands[i].to || !bands[i + 1].from || *bands[i].to != *bands[i + 1].from) return false;
  }
  return !bands.empty();
}

/// The end of the one or the beginning of the other: first the one for which more speaks.
std::vector<Likeliest> where_bands_meet(const ProofDesk& desk, const Band& one, const Band& next, const TypedQuantity& like) {
  const std::string at_end = shown_like(*one.to, like);
  const std::string at_start = shown_like(*next.from, like);
  std::vector<Likeliest> out{{{next.row->id, SheetField::fresh_from}, at_end}, {{one.row->id, SheetField::fresh_to}, at_start}};
  const UnitFamily family = family_of(like.quantity.unit);
  const Heard start = hear(desk, with_figure(*next.row, SheetField::fresh_from, family, *one.row->fresh.to.in(family)));
  const Heard end = hear(desk, with_figure(*one.row, SheetField::fresh_to, family, *next.row->fresh.from.in(family)));
  if (end < start) std::swap(out[0], out[1]);
  return out;
}

/// The ends of one band that alone, put where another band ends or begins, make all of them meet: first the one for which more speaks.
std::vector<Likeliest> one_end_mended(const ProofDesk& desk, const Rows& rows, UnitFamily family) {
  constexpr std::size_t kMost = 24;
  std::vector<std::pair<Heard, Likeliest>> all;
  if (rows.size() < 3 || rows.size() > kMost) return {};
  const auto try_end = [&](std::size_t at, SheetField field, const Printed& end) {
    if (!figure(*rows[at], field).in(family) || !end.in(family)) return;
    const SheetRow as = with_figure(*rows[at], field, family, *end.in(family));
    Rows with = rows;
    with[at] = &as;
    if (!meet(in_order(with, family))) return;
    Likeliest likely{{as.id, field}, shown_like(end.in(family)->quantity.in_base(), *end.in(family))};
    const bool again = std::any_of(all.begin(), all.end(), [&](const auto& each) { return each.second == likely; });
    const Heard heard = hear(desk, as);
    if (!again && !heard.is_impossible()) all.emplace_back(heard, std::move(likely));
  };
  for (std::size_t at = 0; at < rows.size(); ++at) {
    for (const SheetRow* other : rows) {
      if (other == rows[at]) continue;
      try_end(at, SheetField::fresh_from, other->fresh.to);
      try_end(at, SheetField::fresh_to, other->fresh.from);
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<Likeliest> out;
  for (auto& [heard, likely] : all) out.push_back(std::move(likely));
  return out;
}

/// One of the bands fills the hole that the others leave, in another unit.
std::optional<ProofFinding> band_in_another_unit(const Rows& rows, UnitFamily family) {
  constexpr std::size_t kMost = 64;
  if (rows.size() < 3 || rows.size() > kMost) return std::nullopt;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    for (const UnitSlip& slip : unit_slips()) {
      const RowInUnit meant = row_in_unit(*rows[i], family, slip);
      Rows with = rows;
      with[i] = &meant.row;
      if (meet(in_order(with, family))) return row_unit_finding("bands", HowSure::certain, *rows[i], family, meant, slip, {"proof.row_unit.bands", {}});
    }
  }
  return std::nullopt;
}

void bands_of(ProofDesk& desk, const Rows& rows, UnitFamily family, bool grades) {
  // What is asked about already is put in order first.
  if (std::any_of(rows.begin(), rows.end(), [&](const SheetRow* row) { return desk.is_new_asked(row->id); })) return;
  const std::vector<Band> bands = in_order(rows, family);
  if (bands.empty()) return;
  const auto& any = rows.front()->fresh.from.in(family);
  const TypedQuantity* like = any ? &*any : &*rows.front()->fresh.to.in(family);
  std::vector<Message> places;
  std::vector<FigureSpot> spots;
  std::vector<Likeliest> likeliest;
  bool counted = true;  ///< every gap is one in the last place: meant for figures that are read no finer
  for (std::size_t i = 0; i + 1 < bands.size(); ++i) {
    if (!bands[i].to || !bands[i + 1].from || *bands[i].to == *bands[i + 1].from) continue;
    const bool gap = *bands[i].to < *bands[i + 1].from;
    places.push_back({gap ? "proof.bands.gap" : "proof.bands.overlap", {figures("from", shown_like(*bands[i].to, *like)), figures("to", shown_like(*bands[i + 1].from, *like))}});
    spots.push_back({bands[i + 1].row->id, SheetField::fresh_from});
    for (Likeliest& each : where_bands_meet(desk, bands[i], bands[i + 1], *like)) likeliest.push_back(std::move(each));
    counted = counted && gap && *bands[i + 1].from - *bands[i].to == half_a_step(*like) * Ratio(2);
  }
  if (places.empty()) return;
  if (auto row = band_in_another_unit(rows, family)) return desk.ask(std::move(*row));
  if (std::vector<Likeliest> one = one_end_mended(desk, rows, family); !one.empty()) {
    likeliest = std::move(one);
    spots.insert(spots.begin(), likeliest.front().spot);
    spots.erase(std::remove(spots.begin() + 1, spots.end(), spots.front()), spots.end());
  }
  desk.ask({"bands", counted || grades ? HowSure::odd : HowSure::certain, spots, {"proof.bands", {verbatim("what", rows.front()->what), list("places", places)}}, std::move(likeliest), {}});
}

}  // namespace

void find_bands(ProofDesk& desk) {
  std::map<std::vector<std::string>, std::vector<const SheetRow*>> tables;
  for (const SheetRow& row : desk.sheet.rows) {
    // Size classes meet as what is to be chosen does, though a book may leave some out.
    if (!row.choose.empty()) tables[{row.what, "choose"}].push_back(&row);
    if (row.choose.empty() && !row.grade.empty() && row.from.empty() && !row.fresh.empty()) tables[{row.what, "grade", row.kind, characteristic_of(row), shown(row.step)}].push_back(&row);
  }
  for (const auto& [what, rows] : tables) {
    const bool inch = std::all_of(rows.begin(), rows.end(), [](const SheetRow* each) { return each->fresh.from.inch || each->fresh.to.inch; });
    bands_of(desk, rows, inch ? UnitFamily::inch : UnitFamily::metric, what[1] == "grade");
  }
}

}  // namespace fettle
