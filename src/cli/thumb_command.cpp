#include "cli/thumb_command.h"

#include <algorithm>

#include "app/thumb_page.h"
#include "base/joined.h"
#include "cli/exit_code.h"
#include "cli/thumb_text.h"
#include "job/job_text.h"
#include "limits/thumb_limits.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

std::optional<TypedQuantity> typed_size(const std::string& text, Problems& problems) {
  if (text.empty()) return std::nullopt;
  return take(read_quantity(text, {{}, Dimension::length, {}, {}, false, {}}, {}), problems);
}

ThumbSizes read_sizes(const ThumbAsked& asked, Problems& problems) {
  ThumbSizes out{typed_size(asked.diameter, problems), typed_size(asked.length, problems), typed_size(asked.radius, problems),
                 typed_size(asked.growth, problems), typed_size(asked.new_size, problems)};
  for (Problem& each : thumb_problems(out)) problems.push_back(std::move(each));
  return out;
}

std::string known_things() {
  std::vector<std::string> out;
  for (const ThumbRule& rule : thumb_rules()) {
    for (const std::string& each : rule.about) {
      if (std::find(out.begin(), out.end(), each) == out.end()) out.push_back(each);
    }
  }
  return joined(out);
}

Problem no_rule(const std::string& about) { return {"cli.no_thumb_rule", {}, {verbatim("id", about), verbatim("known", known_things())}}; }

RunResult refused(const Problems& problems, bool json, Language language) {
  RunResult out{kInput, {}, {}};
  if (json) out.out = problems_json(problems);
  for (const Problem& each : problems) {
    if (!json) out.error += sentence(each, language) + "\n";
  }
  return out;
}

std::vector<ThumbOffer> offers_about(const Job& job, const std::string& about) {
  std::vector<ThumbOffer> out = thumb_offers(job, catalogue());
  out.erase(std::remove_if(out.begin(), out.end(), [&](const ThumbOffer& each) { return !about.empty() && each.kind != about; }), out.end());
  return out;
}

}  // namespace

RunResult run_thumb(const ThumbAsked& asked, Language language) {
  Problems problems;
  const ThumbSizes sizes = read_sizes(asked, problems);
  const auto rules = thumb_rules_about(asked.about);
  if (rules.empty()) problems.push_back(no_rule(asked.about));
  if (problems.empty()) return {kFine, asked.json ? thumb_json(rules, sizes) : thumb_text(asked.about, rules, sizes, language), {}};
  return refused(problems, asked.json, language);
}

RunResult run_thumb_offers(const ThumbAsked& asked, const Job& job, const std::string& command, Language language) {
  Problems problems;
  const std::vector<ThumbOffer> offers = offers_about(job, asked.about);
  if (!asked.about.empty() && catalogue().kind(asked.about) == nullptr) problems.push_back(no_rule(asked.about));
  if (asked.accept.empty()) {
    if (!problems.empty()) return refused(problems, asked.json, language);
    const ThumbOffersPage page = thumb_offers_page(job, offers, language);
    return {kFine, asked.json ? thumb_offers_json(page) : thumb_offers_text(page, command, language), {}};
  }
  const auto offer = std::find_if(offers.begin(), offers.end(), [&](const ThumbOffer& each) { return each.id == asked.accept; });
  if (offer == offers.end()) {
    std::vector<std::string> known;
    for (const ThumbOffer& each : offers) known.push_back(each.id);
    problems.push_back(Problem{"cli.no_thumb_offer", {}, {verbatim("id", asked.accept), verbatim("known", known.empty() ? "–" : joined(known))}});
  } else if (offer->missing) {
    problems.push_back(Problem{"cli.thumb_offer_missing", {}, {verbatim("id", offer->id), word("what", "thumb_offer.needs." + std::string(thumb_size_name(*offer->missing)))}});
  }
  if (asked.by.empty()) problems.push_back(Problem{"cli.thumb_by_nobody", {}, {}});
  if (!problems.empty()) return refused(problems, asked.json, language);
  const std::string remark = sentence({"thumb_offer.block", {word("says", "thumb.rule." + offer->rule->id)}}, language);
  return {kFine, limit_text(accepted_by(*offer, asked.by), {remark}), {}};
}

std::string no_limit_line(const Job& job, const std::string& kind, Language language) {
  const auto list = unlimited(thumb_offers(job, catalogue()), kind);
  if (list.empty()) return {};
  return sentence({"thumb_offer.no_limit", {verbatim("what", unlimited_words(list, language))}}, language) + "\n";
}

}  // namespace fettle
