#pragma once

#include <optional>
#include <string>
#include <vector>

namespace fettle {

/// The rules of thumb that are offered to a job, in words. Each bound as the job would have typed it.
struct ThumbOffersPage {
  struct Offer {
    std::string id;
    std::string rule;
    std::string definition;
    std::string name;                     ///< of the definition
    std::string says;                     ///< the rule in words
    std::string role;
    std::string side;
    std::optional<std::string> bound;     ///< nothing: a size is missing
    std::optional<std::string> figure;    ///< "at most 0.084 mm (0.00331 in)"
    std::optional<std::string> missing;   ///< which size, and how to state it
    std::vector<std::string> from;        ///< sizes it is reckoned from
    std::vector<std::string> beside;      ///< limits that bound the same another way
    std::string source;
    std::string mark;                     ///< of the source: "seen"
  };
  struct Kind {
    std::string kind;
    std::string name;
    std::vector<Offer> offers;
  };
  std::string job;
  std::string warning;
  std::vector<Kind> kinds;
};

/// thumb-offers.schema.json
[[nodiscard]] std::string thumb_offers_json(const ThumbOffersPage& page);

}  // namespace fettle
