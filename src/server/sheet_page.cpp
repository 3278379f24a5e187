#include "server/sheet_page.h"

#include <algorithm>
#include <map>

#include "app/part_words.h"
#include "catalogue/kind_definitions.h"
#include "drawing/svg.h"
#include "pictures/definition_sketch.h"
#include "server/answers.h"
#include "server/page_words.h"

namespace fettle {
namespace {

std::string field_words(SheetField field) { return "proof.field." + std::string(field_name(field)); }

std::string joined_understood(const std::vector<Message>& messages, SheetColumn column, Language language) {
  // Two units say one thing; stages are one after the other.
  const bool one_thing = column != SheetColumn::stages && column != SheetColumn::fit;
  std::string out;
  for (const Message& each : messages) out += (out.empty() ? "" : one_thing ? " = " : "; ") + sentence(each, language);
  return out;
}

class DraftPage {
 public:
  DraftPage(const SheetDraft& draft, const DraftProof& proof, Language language) : draft_(draft), proof_(proof), words_(language) {}

  SheetDraftPage page() const {
    SheetDraftPage out{};
    out.problems = said(proof_.read.problems, words_.language());
    std::int64_t silent = 0;
    for (const DraftRowRead& each : proof_.read.rows) {
      out.rows.push_back(row(each));
      if (!each.name.empty() && out.rows.back().limits == 0) ++silent;
    }
    for (const DraftFinding& each : proof_.findings) out.findings.push_back(finding(each));
    for (std::size_t i = 0; i < draft_.decisions.size(); ++i) out.decisions.push_back(decision(draft_.decisions[i], i < proof_.hold.size() && proof_.hold[i]));
    out.limits = static_cast<std::int64_t>(proof_.limits.limits.size());
    out.sentence = words_.say({silent == 0 ? "sheet_page.gives" : "sheet_page.gives_but", {count("n", out.limits), count("silent", silent)}});
    return out;
  }

 private:
  SheetDraftPage::Row row(const DraftRowRead& read) const {
    SheetDraftPage::Row out{read.draft, read.name, {}, said(read.problems, words_.language()), {}, 0, false, {}};
    for (const DraftCellRead& each : read.cells) {
      SheetDraftPage::Cell cell{std::string(column_name(each.column)), {}, said(each.problems, words_.language())};
      if (!each.understood.empty()) cell.understood = joined_understood(each.understood, each.column, words_.language());
      if (cell.understood || !cell.problems.empty()) out.cells.push_back(std::move(cell));
    }
    if (!read.waits.empty()) out.waits = words_.say({"sheet_page.waits", {verbatim("rows", joined_names(read.waits))}});
    for (const SheetLimit& each : proof_.limits.limits) {
      if (each.row != read.draft) continue;
      ++out.limits;
      out.open = out.open || each.open;
    }
    for (const UnusedRow& each : proof_.limits.unused) {
      if (each.row == read.draft) out.unused = unused(each);
    }
    return out;
  }

  static std::string joined_names(const std::vector<std::string>& names) {
    std::string out;
    for (const std::string& each : names) out += (out.empty() ? "" : ", ") + each;
    return out;
  }

  std::string unused(const UnusedRow& row) const {
    std::string out = words_.say({"sheet_page.unused", {word("why", "sheet_limits.unused." + std::string(row_unused_name(row.why)))}});
    for (const SaidProblem& each : said(row.problems, words_.language())) out += " " + each.what + " " + each.to_do;
    return out;
  }

  SheetDraftPage::Finding finding(const DraftFinding& each) const {
    SheetDraftPage::Finding out{std::string(each.finding.rule), std::string(how_sure_name(each.finding.sure)), words_.say({"proof.sure." + std::string(how_sure_name(each.finding.sure)), {}}),
                                words_.say(each.finding.arithmetic), {}, {}, each.finding.printed, words_.number(each.finding.printed), {}, each.decided};
    for (std::size_t i = 0; i < each.finding.spots.size(); ++i) {
      const FigureSpot& spot = each.finding.spots[i];
      out.spots.push_back({spot.row, std::string(field_name(spot.field))});
      out.spot_words.push_back(this->spot(each.whats[i], spot.field));
    }
    for (const PutRightChoice& choice : each.choices) {
      out.likeliest.push_back({{choice.spot.row, std::string(field_name(choice.spot.field))}, spot(choice.what, choice.spot.field), choice.printed, choice.to, words_.number(choice.shown)});
    }
    return out;
  }

  std::string spot(const std::string& what, SheetField field) const { return words_.say({"sheet_page.spot", {verbatim("what", what), word("field", field_words(field))}}); }

  SheetDraftPage::Decision decision(const SheetDecision& each, bool holds) const {
    const char* key = each.decided == Decided::put_right ? "sheet_page.put_right" : each.decided == Decided::as_printed ? "sheet_page.as_printed" : "sheet_page.asked";
    return {words_.say({key, {figures("printed", each.printed), figures("to", each.to), verbatim("who", each.who), verbatim("when", each.when)}}), holds};
  }

  const SheetDraft& draft_;
  const DraftProof& proof_;
  PageWords words_;
};

}  // namespace

SheetDraftPage sheet_draft_page(const SheetDraft& draft, const DraftProof& proof, Language language) { return DraftPage(draft, proof, language).page(); }

DefinitionListPage definition_list_page(const Catalogue& known, const Kind& kind, Language language) {
  const PageWords words(language);
  DefinitionListPage out{kind.id, words.title(group_message(kind.id)), {}};
  const KindDefinitions definitions = definitions_for(kind, known.definitions);
  std::map<Family, std::size_t> places;
  int number = 0;  // ids of drawings hold letters and digits only
  for (const auto* list : {&definitions.usual, &definitions.with_more_places}) {
    for (const Definition* each : *list) {
      const auto [found, fresh] = places.emplace(each->family, out.characteristics.size());
      const std::string name(family_name(each->family));
      if (fresh) out.characteristics.push_back({name, word_for("sheet_page.characteristic." + name, language), each->family == Family::figure, {}});
      const std::string title = word_for("definition." + each->id + "." + std::string(feature_name(kind.feature)), language);
      const std::string id = "def-" + std::to_string(++number);
      out.characteristics[found->second].definitions.push_back({each->id, title, list == &definitions.usual, svg(definition_sketch(kind, *each, title, language), {SvgPalette::page, id})});
    }
  }
  // Nothing has to be said where there is one only.
  for (auto& each : out.characteristics) each.must_name = each.must_name && each.definitions.size() > 1;
  return out;
}

}  // namespace fettle
