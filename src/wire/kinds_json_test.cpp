#include <gtest/gtest.h>

#include "catalogue/catalogue.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

TEST(KindsJson, WritesOneKindWhole) {
  const Kind kind{"flange",
                  Feature::figure,
                  "steel",
                  {{{"edge", StationRole::first, true, Length::counts(120'000'000), {}, Dimension::force, "long", Length::counts(254'000'000)}},
                   {{"gap", Ratio(), false, Dimension::angle, Length::counts(10'000)}}},
                  "drawing",
                  {WearPattern::none, NotWorn::no_diameter, {"edge"}, "own eyes"},
                  {{"lid", {"piston", "face"}}},
                  {{"look", "practice", "Look twice."}},
                  {{"haste", "practice"}},
                  {{"edges", "practice"}},
                  {"feeler-gauge"},
                  {MeasuredWhen::clean, MeasuredWhen::pushed_one_way}};
  const std::string wanted = R"({
  "format": "fettle-kinds",
  "version": 1,
  "kinds": [
    {
      "id": "flange",
      "feature": "figure",
      "material": "steel",
      "wear": {
        "pattern": "none",
        "origin": "own eyes",
        "why_none": "no-diameter",
        "unworn": [
          "edge"
        ]
      },
      "origin": "drawing",
      "gauges": [
        "feeler-gauge"
      ],
      "conditions": [
        "clean",
        "pushed-one-way"
      ],
      "stations": [
        {
          "id": "edge",
          "role": "first",
          "counted": true,
          "quantity": "force",
          "depth": {
            "value": "12.0000",
            "unit": "mm"
          },
          "group": "long",
          "span": {
            "value": "25.4000",
            "unit": "mm"
          }
        }
      ],
      "directions": [
        {
          "id": "gap",
          "angle": {
            "value": "0.0000",
            "unit": "°"
          },
          "counted": false,
          "quantity": "angle",
          "offset": {
            "value": "0.0010",
            "unit": "mm"
          }
        }
      ],
      "members": [
        {
          "role": "lid",
          "kinds": [
            "piston",
            "face"
          ]
        }
      ],
      "definitions": [],
      "how": [
        {
          "id": "look",
          "origin": "practice",
          "text": "Look twice."
        }
      ],
      "mistakes": [
        {
          "id": "haste",
          "origin": "practice"
        }
      ],
      "cautions": [
        {
          "id": "edges",
          "origin": "practice"
        }
      ]
    }
  ]
}
)";
  EXPECT_EQ(kinds_json({kind}, {}), wanted);
}

TEST(KindsJson, SaysWhetherThePlacesAreEnough) {
  const std::string written = kinds_json({*catalogue().kind("cylinder-bore")}, catalogue().definitions);
  const auto holds = [&](const char* id, const char* places) {
    const std::string entry = std::string("\"id\": \"") + id + "\",\n          \"places\": \"" + places + "\"";
    return written.find(entry) != std::string::npos;
  };
  EXPECT_TRUE(holds("oor-1", "enough"));
  EXPECT_TRUE(holds("oor-2", "more-needed"));
}

}  // namespace
}  // namespace fettle
