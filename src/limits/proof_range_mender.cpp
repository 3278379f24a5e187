#include "limits/proof_range_mender.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include "limits/proof_reckoner.h"
#include "limits/proof_witness.h"

namespace fettle {
namespace {

constexpr std::array kBothEnds{SheetField::fresh_from, SheetField::fresh_to};
constexpr std::size_t kMostLikely = 4;
constexpr double kFarTooWide = 20.0;
constexpr int kLast = static_cast<int>(SlipSort::digit) + 2;

/// A range as it may have been meant.
struct RangeMeant {
  std::vector<Likeliest> figures;
  Heard heard;
  bool odd_width;
  int sort;          ///< 0: the ends exchanged; else by how slips are believed
  double off_width;  ///< how many times wider or narrower than usual, as a logarithm
  [[nodiscard]] auto rank() const { return std::tuple(heard, odd_width, odd_width ? off_width : 0.0, sort, off_width); }
};

class RangeMender {
 public:
  RangeMender(const ProofDesk& desk, const SheetRow& row, UnitFamily family, UsualWidths& widths, std::optional<double> usual) : desk_(desk), row_(row), family_(family), usual_(usual) {
    if (usual_) {
      *usual_ /= scale_of(printed(SheetField::fresh_to).quantity.dimension(), family);
    } else {
      median_ = widths.of(family, printed(SheetField::fresh_to).quantity.dimension());
    }
  }

  std::vector<Likeliest> run() {
    if (!usual_) exchange();
    for (const SheetField field : kBothEnds) {
      for (const Slip& slip : slips_of(digits_of(printed(field)))) {
        if (usual_ ? slip.sort == SlipSort::digit : slip.sort != SlipSort::sign || is_in_a_fit()) try_figure(field, with_digits(printed(field), slip.digits), slip.sort == SlipSort::sign ? kLast : static_cast<int>(slip.sort) + 1);
      }
      if (!usual_) as_reckoned(field);
    }
    return best();
  }

 private:
  [[nodiscard]] const TypedQuantity& printed(SheetField field) const { return *figure(row_, field).in(family_); }

  /// Only a fit tells whether a figure may have a sign.
  [[nodiscard]] bool is_in_a_fit() const { return desk_.expression(row_.id) != nullptr || !desk_.followers(row_.id).empty(); }

  void exchange() {
    SheetRow as = row_;
    std::swap(as.fresh.from, as.fresh.to);
    if (*width_of(as, family_) <= 0.0) return;
    std::vector<Likeliest> both;
    for (const SheetField field : kBothEnds) both.push_back({{row_.id, field}, text(*figure(as, field).in(family_))});
    // Of a size, the ends as they stand say how wide it is.
    const double width = *width_of(as, family_);
    if (!median_ && width * 50.0 < plain(*as.fresh.to.in(family_), family_)) median_ = width;
    add(as, std::move(both), 0);
  }

  void as_reckoned(SheetField field) {
    const SheetExpression* own = desk_.expression(row_.id);
    if (own == nullptr) return;
    for (const EndCheck& end : end_checks(row_, Reckoner(desk_, *own, family_), family_)) {
      if (end.field != field || end.exact()) continue;
      const Ratio value = to_base(end.value, family_, printed(field).quantity.dimension());
      try_figure(field, with_digits(printed(field), digits_like(value, printed(field))), kLast);
    }
  }

  void try_figure(SheetField field, const TypedQuantity& meant, int sort) {
    SheetRow as = with_figure(row_, field, family_, meant);
    auto width = width_of(as, family_);
    if (!width || *width == 0.0) return;
    if (*width < 0.0) {
      // Where a width is wanted, the ends may stand the other way round: "26.000 to 25.996".
      if (!usual_) return;
      std::swap(as.fresh.from, as.fresh.to);
      width = -*width;
    }
    if (usual_ && (*width > *usual_ * 5.0 || *width * 5.0 < *usual_)) return;
    add(as, {{{row_.id, field}, text(meant)}}, sort);
  }

  void add(const SheetRow& as, std::vector<Likeliest> figures, int sort) {
    const double usual = usual_.value_or(median_.value_or(0.0));
    const double off = usual > 0.0 ? std::abs(std::log(*width_of(as, family_) / usual)) : 0.0;
    all_.push_back({std::move(figures), hear(desk_, as), off > std::log(kFarTooWide), sort, off});
  }

  [[nodiscard]] static std::string text(const TypedQuantity& figure) { return shown_like(figure.quantity.in_base(), figure); }

  /// The likeliest, and the likeliest of the other end where as much speaks for it.
  std::vector<Likeliest> best() {
    std::stable_sort(all_.begin(), all_.end(), [](const RangeMeant& a, const RangeMeant& b) { return a.rank() < b.rank(); });
    std::vector<Likeliest> out;
    std::vector<FigureSpot> offered;
    for (const RangeMeant& each : all_) {
      if (each.heard != all_.front().heard || each.odd_width != all_.front().odd_width || out.size() >= kMostLikely) break;
      // Of each end one is enough, but where a width is all that is known.
      const FigureSpot& spot = each.figures.front().spot;
      const bool again = !usual_ && each.sort > 0 && std::find(offered.begin(), offered.end(), spot) != offered.end();
      if (again || std::find(out.begin(), out.end(), each.figures.front()) != out.end()) continue;
      if (each.sort > 0) offered.push_back(spot);
      out.insert(out.end(), each.figures.begin(), each.figures.end());
    }
    return out;
  }

  const ProofDesk& desk_;
  const SheetRow& row_;
  UnitFamily family_;
  std::optional<double> usual_;   ///< in mm or in
  std::optional<double> median_;
  std::vector<RangeMeant> all_;
};

}  // namespace

std::optional<double> UsualWidths::of(UnitFamily family, Dimension dimension) {
  const auto [there, fresh] = known_.try_emplace({family, dimension});
  if (!fresh) return there->second;
  std::vector<double> widths;
  for (const SheetRow& row : desk_.sheet.rows) {
    const auto width = width_of(row, family);
    if (width && *width > 0.0 && row.fresh.from.in(family)->quantity.dimension() == dimension) widths.push_back(*width);
  }
  if (widths.size() < 3) return std::nullopt;
  std::nth_element(widths.begin(), widths.begin() + static_cast<std::ptrdiff_t>(widths.size() / 2), widths.end());
  there->second = widths[widths.size() / 2];
  return there->second;
}

std::vector<Likeliest> mended_range(const ProofDesk& desk, const SheetRow& row, UnitFamily family, UsualWidths& widths, std::optional<double> usual) {
  return RangeMender(desk, row, family, widths, usual).run();
}

}  // namespace fettle
