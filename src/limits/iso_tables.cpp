#include "limits/iso_tables.h"

#include <algorithm>
#include <array>

#include "base/assertion.h"

namespace fettle {
namespace {

constexpr std::int64_t kCountsPerMicrometre = Length::kCountsPerMillimetre / 1000;
constexpr std::int64_t kCountsPerTenth = kCountsPerMicrometre / 10;

constexpr std::size_t kSteps = 13;
constexpr std::size_t kFineSteps = 25;
constexpr int kMostNominal = 500;
constexpr int kFinestGrade = -1;
constexpr int kCoarsestGrade = 18;

/// Up to and including, in mm.
constexpr std::array<int, kSteps> kStepEnds{3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, kMostNominal};
constexpr std::array<int, kFineSteps> kFineStepEnds{3,   6,   10,  14,  18,  24,  30,  40,  50,  65,  80,  100, 120,
                                                    140, 160, 180, 200, 225, 250, 280, 315, 355, 400, 450, kMostNominal};

using GradeRow = std::array<int, kSteps>;
/// In tenths of a micrometre: IT01, IT0, IT1 ... IT18.
constexpr std::array<GradeRow, kCoarsestGrade - kFinestGrade + 1> kGrades{{
    {3, 4, 4, 5, 6, 6, 8, 10, 12, 20, 25, 30, 40},
    {5, 6, 6, 8, 10, 10, 12, 15, 20, 30, 40, 50, 60},
    {8, 10, 10, 12, 15, 15, 20, 25, 35, 45, 60, 70, 80},
    {12, 15, 15, 20, 25, 25, 30, 40, 50, 70, 80, 90, 100},
    {20, 25, 25, 30, 40, 40, 50, 60, 80, 100, 120, 130, 150},
    {30, 40, 40, 50, 60, 70, 80, 100, 120, 140, 160, 180, 200},
    {40, 50, 60, 80, 90, 110, 130, 150, 180, 200, 230, 250, 270},
    {60, 80, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400},
    {100, 120, 150, 180, 210, 250, 300, 350, 400, 460, 520, 570, 630},
    {140, 180, 220, 270, 330, 390, 460, 540, 630, 720, 810, 890, 970},
    {250, 300, 360, 430, 520, 620, 740, 870, 1000, 1150, 1300, 1400, 1550},
    {400, 480, 580, 700, 840, 1000, 1200, 1400, 1600, 1850, 2100, 2300, 2500},
    {600, 750, 900, 1100, 1300, 1600, 1900, 2200, 2500, 2900, 3200, 3600, 4000},
    {1000, 1200, 1500, 1800, 2100, 2500, 3000, 3500, 4000, 4600, 5200, 5700, 6300},
    {1400, 1800, 2200, 2700, 3300, 3900, 4600, 5400, 6300, 7200, 8100, 8900, 9700},
    {2500, 3000, 3600, 4300, 5200, 6200, 7400, 8700, 10000, 11500, 13000, 14000, 15500},
    {4000, 4800, 5800, 7000, 8400, 10000, 12000, 14000, 16000, 18500, 21000, 23000, 25000},
    {6000, 7500, 9000, 11000, 13000, 16000, 19000, 22000, 25000, 29000, 32000, 36000, 40000},
    {10000, 12000, 15000, 18000, 21000, 25000, 30000, 35000, 40000, 46000, 52000, 57000, 63000},
    {14000, 18000, 22000, 27000, 33000, 39000, 46000, 54000, 63000, 72000, 81000, 89000, 97000},
}};

struct LetterRow {
  IsoLetter letter;
  std::array<int, kFineSteps> micrometres;  ///< without sign; 0 where it is not tabulated, and for h, j and js
};

constexpr std::array kLetters{
    LetterRow{{"a", IsoSide::below, 1, kMostNominal},
              {270, 270, 280, 290, 290, 300, 300, 310, 320, 340, 360, 380, 410, 460, 520, 580, 660, 740, 820, 920, 1050, 1200, 1350, 1500, 1650}},
    LetterRow{{"b", IsoSide::below, 1, kMostNominal},
              {140, 140, 150, 150, 150, 160, 160, 170, 180, 190, 200, 220, 240, 260, 280, 310, 340, 380, 420, 480, 540, 600, 680, 760, 840}},
    LetterRow{{"c", IsoSide::below, 0, kMostNominal},
              {60, 70, 80, 95, 95, 110, 110, 120, 130, 140, 150, 170, 180, 200, 210, 230, 240, 260, 280, 300, 330, 360, 400, 440, 480}},
    LetterRow{{"cd", IsoSide::below, 0, 10}, {34, 46, 56}},
    LetterRow{{"d", IsoSide::below, 0, kMostNominal},
              {20, 30, 40, 50, 50, 65, 65, 80, 80, 100, 100, 120, 120, 145, 145, 145, 170, 170, 170, 190, 190, 210, 210, 230, 230}},
    LetterRow{{"e", IsoSide::below, 0, kMostNominal},
              {14, 20, 25, 32, 32, 40, 40, 50, 50, 60, 60, 72, 72, 85, 85, 85, 100, 100, 100, 110, 110, 125, 125, 135, 135}},
    LetterRow{{"ef", IsoSide::below, 0, 10}, {10, 14, 18}},
    LetterRow{{"f", IsoSide::below, 0, kMostNominal},
              {6, 10, 13, 16, 16, 20, 20, 25, 25, 30, 30, 36, 36, 43, 43, 43, 50, 50, 50, 56, 56, 62, 62, 68, 68}},
    LetterRow{{"fg", IsoSide::below, 0, 10}, {4, 6, 8}},
    LetterRow{{"g", IsoSide::below, 0, kMostNominal},
              {2, 4, 5, 6, 6, 7, 7, 9, 9, 10, 10, 12, 12, 14, 14, 14, 15, 15, 15, 17, 17, 18, 18, 20, 20}},
    LetterRow{{"h", IsoSide::below, 0, kMostNominal}, {}},
    LetterRow{{"js", IsoSide::about, 0, kMostNominal}, {}},
    LetterRow{{"j", IsoSide::about, 0, kMostNominal}, {}},
    LetterRow{{"k", IsoSide::above, 0, kMostNominal},
              {0, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 3, 3, 3, 3, 3, 4, 4, 4, 4, 4, 4, 4, 5, 5}},
    LetterRow{{"m", IsoSide::above, 0, kMostNominal},
              {2, 4, 6, 7, 7, 8, 8, 9, 9, 11, 11, 13, 13, 15, 15, 15, 17, 17, 17, 20, 20, 21, 21, 23, 23}},
    LetterRow{{"n", IsoSide::above, 0, kMostNominal},
              {4, 8, 10, 12, 12, 15, 15, 17, 17, 20, 20, 23, 23, 27, 27, 27, 31, 31, 31, 34, 34, 37, 37, 40, 40}},
    LetterRow{{"p", IsoSide::above, 0, kMostNominal},
              {6, 12, 15, 18, 18, 22, 22, 26, 26, 32, 32, 37, 37, 43, 43, 43, 50, 50, 50, 56, 56, 62, 62, 68, 68}},
    LetterRow{{"r", IsoSide::above, 0, kMostNominal},
              {10, 15, 19, 23, 23, 28, 28, 34, 34, 41, 43, 51, 54, 63, 65, 68, 77, 80, 84, 94, 98, 108, 114, 126, 132}},
    LetterRow{{"s", IsoSide::above, 0, kMostNominal},
              {14, 19, 23, 28, 28, 35, 35, 43, 43, 53, 59, 71, 79, 92, 100, 108, 122, 130, 140, 158, 170, 190, 208, 232, 252}},
    LetterRow{{"t", IsoSide::above, 24, kMostNominal},
              {0, 0, 0, 0, 0, 0, 41, 48, 54, 66, 75, 91, 104, 122, 134, 146, 166, 180, 196, 218, 240, 268, 294, 330, 360}},
    LetterRow{{"u", IsoSide::above, 0, kMostNominal},
              {18, 23, 28, 33, 33, 41, 48, 60, 70, 87, 102, 124, 144, 170, 190, 210, 236, 258, 284, 315, 350, 390, 435, 490, 540}},
    LetterRow{{"v", IsoSide::above, 14, kMostNominal},
              {0, 0, 0, 0, 39, 47, 55, 68, 81, 102, 120, 146, 172, 202, 228, 252, 284, 310, 340, 385, 425, 475, 530, 595, 660}},
    LetterRow{{"x", IsoSide::above, 0, kMostNominal},
              {20, 28, 34, 40, 45, 54, 64, 80, 97, 122, 146, 178, 210, 248, 280, 310, 350, 385, 425, 475, 525, 590, 660, 740, 820}},
    LetterRow{{"y", IsoSide::above, 18, kMostNominal},
              {0, 0, 0, 0, 0, 63, 75, 94, 114, 144, 174, 214, 254, 300, 340, 380, 425, 470, 520, 580, 650, 730, 820, 920, 1000}},
    LetterRow{{"z", IsoSide::above, 0, kMostNominal},
              {26, 35, 42, 50, 60, 73, 88, 112, 136, 172, 210, 258, 310, 365, 415, 465, 520, 575, 640, 710, 790, 900, 1000, 1100, 1250}},
    LetterRow{{"za", IsoSide::above, 0, kMostNominal},
              {32, 42, 52, 64, 77, 98, 118, 148, 180, 226, 274, 335, 400, 470, 535, 600, 670, 740, 820, 920, 1000, 1150, 1300, 1450, 1600}},
    LetterRow{{"zb", IsoSide::above, 0, kMostNominal},
              {40, 50, 67, 90, 108, 136, 160, 200, 242, 300, 360, 445, 525, 620, 700, 780, 880, 960, 1050, 1200, 1300, 1500, 1650, 1850, 2100}},
    LetterRow{{"zc", IsoSide::above, 0, kMostNominal},
              {60, 80, 97, 130, 150, 188, 218, 274, 325, 405, 480, 585, 690, 800, 900, 1000, 1150, 1250, 1350, 1550, 1700, 1900, 2100, 2400, 2600}},
};

using StepRow = std::array<int, kSteps>;
constexpr int kFinestShaftJ = 5;
/// j5, j6, j7: minus so many micrometres.
constexpr std::array<StepRow, 3> kShaftJ{{{2, 2, 2, 3, 4, 5, 7, 9, 11, 13, 16, 18, 20},
                                          {2, 2, 2, 3, 4, 5, 7, 9, 11, 13, 16, 18, 20},
                                          {4, 4, 5, 6, 8, 10, 12, 15, 18, 21, 26, 28, 32}}};
constexpr int kShaftJ8 = 6;  ///< the one cell of j8
constexpr int kFinestHoleJ = 6;
/// J6, J7, J8: plus so many micrometres.
constexpr std::array<StepRow, 3> kHoleJ{{{2, 5, 5, 6, 8, 10, 13, 16, 18, 22, 25, 29, 33},
                                         {4, 6, 8, 10, 12, 14, 18, 22, 26, 30, 36, 39, 43},
                                         {6, 10, 12, 15, 20, 24, 28, 34, 41, 47, 55, 60, 66}}};

constexpr Length whole_mm(int millimetres) { return Length::counts(millimetres * Length::kCountsPerMillimetre); }
constexpr Length whole_um(int micrometres) { return Length::counts(micrometres * kCountsPerMicrometre); }

/// Which step: the first whose end is not passed.
template <std::size_t N>
std::size_t index_in(const std::array<int, N>& ends, Length nominal) {
  FETTLE_ASSERT(nominal > Length() && nominal <= whole_mm(kMostNominal), "a nominal size outside the tables");
  const auto found = std::find_if(ends.begin(), ends.end(), [&](int end) { return nominal <= whole_mm(end); });
  return static_cast<std::size_t>(found - ends.begin());
}

template <std::size_t N>
IsoStep step_in(const std::array<int, N>& ends, Length nominal) {
  const std::size_t at = index_in(ends, nominal);
  return {whole_mm(at == 0 ? 0 : ends[at - 1]), whole_mm(ends[at])};
}

const LetterRow* row_of(std::string_view small) {
  const auto found = std::find_if(kLetters.begin(), kLetters.end(), [&](const LetterRow& row) { return row.letter.letters == small; });
  return found == kLetters.end() ? nullptr : &*found;
}

/// The cell of a table whose rows are grades from `finest` on.
std::optional<int> cell(const std::array<StepRow, 3>& table, int finest, IsoGrade grade, Length nominal) {
  const int row = grade.number - finest;
  if (row < 0 || row >= static_cast<int>(table.size())) return std::nullopt;
  return table[static_cast<std::size_t>(row)][index_in(kStepEnds, nominal)];
}

}  // namespace

std::optional<IsoGrade> read_grade(std::string_view text) {
  for (int number = kFinestGrade; number <= kCoarsestGrade; ++number) {
    if (grade_text({number}) == text) return IsoGrade{number};
  }
  return std::nullopt;
}

std::string grade_text(IsoGrade grade) { return grade.number < 0 ? "01" : std::to_string(grade.number); }

IsoStep iso_step(Length nominal) { return step_in(kStepEnds, nominal); }
IsoStep iso_fine_step(Length nominal) { return step_in(kFineStepEnds, nominal); }

Length standard_tolerance(IsoGrade grade, Length nominal) {
  FETTLE_ASSERT(grade.number >= kFinestGrade && grade.number <= kCoarsestGrade, "a grade outside the table");
  return Length::counts(kGrades[static_cast<std::size_t>(grade.number - kFinestGrade)][index_in(kStepEnds, nominal)] * kCountsPerTenth);
}

const IsoLetter* iso_letter(std::string_view small) {
  const LetterRow* row = row_of(small);
  return row == nullptr ? nullptr : &row->letter;
}

std::vector<std::string> iso_letters() {
  std::vector<std::string> out;
  for (const LetterRow& row : kLetters) out.emplace_back(row.letter.letters);
  return out;
}

Length letter_deviation(std::string_view small, Length nominal) {
  const LetterRow* row = row_of(small);
  FETTLE_ASSERT(row != nullptr && row->letter.side != IsoSide::about, "a letter without one fundamental deviation");
  FETTLE_ASSERT(nominal > whole_mm(row->letter.over_mm) && nominal <= whole_mm(row->letter.up_to_mm), "a letter where it is not tabulated");
  return whole_um(row->micrometres[index_in(kFineStepEnds, nominal)]);
}

std::optional<Length> shaft_j(IsoGrade grade, Length nominal) {
  if (grade.number == kFinestShaftJ + static_cast<int>(kShaftJ.size()) && nominal <= whole_mm(kStepEnds.front())) return -whole_um(kShaftJ8);
  const auto found = cell(kShaftJ, kFinestShaftJ, grade, nominal);
  return found ? std::optional(-whole_um(*found)) : std::nullopt;
}

std::optional<Length> hole_j(IsoGrade grade, Length nominal) {
  const auto found = cell(kHoleJ, kFinestHoleJ, grade, nominal);
  return found ? std::optional(whole_um(*found)) : std::nullopt;
}

}  // namespace fettle
