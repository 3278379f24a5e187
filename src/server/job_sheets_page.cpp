#include "server/job_sheets_page.h"

#include <algorithm>

#include "app/part_words.h"
#include "app/proof_draft.h"
#include "catalogue/catalogue.h"
#include "server/answers.h"
#include "server/page_words.h"
#include "server/sheet_page.h"
#include "units/print.h"

namespace fettle {
namespace {

class EffectWords {
 public:
  EffectWords(const Job& job, const LimitsChanged& changed, Language language) : job_(job), changed_(changed), words_(language) {}

  [[nodiscard]] SheetEffectPage page() const {
    SheetEffectPage out{};
    const auto others = std::count_if(changed_.verdicts.begin(), changed_.verdicts.end(), [](const auto& each) { return each.other_word(); });
    out.sentence = changed_.limits.empty() ? words_.say("sheet_page.effect_none")
                                           : words_.say({"sheet_page.effect", {count("limits", static_cast<std::int64_t>(changed_.limits.size())), count("words", others)}});
    for (const LimitsChanged::VerdictTwice& each : changed_.verdicts) out.verdicts.push_back({name(each), each.other_word(), verdict(each, each.before, true), verdict(each, each.now, false)});
    for (const LimitsChanged::StateTwice& each : changed_.states) out.parts.push_back({part(each.part), true, state(each.before), state(each.now)});
    out.engine = SheetEffectPage::Change{words_.say("sheet_page.engine"), changed_.engine_before != changed_.engine_now, plain(changed_.engine_before), plain(changed_.engine_now)};
    return out;
  }

 private:
  [[nodiscard]] std::string part(const std::string& id) const {
    const Part* found = part_of(job_, id);
    return found == nullptr ? id : words_.title(part_message(*found));
  }

  /// The limit as it is, or as it would be.
  [[nodiscard]] const Limit* limit(const std::string& id, bool before) const {
    for (const LimitsChanged::LimitTwice& each : changed_.limits) {
      const auto& own = before ? each.before : each.now;
      if (own && own->id == id) return &*own;
    }
    const auto found = std::find_if(job_.limits.begin(), job_.limits.end(), [&](const auto& each) { return each.value.id == id; });
    return found == job_.limits.end() ? nullptr : &found->value;
  }

  /// "Bore 3 · largest size · service"
  [[nodiscard]] std::string name(const LimitsChanged::VerdictTwice& of) const {
    const Limit* one = limit(of.limit, !of.now);
    if (one == nullptr) return part(of.part) + " · " + of.limit;
    const Kind* kind = catalogue().kind(one->kind);
    const std::string feature = kind == nullptr ? "" : "." + std::string(feature_name(kind->feature));
    return part(of.part) + " · " + words_.say({"definition." + one->definition + feature, {}}) + " · " + words_.say({"role." + std::string(role_name(one->role)), {}});
  }

  [[nodiscard]] static std::string name_of_word(VerdictWord word) { return std::string(verdict_word_name(word)); }
  [[nodiscard]] SheetEffectPage::Word plain(VerdictWord word) const { return {name_of_word(word), words_.say({"verdict." + name_of_word(word), {}})}; }
  [[nodiscard]] SheetEffectPage::Word state(StateWord word) const { return plain(word_of(word)); }

  /// The word, the bound that it is said of, and the chance: whichever of them is the one that differs.
  [[nodiscard]] std::optional<SheetEffectPage::Word> verdict(const LimitsChanged::VerdictTwice& of, const std::optional<Verdict>& of_one, bool before) const {
    if (!of_one) return std::nullopt;
    SheetEffectPage::Word out = plain(of_one->word);
    if (const Limit* one = limit(of.limit, before)) {
      out.words += ", " + std::string(one->side == LimitSide::at_most ? "≤ " : "≥ ") + words_.number(one->bound.text);
      if (one->origin.sheet && one->origin.sheet->open) out.words += " (" + words_.say("sheet_page.open") + ")";
    }
    if (of_one->chance) out.words += ", " + chance(of_one->chance->value);
    return out;
  }

  /// That the limit is kept.
  [[nodiscard]] std::string chance(double value) const {
    constexpr double kAlmost = 0.9995;
    if (value >= kAlmost) return words_.number("> 99.9 %");
    if (value < 1.0 - kAlmost) return words_.number("< 0.1 %");
    return words_.number(print_fixed(100.0 * value, 1)) + " %";
  }

  const Job& job_;
  const LimitsChanged& changed_;
  PageWords words_;
};

}  // namespace

JobSheetsPage job_sheets_page(const RecordedJob& recorded, Language language) {
  JobSheetsPage out{position_of(recorded), {}};
  const Job& job = recorded.job;
  for (const Kept<SheetEntered>& each : job.sheets) {
    const std::string& id = each.value.sheet;
    const auto earlier = std::count_if(job.earlier_sheets.begin(), job.earlier_sheets.end(), [&](const auto& old) { return old.value.sheet == id; });
    JobSheetsPage::Sheet sheet{id, static_cast<std::int64_t>(earlier) + 1, 0, draft_of(each.value.of), {}};
    const SheetDraftPage page = sheet_draft_page(sheet.draft, proof_draft(sheet.draft, catalogue()), language);
    sheet.limits = page.limits;
    for (const SheetDraftPage::Row& row : page.rows) {
      const SheetRow* of = each.value.of.row(row.row);
      if (row.unused) sheet.unused.push_back({row.row, of == nullptr ? row.row : of->what, *row.unused});
    }
    out.sheets.push_back(std::move(sheet));
  }
  return out;
}

SheetEffectPage sheet_effect_page(const Job& job, const LimitsChanged& changed, Language language) { return EffectWords(job, changed, language).page(); }

}  // namespace fettle
