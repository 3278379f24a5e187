#pragma once

#include "app/thumb_offers.h"
#include "text/sentence.h"
#include "wire/thumb_offers_json.h"

namespace fettle {

/// "at most 0.1 mm (0.00394 in)"
[[nodiscard]] std::string thumb_figure_words(const std::optional<LimitSide>& side, const ThumbFigure& figure, Language language);

/// A kind of the catalogue goes by its own name, another thing that rules are about by its text.
[[nodiscard]] std::string thumb_thing_name(const std::string& id, Language language);

/// "TM 10-3930-647-14&P ix175 (W-11) (seen there)"
[[nodiscard]] std::string thumb_source_words(const ThumbRule& rule, Language language);

/// What is offered, in words.
[[nodiscard]] ThumbOffersPage thumb_offers_page(const Job& job, const std::vector<ThumbOffer>& offers, Language language);

/// "taper (cylinder bore), wear (piston)": what the job has no limit for; nothing where rules of thumb give none either.
[[nodiscard]] std::string unlimited_words(const std::vector<UnlimitedByBooks>& list, Language language);

}  // namespace fettle
