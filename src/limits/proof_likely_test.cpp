#include <gtest/gtest.h>

#include <algorithm>

#include "limits/proof_on_bench.h"
#include "limits/proof_desk.h"

namespace fettle {
namespace {

/// "series certain: b new-from 62.442 mm, b new-to 62.455 mm": each finding and what it takes for likeliest.
std::string told(const std::string& text) {
  std::string out;
  for (const ProofFinding& each : proof_read(typed_sheet(text), catalogue())) {
    out += std::string(each.rule) + " " + std::string(how_sure_name(each.sure)) + ":";
    for (const Likeliest& likely : each.likeliest) out += (out.back() == ':' ? " " : ", ") + likely.spot.row + " " + std::string(field_name(likely.spot.field)) + " " + likely.text;
    out += "\n";
  }
  return out;
}

std::string first_of(const std::string& text) {
  const std::string all = told(text);
  return all.substr(0, all.find_first_of(",\n"));
}

const std::string kSteps = "id;what;step (mm);new (mm);wear (mm)\na;Bore;;80.000-80.022;80.150\nb;Bore;0.25;80.250-80.272;80.400\n";

TEST(ProofOfAFigure, APrintedFractionIsReadAsOne) {
  const std::string head = "id;what;new\n";
  EXPECT_EQ(told(head + "a;Spring;2-1/32 in (51.59 mm)\nb;Spring, inner;1½ in (38.1 mm)\n"), "");
  EXPECT_EQ(told(head + "a;Spring;3-5/16 in (87.3 mm)\n"), "units-disagree certain: a new-from 3-7/16 in, a new-from 84.1 mm\n");
  EXPECT_EQ(told(head + "a;Spring;2-1/32 in (51.95 mm)\n"), "units-disagree certain: a new-from 51.59 mm, a new-from 2.0453 in\n") << "51.95 mm is no 64th";
  EXPECT_EQ(told(head + "a;Spring;5½ in (142.9 mm)\n"), "units-disagree certain: a new-from 5-5/8 in, a new-from 139.7 mm\n");
}

TEST(ProofOfAFigure, AWidthThatDiffersInTheTwoUnitsIsOneTrouble) {
  const std::string head = "id;what;new\n";
  EXPECT_EQ(told(head + "a;Idler;76.200 ±0.013 mm (3.0000 ±0.0005 in)\n"), "");
  EXPECT_EQ(told(head + "a;Idler;76.200 ±0.013 mm (3.0000 ±0.0050 in)\n"), "units-disagree certain: a new-from 2.9995 in, a new-to 3.0005 in\n") << "no slip makes 127 of 13";
  EXPECT_EQ(told(head + "a;Idler;76.200 ±0.031 mm (3.0000 ±0.0005 in)\n"), "units-disagree certain: a new-from 76.187 mm, a new-to 76.213 mm\n") << "13 and 31";
  const std::string other_middle = told(head + "a;Idler;76.200 ±0.013 mm (3.0100 ±0.0050 in)\n");
  EXPECT_EQ(std::count(other_middle.begin(), other_middle.end(), '\n'), 2) << other_middle;
}

TEST(ProofOfAFigure, BothEndsBesideAFitAreOneTrouble) {
  const std::string head = "id;what;fit;new (mm)\n";
  EXPECT_EQ(told(head + "a;Pin;18 g6;18.006-18.017\n"), "fit-code certain: a new-from 17.983 mm, a new-to 17.994 mm\n");
  EXPECT_EQ(told(head + "a;Pin;18 g6;17.983-17.999\n"), "fit-code certain: a new-to 17.994 mm\n");
}

TEST(ProofOfAFigure, ThePlayOfAFitNeedsNoKind) {
  const std::string head = "id;what;fit;new (mm)\n";
  for (const char* right : {"-0.051 to -0.002", "0.002 to 0.051"}) EXPECT_EQ(told(head + "a;Sleeve;65 H7/p6;" + right + "\n"), "") << right;
  EXPECT_EQ(told(head + "a;Sleeve;65 H7/p6;-0.051 to 0.002\n"), "fit-code certain: a new-to -0.002 mm\n");
  EXPECT_EQ(told(head + "a;Slide;20 H7/g6;0.007-0.041\n"), "");
  EXPECT_EQ(told(head + "a;Slide;20 H7/g6;0.007-0.014\n"), "fit-code certain: a new-to 0.041 mm\n");
  EXPECT_EQ(told(head + "a;Slide;20 H7/g6;-0.041 to -0.007\n"), "fit-code certain: a new-from 0.007 mm, a new-to 0.041 mm\n") << "a sliding fit has no interference";
  EXPECT_EQ(told(head + "a;Bore;20 H7/g6;20.000-20.021\n"), "") << "the hole or the pin: nobody says";
}

/// A figure of one digit is another one by an inch within its own rounding: that is no reason to say so.
TEST(ProofOfAFigure, ALostSignOfCoarseFiguresIsNoInch) {
  const std::string head = "id;what;new (in);from\nu;Top;.003;\n";
  EXPECT_EQ(first_of(head + "l;Bottom;.001;\nt;Vertical;.004;u - l\n"), "reckoned certain: l new-from -0.001 in");
  EXPECT_EQ(told(head + "l;Bottom;-.001;\nt;Vertical;.004;u - l\n"), "");
}

TEST(ProofOfAFigure, APartInInchesSlipsInInches) {
  const std::string head = "id;what;new;from\nswept;One cylinder;38.4845 in³;\n";
  EXPECT_EQ(told(head + "clear;Chamber;4.8106 in³;\nratio;Ratio;9.000 : 1;1 + swept / clear\n"), "");
  EXPECT_EQ(told(head + "clear;Chamber;4.8016 in³;\nratio;Ratio;9.000 : 1;1 + swept / clear\n"), "reckoned certain: ratio new-from 9.015, clear new-from 4.8106 in³, swept new-from 38.4145 in³\n");
}

TEST(ProofOfARow, InAnotherUnitThanItsSeries) {
  EXPECT_EQ(told(kSteps + "c;Bore;0.50;8.0500-8.0522;8.0650\nd;Bore;0.75;80.750-80.772;80.900\n"), "series certain: c new-from 80.500 mm, c new-to 80.522 mm, c wear 80.650 mm\n");
  EXPECT_EQ(told(kSteps + "c;Bore;0.50;0.080500-0.080522;80.650\nd;Bore;0.75;80.750-80.772;80.900\n"), "series certain: c new-from 80.500 mm, c new-to 80.522 mm\n") << "metres, but for the wear limit";
  EXPECT_EQ(told(kSteps + "c;Bore;0.50;3.16929-3.17016;3.17520\nd;Bore;0.75;80.750-80.772;80.900\n"), "series certain: c new-from 80.5000 mm, c new-to 80.5221 mm, c wear 80.6501 mm\n") << "inches";
  EXPECT_EQ(told(kSteps + "c;Bore;0.50;80.500-80.522;80.650\nd;Bore;0.75;80.750-80.772;80.900\n"), "");
}

TEST(ProofOfARow, InAnotherUnitThanItsFit) {
  const std::string head = "id;what;new (mm);wear (mm);from\n";
  EXPECT_EQ(told(head + "h;Hole;1.8000-1.8015;1.8060;\ns;Shaft;17.963-17.975;17.930;\nc;Play;0.025-0.052;0.10;h - s\n"), "reckoned certain: h new-from 18.000 mm, h new-to 18.015 mm, h wear 18.060 mm\n");
  EXPECT_EQ(told(head + "h;Hole;18.000-18.015;18.060;\ns;Shaft;17.963-17.975;17.930;\nc;Play;0.25-0.52;0.10;h - s\n"), "reckoned certain: c new-from 0.025 mm, c new-to 0.052 mm\n");
  EXPECT_EQ(told("id;what;new (in);from\nh;Guide;.3657-.3667;\ns;Stem;.3637-.3645;\nc;Play;1.2-3.0;h - s\n"), "reckoned certain: c new-from 0.0012 in, c new-to 0.0030 in\n") << "thousandths as inches";
  EXPECT_EQ(told(head + "h;Hole;1.8000-1.8015;;\ns;Shaft;17.963-17.975;;\nc;Play;0.025-0.052;;h - s\ns2;Other shaft;17.943-17.955;;\nc2;Other play;0.045-0.072;;h - s2\n"),
            "reckoned certain: h new-from 18.000 mm, h new-to 18.015 mm\n")
      << "one hole of two fits is one trouble";
  EXPECT_EQ(told(head + "h;Hole;18.000-18.015;;\ns;Shaft;17.963-17.975;;\nc;Play;0.025-0.052;0.10;h - s\n"), "");
}

TEST(ProofOfARow, InAnotherUnitThanItsOtherUnit) {
  const std::string head = "id;what;new (mm);new (in);wear (mm);wear (in)\na;Bore;80.000-80.022;3.1496-3.1505;80.150;3.1555\n";
  EXPECT_EQ(told(head + "b;Pin;2.0000-2.0010;.7874-.7878;2.0100;.7913\n"),
            "units-disagree certain: b new-from 20.000 mm, b new-to 20.010 mm, b wear 20.100 mm, b new-from 0.07874 in, b new-to 0.07878 in, b wear 0.07913 in\n");
  EXPECT_EQ(told(head + "b;Pin;.7874-.7878;.7874-.7878;;\n").substr(0, 65), "units-disagree certain: b new-from 20.000 mm, b new-to 20.010 mm,") << told(head + "b;Pin;.7874-.7878;.7874-.7878;;\n");
  EXPECT_EQ(told(head + "b;Pin;20.000-20.010;.7874-.7878;20.100;.7913\n"), "");
}

TEST(ProofOfARow, InAnotherUnitThanItsOwnWearLimit) {
  const std::string head = "id;what;new (mm);wear (mm)\n";
  EXPECT_EQ(first_of(head + "a;Bore;80.000-80.022;8.0150\n"), "wear-side odd: a wear 80.150 mm");
  EXPECT_EQ(first_of(head + "a;Pin;2.4980-2.4995;24.950\n"), "wear-side odd: a wear 2.4950 mm");
  EXPECT_NE(told(head + "a;Pin;2.4980-2.4995;24.950\n").find("a new-to 24.995 mm"), std::string::npos) << "or what is new is wrong";
  EXPECT_EQ(first_of(head + "a;Spring;47.00;4.620\n"), "wear-side odd: a wear 46.20 mm") << "a single figure";
  EXPECT_EQ(told(head + "a;Lining;5.00;0.50\n"), "") << "a lining wears down to a tenth";
  EXPECT_EQ(told(head + "a;Lining;5.00-5.20;0.50\n"), "");
}

TEST(ProofOfARow, InAnotherUnitThanTheRowsLikeIt) {
  EXPECT_EQ(told("id;what;grade;new (mm)\na;Bore;A;86.000-86.010\nb;Bore;B;8.6010-8.6020\nc;Bore;C;86.020-86.030\n"), "bands certain: b new-from 86.010 mm, b new-to 86.020 mm\n");
  EXPECT_EQ(told("id;what;new (mm);choose\na;Play;up to 0.40;thin\nb;Play;0.040-0.065;middle\nc;Play;over 0.65;thick\n"), "bands certain: b new-from 0.40 mm, b new-to 0.65 mm\n");
  const std::string kind = "id;what;kind;new (mm)\na;Journal 1;main-journal;64.950-64.970\nb;Journal 2;main-journal;64.920-64.940\n";
  EXPECT_EQ(told(kind + "c;Journal 3;main-journal;6.4930-6.4950\n"), "two-figures odd: c new-from 64.930 mm, c new-to 64.950 mm\n");
  EXPECT_EQ(told(kind + "c;Oil hole;main-journal;6.00-6.05\n"), "") << "a tenth within a tenth is none";
  EXPECT_EQ(told("id;what;new (mm)\na;Stem;8.000-8.015\nb;Stem;0.8000-0.8015\n"), "two-figures odd: b new-from 8.000 mm, b new-to 8.015 mm, a new-from 0.8000 mm, a new-to 0.8015 mm\n");
  EXPECT_EQ(told("id;what;kind;new (mm)\na;Ring gap;piston;0.30-0.60\nb;Ring side play;piston;0.03-0.06\n"), "");
}

TEST(ProofOfARange, ItsFitSaysWhatABackwardsOneWasMeantToBe) {
  const std::string rest = "s;Stem;7.963-7.975;\nc;Play;0.025-0.052;h - s\n";
  EXPECT_EQ(told("id;what;new (mm);from\nh;Guide;8.900-8.015;\n" + rest), "range-backwards certain: h new-from 8.000 mm\n") << "a digit";
  EXPECT_EQ(told("id;what;new (mm);from\nh;Guide;8.000-0.8015;\n" + rest), "range-backwards certain: h new-to 8.015 mm\n") << "the point";
  EXPECT_EQ(told("id;what;new (mm);from\nh;Guide;8.015-8.000;\n" + rest), "range-backwards certain: h new-from 8.000 mm, h new-to 8.015 mm\n") << "exchanged";
  EXPECT_EQ(told("id;what;new (mm);from\nh;Guide;8.000-8.015;\ns;Stem;7.963-7.975;\nc;Play;0.052-0.025;h - s\n"), "range-backwards certain: c new-from 0.025 mm, c new-to 0.052 mm\n");
}

TEST(ProofOfARange, ItsNeighboursSayHowWideItIs) {
  const std::string head = "id;what;new (mm)\na;Pin, front;20.000-20.013\nb;Pin, middle;24.000-24.013\nc;Pin, rear;28.000-28.013\n";
  EXPECT_EQ(first_of(head + "d;Shaft;32.600-32.013\n"), "range-backwards certain: d new-from 32.000 mm");
  EXPECT_EQ(first_of(head + "d;Shaft;32.013-32.000\n"), "range-backwards certain: d new-from 32.000 mm");
}

TEST(ProofOfARange, TheClassesBesideItSayWhereItsEndIs) {
  const std::string head = "id;what;grade;new (mm)\na;Bore;A;86.000-86.010\nb;Bore;B;";
  EXPECT_EQ(told(head + "86.010-86.026\nc;Bore;C;86.020-86.030\n"), "bands odd: b new-to 86.020 mm, c new-from 86.026 mm\n");
  EXPECT_EQ(told(head + "46.010-86.020\nc;Bore;C;86.020-86.030\n"), "bands odd: b new-from 86.010 mm\n");
  EXPECT_EQ(told(head + "86.010-86.020\nc;Bore;C;86.020-86.030\n"), "");
  const std::string fits = "id;what;grade;new (mm);from\na;Bore;A;86.000-86.010;\nb;Bore;B;86.015-86.020;\nc;Bore;C;86.020-86.030;\ns;Skirt;;85.960-85.970;\np;Play;;0.040-0.060;b - s\n";
  EXPECT_EQ(first_of(fits), "bands odd: b new-from 86.010 mm") << "its fit says that it is not the end of A";
  EXPECT_EQ(told(fits).find("reckoned"), std::string::npos) << "what follows from it waits";
}

TEST(ProofOfASeries, TheFiguresAreBlamedWhereTheStepIsInOrder) {
  const std::string head = "id;what;step (mm);new (mm)\na;Pin;;62.942-62.955\nb;Pin;0.25;62.692-62.705\n";
  EXPECT_EQ(told(head + "c;Pin;0.50;62.342-62.355\nd;Pin;0.75;62.192-62.205\n"), "series certain: c new-from 62.442 mm, c new-to 62.455 mm\n") << "one digit in both";
  EXPECT_EQ(told(head + "c;Pin;0.50;62.422-62.435\nd;Pin;0.75;62.192-62.205\n"), "series certain: c new-from 62.442 mm, c new-to 62.455 mm\n") << "0.52 is no step of these";
  EXPECT_EQ(told(head + "c;Pin;0.50;62.442-62.455\nd;Pin;0.75;62.192-62.205\n"), "");
}

TEST(ProofOfASeries, TheStepIsBlamedWhereTheFiguresAreInOrder) {
  const std::string head = "id;what;step (mm);new (mm);wear (mm)\na;Bore;;80.000-80.022;80.150\nb;Bore;0.25;80.250-80.272;80.400\n";
  EXPECT_EQ(first_of(head + "c;Bore;0.05;80.500-80.522;80.650\nd;Bore;0.75;80.750-80.772;80.900\n"), "series certain: c step 0.50 mm");
  EXPECT_EQ(first_of(head + "c;Bore;0.25;80.500-80.522;80.650\nd;Bore;0.75;80.750-80.772;80.900\n"), "series certain: c step 0.50 mm") << "the step of another row";
  EXPECT_EQ(first_of(head + "c;Bore;5.0;80.500-80.522;80.650\nd;Bore;0.75;80.750-80.772;80.900\n"), "series certain: c step 0.50 mm");
  EXPECT_EQ(first_of("id;what;step (mm);new (mm)\na;Washer;;2.31\nb;Washer;0.25;2.56\nc;Washer;0.50;2.71\nd;Washer;0.75;3.06\n"), "series certain: c new-from 2.81 mm") << "a single figure is no two";
}

TEST(ProofOfASeries, StepsOfTheOtherUnit) {
  const std::string inch = "id;what;step;new (mm)\na;Pin;;63.000-63.015\nb;Pin;.010 in;62.746-62.761\nc;Pin;.020 in;62.492-62.507\n";
  EXPECT_EQ(told(inch + "d;Pin;.030 in;62.238-62.253\n"), "");
  EXPECT_EQ(told(inch + "d;Pin;.030 in;62.338-62.353\n"), "series certain: d new-from 62.238 mm, d new-to 62.253 mm\n");
  const std::string mixed = "id;what;step;new (mm)\na;Bore;;80.000-80.022\nb;Bore;0.25 mm;80.250-80.272\nc;Bore;.020 in;";
  EXPECT_EQ(told(mixed + "80.508-80.530\nd;Bore;0.75 mm;80.750-80.772\n"), "") << "one inch step among others";
  EXPECT_EQ(first_of(mixed + "80.500-80.522\nd;Bore;0.75 mm;80.750-80.772\n").substr(0, 22), "series certain: c step");
  const std::string rounded = "id;what;step (mm);new (mm)\na;Pin;;63.000-63.015\nb;Pin;0.25;62.746-62.761\nc;Pin;0.50;62.492-62.507\nd;Pin;0.75;62.238-62.253\n";
  EXPECT_EQ(told(rounded), "series odd: b step 0.010 in, c step 0.020 in, d step 0.030 in\n");
  EXPECT_EQ(told("# original: in\n" + rounded), "") << "made in inches: the steps were converted";
  EXPECT_EQ(told("id;what;step (in);new (mm)\na;Bore;;80.000-80.022\nb;Bore;.010;80.250-80.272\nc;Bore;.020;80.500-80.522\n"), "series odd: b step 0.25 mm, c step 0.50 mm\n");
  EXPECT_EQ(told("id;what;step;new (mm)\na;Pin;;63.00-63.02\nb;Pin;0.25 mm;62.75-62.77\nc;Pin;.020 in;62.49-62.51\n"), "") << "right within rounding";
  EXPECT_EQ(told("id;what;step;new (mm)\na;Pin;;63.000-63.015\nb;Pin;0.25 mm (.010 in);62.746-62.761\nc;Pin;0.51 mm (.020 in);62.492-62.507\n"), "") << "the step is exact in one of its units";
}

TEST(ProofOfAWearLimit, ThatStandsAlone) {
  const std::string head = "id;what;new (mm);wear (mm)\n";
  EXPECT_EQ(told(head + "a;Bore;80.000-80.022;80.011\n").substr(0, 18), "wear-side certain:") << "inside what is new";
  EXPECT_EQ(first_of(head + "a;Bore;80.000-80.022;81.150\n"), "wear-side odd: a wear 80.150 mm");
  EXPECT_EQ(first_of(head + "a;Play;0.040-0.075;1.35\n"), "wear-side odd: a wear 0.135 mm");
  EXPECT_EQ(told(head + "a;Bore;80.000-80.022;80.250\nb;Play;0.040-0.075;0.35\nc;Round;0.000-0.005;0.050\n"), "");
  EXPECT_EQ(told(head + "a;Bore, selected;80.000-80.004;80.150\nb;End play;0.05-0.06;0.30\nc;Free length;44.0-45.0;42.5\nd;Drum;200.0-200.1;201.0\n"), "");
  EXPECT_EQ(told(head + "a;Head, height;120.0-120.1;117.0\n"), "") << "far, and no one slip brings it near";
}

TEST(ProofOfUnits, StandardAndQuantityToo) {
  const std::string head = "id;what;new (mm);standard;quantity\n";
  EXPECT_EQ(first_of(head + "a;Bore;80.000-80.022;80.00 mm (3.510 in);\n"), "units-disagree certain: a standard 3.150 in");
  EXPECT_EQ(first_of(head + "a;Oil;;;4500 cm³ (247.6 in³)\n"), "units-disagree certain: a quantity 274.6 in³");
  EXPECT_EQ(told(head + "a;Bore;80.000-80.022;80.00 mm (3.150 in);\nb;Oil;;;4500 cm³ (274.6 in³)\n"), "");
}

TEST(ProofOfUnits, ASlopePerNothingIsNoSlope) {
  EXPECT_EQ(told("id;what;new (in);new (mm);per\na;Taper;.0005;0.0127;0 in (1 mm)\n"), "");
  EXPECT_EQ(told("id;what;new (in);new (mm);per\na;Taper;.0005;0.0127;1 in (1 mm)\n"), "false-slope certain: a new-from 0.0005 mm\n");
}

TEST(ProofOfUnits, OtherDimensionsThanLength) {
  const std::string head = "id;what;new\n";
  EXPECT_EQ(first_of(head + "a;Cap;85 N·m (67.2 lbf·ft)\n"), "units-disagree certain: a new-from 62.7 lbf·ft") << told(head + "a;Cap;85 N·m (67.2 lbf·ft)\n");
  EXPECT_EQ(first_of(head + "a;Cap;62.7 N·m (85.0 lbf·ft)\n"), "units-disagree certain: a new-from 85.0 N·m = 62.7 lbf·ft") << "exchanged";
  EXPECT_EQ(told(head + "a;Spring;260-290 N (58.5-65.2 lbf)\nb;Cover;3.5 N·m (31 lbf·in)\nc;Chamber;38.5 cm³ (2.35 in³)\nd;Pressure;3.5 bar (50.8 psi)\ne;Piston;412 g (14.53 oz)\nf;Oil;80-84 °C (176.0-183.2 °F)\n"), "");
  EXPECT_EQ(told(head + "a;Spring;260-290 N (58.5-62.5 lbf)\n"), "units-disagree certain: a new-to 65.2 lbf\n");
  EXPECT_EQ(told(head + "a;Chamber;38.5 cm³ (2.53 in³)\n"), "units-disagree certain: a new-from 2.35 in³\n");
  EXPECT_EQ(first_of(head + "a;Oil;3.5 bar (508 psi)\n"), "units-disagree certain: a new-from 50.8 psi");
  EXPECT_EQ(told(head + "a;Piston;412 g (15.43 oz)\n"), "units-disagree certain: a new-from 14.53 oz\n");
  EXPECT_EQ(first_of(head + "a;Oil;80 °C (178.0 °F)\n"), "units-disagree certain: a new-from 176.0 °F");
}

}  // namespace
}  // namespace fettle
