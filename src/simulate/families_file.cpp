#include "simulate/families_file.h"

#include <algorithm>

#include "catalogue/catalogue.h"
#include "catalogue/file_words.h"
#include "embedded/simulate_files.h"
#include "form/expand.h"
#include "limits/limit.h"
#include "simulate/span_reader.h"

namespace fettle {
namespace {

constexpr WordTable<Pattern, 2> kPatterns{{{"round", Pattern::round}, {"oval", Pattern::oval}}};
constexpr WordTable<Profile, 7> kProfiles{{{"even", Profile::even},
                                           {"exponential", Profile::exponential},
                                           {"linear", Profile::linear},
                                           {"barrel", Profile::barrel},
                                           {"bell", Profile::bell},
                                           {"step", Profile::step},
                                           {"rising", Profile::rising}}};
constexpr WordTable<Scatter, 3> kScatters{{{"about-amount", Scatter::about_amount},
                                           {"about-nothing", Scatter::about_nothing},
                                           {"one-sided", Scatter::one_sided}}};
constexpr WordTable<StepKind, 2> kToldSteps{{{"standard", StepKind::standard}, {"unknown", StepKind::unknown}}};
constexpr WordTable<Condition, 4> kConditions{{{"worn", Condition::worn},
                                               {"machined", Condition::machined},
                                               {"new", Condition::fresh},
                                               {"sleeved", Condition::sleeved}}};
constexpr int kMostParts = 32;
constexpr std::size_t kMostPlaces = 24;  // as a job has at most

class FamilyReader {
 public:
  FamilyReader(const DocumentNode& node, Problems& problems)
      : problems_(problems), node_(node), reader_(node, problems) {}

  EngineFamily read() {
    out_.id = reader_.id();
    out_.about = reader_.table.text("about");
    read_kind();
    const int parts = reader_.whole("parts");
    if (parts < 1 || parts > kMostParts) reader_.add("simulate.parts", {count("most", kMostParts)});
    out_.parts = static_cast<std::size_t>(parts);
    read_sizes();
    read_layout();
    for (const DocumentNode* node : reader_.table.tables("component")) read_component(*node);
    refuse_components_twice();
    read_odd_part();
    read_told();
    read_limits();
    reader_.table.finish();
    return std::move(out_);
  }

 private:
  /// Wear has a profile on a diameter only.
  void read_kind() {
    out_.kind = reader_.table.optional_text("kind").value_or(std::string(kSimulatedKind));
    const Kind* kind = catalogue().kind(out_.kind);
    if (kind == nullptr || kind->feature == Feature::figure) {
      std::string known;
      for (const Kind& each : catalogue().kinds) {
        if (each.feature != Feature::figure) known += (known.empty() ? "" : ", ") + each.id;
      }
      reader_.table.unknown_word("kind", out_.kind, known);
      out_.kind = kSimulatedKind;
      kind = catalogue().kind(kSimulatedKind);
    }
    out_.feature = kind->feature;
  }

  void read_sizes() {
    const auto standard = reader_.exact("standard");
    const auto tolerance = reader_.sound_span("tolerance", true);
    if (tolerance && tolerance->low >= tolerance->high) reader_.add("simulate.tolerance");
    out_.standard = standard.value_or(Length());
    out_.new_low = out_.standard + counts_of(tolerance ? tolerance->low : 0.0);
    out_.new_high = out_.standard + counts_of(tolerance ? tolerance->high : 0.0);
    if (standard && micrometer_for(*standard) == nullptr) reader_.add("simulate.no_micrometer");
    out_.as_made_um = reader_.micrometres("as_made");
    out_.as_made_common_um = reader_.not_negative("as_made_common", reader_.micrometres("as_made_common"));
    out_.as_made_own_um = reader_.not_negative("as_made_own", reader_.micrometres("as_made_own"));
    out_.texture_um = reader_.not_negative("texture", reader_.micrometres("texture"));
    out_.steps_um = reader_.list("steps", true);
    if (out_.steps_um.empty()) out_.steps_um.push_back(0.0);
    out_.three_lobe_um = reader_.span_not_negative("three_lobe", true);
    out_.untold_slip_um = reader_.micrometres("untold_slip");
  }

  static Length counts_of(double um) {
    const double counts = um * kCountsPerMicrometre;
    return Length::counts(static_cast<std::int64_t>(counts < 0.0 ? counts - 0.5 : counts + 0.5));
  }

  void read_layout() {
    for (const DocumentNode* node : reader_.table.tables("station")) {
      SpanReader reader(*node, problems_);
      TableReader& table = reader.table;
      Station station{reader.id(), table.word("role", kRoles), true, table.optional_length("depth")};
      station.counted = table.optional_truth("counted").value_or(station.role != StationRole::reference);
      if (table.node("depth") == nullptr) problems_.push_back(Problem{"simulate.no_depth", node->place, {verbatim("id", station.id)}});
      table.finish();
      out_.layout.stations.push_back(std::move(station));
    }
    for (const DocumentNode* node : reader_.table.tables("direction")) {
      SpanReader direction(*node, problems_);
      Direction read{direction.id(), Ratio(), direction.table.optional_truth("counted").value_or(true)};
      read.angle_degrees = direction.angle();
      direction.table.finish();
      out_.layout.directions.push_back(std::move(read));
    }
    const Problems wrong = layout_problems(out_.layout, node_.place);
    for (const Problem& each : wrong) {
      if (each.code != "catalogue.layout_angle") problems_.push_back(each);  // told with its own line
    }
    const bool too_many = out_.layout.stations.size() > kMostPlaces || out_.layout.directions.size() > kMostPlaces;
    if (too_many) reader_.add("simulate.places", {count("most", static_cast<std::int64_t>(kMostPlaces))});
    layout_is_sound_ = wrong.empty() && !too_many;
    out_.unread_stations = unread("unread_stations", [&](const auto& id) { return out_.layout.find_station(id); });
    out_.unread_directions =
        unread("unread_directions", [&](const auto& id) { return out_.layout.find_direction(id); });
    const bool nothing = out_.unread_stations.size() >= out_.layout.stations.size() ||
                         out_.unread_directions.size() >= out_.layout.directions.size();
    if (nothing && layout_is_sound_) reader_.add("simulate.nothing_read");
  }

  template <class Find>
  std::vector<std::size_t> unread(std::string_view key, Find find) {
    std::vector<std::size_t> out;
    for (const std::string& id : reader_.table.texts(key)) {
      const auto index = find(id);
      if (index && std::find(out.begin(), out.end(), *index) == out.end()) {
        out.push_back(*index);
      } else {
        reader_.add("simulate.unknown_place", reader_.table.node(key)->place, key, {verbatim("id", id)});
      }
    }
    return out;
  }

  void read_component(const DocumentNode& node) {
    SpanReader reader(node, problems_);
    Component out{};
    out.id = reader.table.text("id");
    out.pattern = reader.table.word("pattern", kPatterns);
    if (out.pattern == Pattern::oval) out.axis_degrees = reader.angle().to_double();
    out.likeness = reader.span_not_negative("likeness", false);
    out.scatter = reader.table.optional_word("scatter", kScatters).value_or(Scatter::about_amount);
    if (const auto followed = reader.table.optional_text("follows")) {
      const auto found = std::find_if(out_.components.begin(), out_.components.end(),
                                      [&](const auto& each) { return each.id == *followed; });
      out.amount = reader.span_not_negative("share", false);
      if (found == out_.components.end()) {
        reader.add("simulate.follows", {verbatim("id", *followed)});
      } else {
        out.follows = static_cast<std::size_t>(found - out_.components.begin());
        out.profile = found->profile;
      }
    } else {
      out.amount = reader.span_not_negative("amount", true);
      out.profile = reader.table.word("profile", kProfiles);
      if (out.profile != Profile::even) {
        const bool missing = reader.table.node("length") == nullptr;
        const auto length = missing ? std::optional<Span>() : reader.sound_span("length", false);
        if (missing || (length && length->low <= 0.0)) reader.add("simulate.no_length", {verbatim("id", out.id)});
        out.length = length.value_or(Span{});
      }
    }
    reader.table.finish();
    out_.components.push_back(std::move(out));
  }

  void refuse_components_twice() {
    std::vector<std::pair<std::string, Place>> ids;
    for (const Component& each : out_.components) ids.emplace_back(each.id, node_.place);
    refuse_ids_twice(ids, problems_);
  }

  void read_odd_part() {
    const DocumentNode* node = reader_.table.node("odd_part");
    if (node == nullptr) return;
    SpanReader reader(*node, problems_);
    out_.odd_part = OddPart{reader.span("level", true), reader.span_not_negative("wear_share", false)};
    reader.table.finish();
  }

  void read_told() {
    out_.told_step = Step{reader_.table.word("told_step", kToldSteps), std::nullopt, ""};
    out_.told_condition = reader_.table.word("told_condition", kConditions);
    if (reader_.table.node("tells_tolerance") == nullptr) reader_.table.missing("tells_tolerance");
    out_.tells_tolerance = reader_.table.optional_truth("tells_tolerance").value_or(true);
  }

  void read_limits() {
    for (const DocumentNode* node : reader_.table.tables("limit")) {
      TableReader table(*node, problems_);
      const std::string definition = table.text("definition");
      const std::string bound = table.text("bound");
      table.finish();
      if (definition.empty() || bound.empty()) continue;
      const TypingContext context{std::nullopt, Dimension::length, DecimalMark::point, std::nullopt,
                                  false,        std::nullopt};
      const auto read = take(read_quantity(bound, context, node->place), problems_);
      if (read) add_limit(FamilyLimit{definition, *read}, *node);
    }
  }

  void add_limit(FamilyLimit limit, const DocumentNode& node) {
    const Limit as_typed{limit.definition,
                         out_.kind,
                         limit.definition,
                         LimitRole::service,
                         limit_side(out_, limit.definition),
                         limit.bound,
                         std::nullopt,
                         std::nullopt,
                         {std::string(kSimulatedBook), "", "1", "", false, false}};
    const Definition* definition = catalogue().definition(limit.definition);
    const Problems wrong = limit_problems(as_typed, definition, out_.feature);
    problems_.insert(problems_.end(), wrong.begin(), wrong.end());
    if (!wrong.empty() || !layout_is_sound_) return;
    const PartGrid grid{
        out_.feature, out_.layout, std::vector<bool>(out_.layout.cells(), true), {out_.standard, out_.standard}};
    if (!expand(*definition, grid).ok()) {
      problems_.push_back(Problem{"simulate.cannot_be_read", node.place, {verbatim("definition", limit.definition)}});
    }
    const bool twice = std::any_of(out_.limits.begin(), out_.limits.end(),
                                   [&](const auto& each) { return each.definition == limit.definition; });
    if (twice) problems_.push_back(Problem{"catalogue.id_twice", node.place, {verbatim("id", limit.definition)}});
    out_.limits.push_back(std::move(limit));
  }

  Problems& problems_;
  const DocumentNode& node_;
  SpanReader reader_;
  EngineFamily out_{};
  bool layout_is_sound_ = false;
};

/// The family's own keys, and those of [usual] that it does not have.
DocumentNode with_usual(const DocumentNode& node, const DocumentNode* usual) {
  if (node.table() == nullptr || usual == nullptr || usual->table() == nullptr) return node;
  DocumentNode out = node;
  auto& table = std::get<DocumentNode::Table>(out.value);
  for (const DocumentNode::Entry& entry : *usual->table()) {
    if (node.find(entry.key) == nullptr) table.push_back(entry);
  }
  return out;
}

}  // namespace

Result<std::vector<EngineFamily>> read_families(std::string_view text, const std::string& file) {
  Problems problems;
  const auto root = take(read_document(text, file), problems);
  if (!root) return problems;
  TableReader table(*root, problems);
  const DocumentNode* usual = table.node("usual");
  const auto nodes = table.tables("family");
  table.finish();
  if (nodes.empty()) problems.push_back(Problem{"simulate.no_families", root->place, {verbatim("key", "family")}});
  std::vector<EngineFamily> out;
  for (const DocumentNode* node : nodes) {
    const DocumentNode whole = with_usual(*node, usual);
    out.push_back(FamilyReader(whole, problems).read());
  }
  refuse_twice(out, nodes, problems);
  tell_once(problems);
  if (!problems.empty()) return problems;
  return out;
}

const std::vector<EngineFamily>& built_in_families() {
  static const std::vector<EngineFamily> kFamilies =
      must_read(read_families(simulate_files("families.toml"), "families.toml"));
  return kFamilies;
}

const EngineFamily* find_family(const std::vector<EngineFamily>& families, std::string_view id) {
  return with_id(families, id);
}
}  // namespace fettle
