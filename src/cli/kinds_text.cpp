#include "cli/kinds_text.h"

#include <algorithm>

#include "base/joined.h"
#include "catalogue/file_words.h"
#include "catalogue/kind_definitions.h"
#include "cli/paragraph.h"
#include "cli/table.h"

namespace fettle {
namespace {

using Rows = std::vector<std::vector<std::string>>;

/// "   1. " for a numbered line, so that ten and more still stand in one column.
std::string numbered(std::size_t number) {
  const std::string digits = std::to_string(number);
  return std::string(kTableIndent - std::min(kTableIndent, digits.size()), ' ') + digits + ". ";
}

/// The sentence of a line: its own, or that of the texts.
std::string said(const KindLine& line, const std::string& list, Language language) {
  return line.text ? *line.text : word_for(list + "." + line.id, language);
}

class KindText {
 public:
  KindText(const Kind& kind, const Catalogue& known, Language language) : kind_(kind), known_(known), language_(language) {}

  std::string run() {
    out_ += word_for("kind." + kind_.id, language_) + "  (" + kind_.id + ")\n";
    out_ += "  " + word_for("feature." + std::string(feature_name(kind_.feature)), language_) + ", " +
            word_for("material." + kind_.material, language_) + "\n";
    members();
    places();
    judged();
    gauges();
    conditions();
    cautions();  // before the work
    how();
    list("kinds.mistakes", "mistake", kind_.mistakes, "  - ");
    out_ += "\n" + paragraph("", word_for("rule.who_decides", language_));
    return std::move(out_);
  }

 private:
  void title(const char* key) { out_ += "\n" + word_for(key, language_) + "\n"; }
  void subtitle(const char* key) { out_ += paragraph("  ", word_for(key, language_)); }
  void source(const std::string& indent, const std::string& origin) {
    out_ += paragraph(indent, sentence({"kinds.source", {verbatim("origin", origin)}}, language_));
  }

  void members() {
    if (kind_.members.empty()) return;
    title("kinds.members");
    Rows rows;
    for (const KindMember& each : kind_.members) {
      rows.push_back({each.role, word_for("member." + each.role, language_), joined(each.kinds)});
    }
    out_ += columns(rows, kTableIndent);
  }

  void places() {
    title("kinds.places");
    if (!kind_.members.empty()) subtitle("kinds.places_of_members");
    if (!kind_.layout.stations.empty()) {
      subtitle(kind_.members.empty() ? "kinds.stations" : "kinds.stations_of_the_whole");
      out_ += columns(stations(), kTableIndent);
      subtitle("kinds.directions");
      out_ += columns(directions(), kTableIndent);
    }
    source("  ", kind_.origin);
  }

  /// What is read there if it is no length, and whether it counts.
  [[nodiscard]] std::vector<std::string> remarks(const std::optional<Dimension>& quantity, bool counted) const {
    std::vector<std::string> out;
    if (quantity && *quantity != Dimension::length) out.push_back(word_for("dimension." + std::string(dimension_name(*quantity)), language_));
    if (!counted) out.push_back(word_for("kinds.not_counted", language_));
    return out;
  }

  [[nodiscard]] Rows stations() const {
    Rows rows;
    for (const Station& each : kind_.layout.stations) {
      rows.push_back({each.id, word_for("station." + each.id, language_), joined(remarks(each.quantity, each.counted))});
    }
    return rows;
  }

  /// Angles only where a diameter turns with them.
  [[nodiscard]] Rows directions() const {
    Rows rows;
    for (const Direction& each : kind_.layout.directions) {
      std::vector<std::string> more = remarks(each.quantity, each.counted);
      if (kind_.feature != Feature::figure) {
        more.insert(more.begin(), with_decimal_mark(each.angle_degrees.decimal(each.angle_degrees.is_whole() ? 0 : 1), language_) + "°");
      }
      rows.push_back({each.id, word_for("direction." + each.id, language_), joined(more)});
    }
    return rows;
  }

  /// Names may be long: they are broken beside their ids.
  void named(const std::vector<const Definition*>& definitions) {
    std::size_t widest = 0;
    for (const Definition* each : definitions) widest = std::max(widest, each->id.size());
    for (const Definition* each : definitions) {
      const std::string lead = std::string(kTableIndent, ' ') + each->id + std::string(widest - each->id.size() + 2, ' ');
      out_ += paragraph(lead, word_for("definition." + each->id + "." + std::string(feature_name(kind_.feature)), language_));
    }
  }

  void judged() {
    const KindDefinitions found = definitions_for(kind_, known_.definitions);
    title("kinds.judged");
    if (found.usual.empty()) subtitle("kinds.judged_nothing");
    named(found.usual);
    if (!found.with_more_places.empty()) {
      subtitle("kinds.judged_with_more");
      named(found.with_more_places);
    }
    assemblies();
  }

  /// The assemblies that such a part may be a member of.
  void assemblies() {
    Rows rows;
    for (const Kind& each : known_.kinds) {
      const bool takes_it = std::any_of(each.members.begin(), each.members.end(), [&](const KindMember& member) {
        return std::find(member.kinds.begin(), member.kinds.end(), kind_.id) != member.kinds.end();
      });
      if (takes_it) rows.push_back({each.id, word_for("kind." + each.id, language_)});
    }
    if (rows.empty()) return;
    subtitle("kinds.member_of");
    out_ += columns(rows, kTableIndent);
  }

  void gauges() {
    if (kind_.gauges.empty()) return;
    title("kinds.gauges");
    for (const std::string& each : kind_.gauges) out_ += paragraph(std::string(kTableIndent, ' '), word_for("gauge_preset." + each, language_));
  }

  void conditions() {
    if (kind_.conditions.empty()) return;
    title("kinds.conditions");
    for (const MeasuredWhen each : kind_.conditions) {
      out_ += paragraph("  - ", word_for("measured_when." + std::string(word_of(kMeasuredWhen, each).value()), language_));
    }
  }

  void how() {
    if (kind_.how.empty()) return;
    title("kinds.how");
    std::size_t number = 0;
    for (const KindLine& each : kind_.how) line(numbered(++number), each, "how");
  }

  void cautions() {
    list("kinds.cautions", "caution", kind_.cautions, "  ! ");
    if (!kind_.cautions.empty()) out_ += paragraph("  ", word_for("kinds.local_rules", language_));
  }

  void list(const char* title_key, const char* key, const std::vector<KindLine>& lines, const std::string& lead) {
    if (lines.empty()) return;
    title(title_key);
    for (const KindLine& each : lines) line(lead, each, key);
  }

  void line(const std::string& lead, const KindLine& each, const char* key) {
    out_ += paragraph(lead, said(each, key, language_));
    source(std::string(lead.size(), ' '), each.origin);
  }

  const Kind& kind_;
  const Catalogue& known_;
  Language language_;
  std::string out_;
};

/// One labelled line of the list; the labels stand in one column.
std::string labelled(const char* key, const std::string& text, Language language) {
  std::size_t width = 0;
  for (const char* each : {"kinds.label.stations", "kinds.label.directions", "kinds.label.members"}) {
    width = std::max(width, shown_width(word_for(each, language)));
  }
  const std::string label = word_for(key, language);
  return paragraph(std::string(kTableIndent, ' ') + label + std::string(width - shown_width(label) + 2, ' '), text);
}

std::string members_of(const Kind& kind) {
  std::vector<std::string> out;
  for (const KindMember& each : kind.members) out.push_back(each.role);
  return joined(out);
}

}  // namespace

std::string kinds_list_text(const Catalogue& known, Language language) {
  std::string out;
  for (const Kind& kind : known.kinds) {
    out += kind.id + "  (" + word_for("kind." + kind.id, language) + ")\n";
    if (!kind.layout.stations.empty()) {
      out += labelled("kinds.label.stations", joined_ids(kind.layout.stations), language);
      out += labelled("kinds.label.directions", joined_ids(kind.layout.directions), language);
    }
    if (!kind.members.empty()) out += labelled("kinds.label.members", members_of(kind), language);
  }
  return out + "\n" + paragraph("", word_for("kinds.more", language));
}

std::string kind_text(const Kind& kind, const Catalogue& known, Language language) { return KindText(kind, known, language).run(); }

}  // namespace fettle
