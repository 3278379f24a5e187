#include "server/round_page.h"

#include <cmath>

#include "app/bench.h"
#include "app/bench_list.h"
#include "app/part_words.h"
#include "base/assertion.h"
#include "catalogue/catalogue.h"
#include "catalogue/figure_style.h"
#include "catalogue/file_words.h"
#include "drawing/svg.h"
#include "pictures/section_plan.h"
#include "server/gauge_words.h"
#include "server/page_words.h"
#include "units/print.h"

namespace fettle {
namespace {

class RoundSpeaker {
 public:
  RoundSpeaker(const RecordedJob& recorded, const RoundPlan& plan, Language language)
      : recorded_(recorded), plan_(plan), words_(language), unit_(shown_unit(recorded.job)), kind_(*catalogue().kind(plan.part.part.kind)) {}

  RoundPage run() const {
    const Part& part = plan_.part.part;
    RoundPage out{};
    out.job = recorded_.job.id;
    out.name = name_of(recorded_.job);
    out.part = {part.id, words_.title(part_message(part)), words_.say(where_message(part, plan_.count)), part.kind};
    out.position = position_of(recorded_);
    if (plan_.gauge) out.gauge = main_gauge();
    if (plan_.setting) out.setting = setting_strip(*plan_.setting, words_);
    out.round = plan_.round;
    out.closed = plan_.closed;
    for (const RoundHand& each : plan_.hands) {
      out.hands.push_back({gauge(each), setting_strip(each.setting, words_), each.round, each.setting.closed, last_order(each.setting.setting->value.id, each.round)});
    }
    for (std::size_t i = 0; i < plan_.places.size(); ++i) out.places.push_back(spot(plan_.places[i], i + 1));
    out.next = plan_.next;
    const PartToDraw drawn{out.part.name, part.kind, plan_.part.feature, plan_.part.layout, unit_, thrust_side(), {}};
    out.section = svg(section_picture(drawn, words_.language()), {SvgPalette::page, "section"});
    out.plan = svg(plan_picture(drawn, words_.language()), {SvgPalette::page, "plan"});
    out.zero_wanted = plan_.zero_wanted;
    out.zero_sentence = plan_.setting && plan_.setting->setting->value.master ? words_.say("round.zero") : "";
    if (plan_.zero_moved) out.zero_moved = zero_moved(*plan_.zero_moved);
    out.temperatures_wanted = plan_.temperatures_wanted;
    out.members = members();
    for (const MeasuredWhen each : kind_.conditions) {
      const auto id = word_of(kMeasuredWhen, each);
      FETTLE_ASSERT(id, "a state without a word");
      out.conditions.push_back(word_for("measured_when." + std::string(*id), words_.language()));
    }
    out.how = kind_lines(kind_.how, "how", words_.language());
    out.mistakes = kind_lines(kind_.mistakes, "mistake", words_.language());
    out.cautions = kind_lines(kind_.cautions, "caution", words_.language());
    out.after = after();
    for (const ReadingFlag each : {ReadingFlag::deposit, ReadingFlag::damage, ReadingFlag::mistake}) {
      const std::string id(flag_name(each));
      out.flags.push_back({id, word_for("round.flag." + id, words_.language())});
    }
    out.last_order = plan_.setting ? last_order(plan_.setting->setting->value.id, plan_.round) : 0;
    out.decimal_mark = decimal_mark_of(recorded_.job);
    if (!plan_.twice.empty()) out.second = second();
    return out;
  }

 private:
  /// A look at the zero comes after everything that was read before it, on whatever part.
  [[nodiscard]] std::int64_t last_order(const std::string& setting, const std::string& round) const {
    std::int64_t last = 0;
    for (const auto& kept : recorded_.job.readings) {
      const Reading& reading = kept.value;
      if (reading.setting == setting && reading.round == round && reading.order) last = std::max(last, *reading.order);
    }
    return last;
  }

  /// Only a cylinder has a thrust side.
  [[nodiscard]] std::optional<std::string> thrust_side() const {
    const auto& engine = recorded_.job.engine;
    const bool has = engine && !engine->value.thrust_side.empty() && plan_.part.layout.find_direction("thrust");
    return has ? std::optional(engine->value.thrust_side) : std::nullopt;
  }

  [[nodiscard]] RoundPage::Gauge main_gauge() const {
    for (const RoundHand& each : plan_.hands) {
      if (each.setting.setting == plan_.setting->setting) return gauge(each);
    }
    return gauge({*plan_.gauge, *plan_.setting, plan_.round, {plan_.gauge->unit}, plan_.gauge->unit, false});
  }

  [[nodiscard]] RoundPage::Gauge gauge(const RoundHand& hand) const {
    const GaugeNow& gauge = hand.gauge;
    const bool sided = gauge.sort == GaugeSort::comparison;
    std::vector<std::string> units;
    for (const UnitId each : hand.units) units.push_back(gauge_unit_name(each));
    std::optional<std::string> unit;
    if (hand.unit) unit = gauge_unit_name(*hand.unit);
    return {gauge.gauge->id, gauge_name(gauge, words_), gauge_sort_name(gauge.sort), unit, units, gauge_strip(gauge, hand.unit, words_), sided, sided, hand.both_ways};
  }

  [[nodiscard]] std::vector<RoundPage::Member> members() const {
    std::vector<RoundPage::Member> out;
    if (!plan_.part.part.members) return out;
    for (const Member& each : *plan_.part.part.members) {
      if (const Part* part = part_of(recorded_.job, each.part)) out.push_back({part->id, words_.title(part_message(*part))});
    }
    return out;
  }

  [[nodiscard]] std::vector<std::string> suiting(std::size_t cell) const {
    std::vector<std::string> out;
    for (const GaugePreset* each : presets_for(catalogue(), plan_.part, cell)) out.push_back(word_for("gauge_preset." + each->id, words_.language()));
    return out;
  }

  [[nodiscard]] std::string where(const Station& station) const {
    if (!station.depth) return "";
    const char* key = plan_.part.feature == Feature::inside ? "round.depth_below" : "round.depth_from";
    return words_.say(Message{key, {decimal("depth", short_length(station.depth->ratio(), unit_), std::string(unit_definition(unit_).symbol))}});
  }

  [[nodiscard]] std::string name(const RoundPlace& place) const {
    const Layout& layout = plan_.part.layout;
    const std::string station = shouted(words_.say(Message{"cell", {station_argument("word", layout.stations[place.station].id)}}));
    if (layout.directions.size() == 1) return station;
    return station + " · " + words_.say(Message{"cell", {direction_argument("word", layout.directions[place.direction].id)}});
  }

  [[nodiscard]] std::string size(const Ratio& value, std::size_t cell) const {
    return words_.number(shown(value, style_read(plan_.part.layout.quantity(cell), unit_)));
  }

  [[nodiscard]] RoundPage::Reading reading(const RoundReading& from, std::size_t cell) const {
    const Reading& reading = from.reading->value;
    RoundPage::Reading out{from.reading->event, reading.quantity.text, {}, from.who, {}, reading.note, reading.repeat, {}};
    if (from.as_measured) out.said = size(*from.as_measured, cell);
    if (reading.flag != ReadingFlag::none) out.flag = std::string(flag_name(reading.flag));
    if (from.suspect) out.question = words_.say("round.suspect");
    return out;
  }

  [[nodiscard]] RoundPage::Spot spot(const RoundPlace& place, std::size_t order) const {
    const Layout& layout = plan_.part.layout;
    RoundPage::Spot out{layout.stations[place.station].id, layout.directions[place.direction].id, name(place), where(layout.stations[place.station]), order,
                        place.wanted, std::string(measured_state_name(place.state)), {}, std::string(dimension_name(layout.quantity(place.cell))), place.hand, {}};
    if (!place.hand) out.suits = suiting(place.cell);
    for (const RoundReading& each : place.readings) out.readings.push_back(reading(each, place.cell));
    return out;
  }

  static Argument micrometres(const char* name, const Ratio& counts) { return length_argument(name, counts, UnitId::micrometre, 1); }
  [[nodiscard]] Argument usual() const { return decimal("usual", print_fixed(std::ceil(*plan_.usual_apart * 1000.0), 0), "µm"); }

  [[nodiscard]] std::vector<std::string> after() const {
    std::vector<std::string> out;
    if (plan_.repeats_apart && !plan_.next) {
      const Argument apart = micrometres("apart", *plan_.repeats_apart);
      out.push_back(plan_.usual_apart ? words_.say(Message{"round.repeats", {apart, usual()}}) : words_.say(Message{"round.repeats_alone", {apart}}));
    }
    return out;
  }

  [[nodiscard]] RoundPage::ZeroMoved zero_moved(const ZeroMoved& moved) const {
    const Argument way = word("way", moved.by.sign() > 0 ? "way.larger" : "way.smaller");
    RoundPage::ZeroMoved out{words_.say(Message{"round.zero_moved", {micrometres("difference", absolute(moved.by)), way}}), {}, {}};
    for (const auto& [part, readings] : moved.hang) {
      out.hang.push_back(words_.title(Message{"round.zero_moved_hang", {list("part", {part_message(*part)}), count("n", static_cast<std::int64_t>(readings))}}));
    }
    for (const TellingPlace& each : moved.again) {
      const Layout layout = on_bench(recorded_.job, *each.part, catalogue()).layout;
      const std::size_t directions = layout.directions.size();
      out.again.push_back({each.part->id, layout.stations[each.cell / directions].id, layout.directions[each.cell % directions].id,
                           words_.title(Message{"round.zero_moved_again", {list("part", {part_message(*each.part)}), list("place", {cell_message(layout, each.cell)})}})});
    }
    return out;
  }

  [[nodiscard]] std::vector<std::string> second() const {
    std::vector<std::string> out;
    for (const ReadTwice& each : plan_.twice) {
      const std::size_t cell = plan_.places[each.place].cell;
      std::vector<Argument> arguments = {list("place", {cell_message(plan_.part.layout, cell)}), verbatim("other", size(each.other, cell)), verbatim("own", size(each.own, cell))};
      if (each.apart) arguments.push_back(micrometres("apart", *each.apart));
      const char* key = !each.apart ? "round.second_other_quantity" : each.far ? "round.second_far" : "round.second";
      out.push_back(words_.say(Message{key, std::move(arguments)}));
    }
    if (plan_.usual_apart) out.push_back(words_.say(Message{"round.second_usual", {usual()}}));
    return out;
  }

  const RecordedJob& recorded_;
  const RoundPlan& plan_;
  PageWords words_;
  UnitId unit_;
  const Kind& kind_;
};

}  // namespace

RoundPage round_page(const RecordedJob& recorded, const RoundPlan& plan, Language language) { return RoundSpeaker(recorded, plan, language).run(); }

std::vector<std::string> kind_lines(const std::vector<KindLine>& lines, const std::string& list, Language language) {
  std::vector<std::string> out;
  for (const KindLine& each : lines) out.push_back(each.text.value_or(word_for(list + "." + each.id, language)));
  return out;
}

}  // namespace fettle
