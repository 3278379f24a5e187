#include "wire/thumb_offers_json.h"

#include "wire/page_words.h"

namespace fettle {
namespace {

using json::Json;

Json thumb_offer(const ThumbOffersPage::Offer& each) {
  return {{"id", each.id}, {"rule", each.rule}, {"definition", each.definition}, {"name", each.name}, {"says", each.says}, {"role", each.role}, {"side", each.side},
          {"bound", json::or_null(each.bound)}, {"figure", json::or_null(each.figure)}, {"missing", json::or_null(each.missing)}, {"from", each.from},
          {"beside", each.beside}, {"source", each.source}, {"mark", each.mark}, {"makers_figure", false}, {"accepted", false}};
}

}  // namespace

std::string thumb_offers_json(const ThumbOffersPage& page) {
  Json out = json::page("fettle-thumb-offers");
  out["job"] = page.job;
  out["warning"] = page.warning;
  out["kinds"] = json::array_of(page.kinds, [](const ThumbOffersPage::Kind& each) {
    return Json{{"kind", each.kind}, {"name", each.name}, {"offers", json::array_of(each.offers, thumb_offer)}};
  });
  return json::text_of(out);
}

}  // namespace fettle
