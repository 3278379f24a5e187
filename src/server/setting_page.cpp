#include "server/setting_page.h"

#include <algorithm>

#include "catalogue/catalogue.h"
#include "drawing/svg.h"
#include "pictures/dial.h"
#include "pictures/gauge_head.h"
#include "pictures/rod_row.h"
#include "pictures/thimble.h"
#include "server/answers.h"
#include "server/gauge_words.h"
#include "server/page_words.h"
#include "server/round_page.h"

namespace fettle {
namespace {

constexpr int kTimes = 3;
constexpr int kApart = 2;
/// Nobody sees a tenth of a micrometre of a contact's travel.
constexpr int kTravelDecimals = 3;

std::string symbol(UnitId unit) { return std::string(unit_definition(unit).symbol); }

Argument thimble(const char* name, const ThimblePlace& place) { return decimal(name, place.digits, symbol(place.unit)); }

class SettingSpeaker {
 public:
  SettingSpeaker(const RecordedJob& recorded, const SettingScreens& from, Language language)
      : job_(recorded.job), from_(from), words_(language), unit_(shown_unit(recorded.job)) {}

  SettingPage run() const {
    SettingPage out{from_.gauge->id, from_.what_for, from_.setting, {}, {}, {}, said(from_.problems, words_.language()), {}, {}, zeros(), sense(), {}, {}, {}, {}};
    for (const Gauge* each : from_.masters) out.masters.push_back({each->id, gauge_name(*each, words_)});
    if (from_.master != nullptr) out.master = from_.master->id;
    if (from_.wanted) out.wanted = words_.number(shop_length(from_.wanted->ratio(), unit_)) + " " + symbol(unit_);
    if (from_.up) {
      out.rods = rods();
      out.set_to = set_to();
      out.proof = proof();
      out.pointers = pointers();
    }
    if (from_.last != nullptr) out.same_as_last = same_as_last();
    out.cautions = kind_lines(catalogue().kind(from_.part.part.kind)->cautions, "caution", words_.language());
    return out;
  }

 private:
  [[nodiscard]] Argument length(const char* name, const Ratio& counts) const { return decimal(name, shop_length(counts, unit_), symbol(unit_)); }
  [[nodiscard]] Argument travel(const char* name, Length length) const {
    return length_argument(name, length.ratio(), unit_, unit_ == UnitId::inch ? kTravelDecimals + 1 : kTravelDecimals);
  }

  [[nodiscard]] static std::vector<Message> pieces(const Assembly& assembly) {
    std::vector<Message> out = {{"set.rod.rod", {verbatim("text", assembly.rod.text)}}};
    if (assembly.extension) out.push_back({"set.rod.extension", {verbatim("text", assembly.extension->text)}});
    for (const KitPiece& each : assembly.washers) out.push_back({"set.rod.washer", {verbatim("text", each.text)}});
    if (assembly.washers.empty()) out.push_back({"set.rod.no_washer", {}});
    return out;
  }

  [[nodiscard]] std::optional<SettingPage::Rods> rods() const {
    if (!from_.up->assembled) return std::nullopt;
    const Assembly& best = from_.up->assembled->best;
    SettingPage::Rods out{words_.say(Message{"set.rod.stands", {length("wanted", from_.up->wanted.ratio()), travel("pressed", best.pressed_in)}}), words_.lines(pieces(best)),
                          drawn(rod_row_picture(best, from_.up->wanted, unit_, words_.language()), "rods")};
    out.sentence += " " + words_.say(Message{"set.rod.left", {travel("larger", best.left_for_larger), travel("smaller", best.left_for_smaller)}});
    if (!best.in_the_span) out.sentence += " " + words_.say("set.rod.outside_span");
    return out;
  }

  [[nodiscard]] std::optional<std::string> tolerance(const Length& off) const {
    if (off.counts() == 0) return words_.say("setting_page.exactly");
    std::vector<Argument> arguments = {length_argument("off", absolute(off.ratio()), unit_, fine_decimals(unit_)), word("way", off.counts() > 0 ? "setting_page.more" : "setting_page.less")};
    if (!from_.up->tolerance) return words_.say(Message{"setting_page.off", std::move(arguments)});
    arguments.push_back(decimal("percent", (absolute(off.ratio()) * Ratio(100) / *from_.up->tolerance).decimal(0), "%"));
    arguments.push_back(length("tolerance", *from_.up->tolerance));
    return words_.say(Message{"setting_page.off_tolerance", std::move(arguments)});
  }

  [[nodiscard]] SettingPage::SetTo set_to() const {
    const SettingUp& up = *from_.up;
    const Length off = up.thimble ? up.thimble->nearest.off : up.really_set - up.wanted;
    const auto apart = tolerance(off);
    if (!up.thimble) {
      const std::string digits = words_.number(shop_length(up.really_set.ratio(), unit_));
      return {digits, symbol(unit_), words_.say(Message{"setting_page.marked", {verbatim("master", up.master), length("really", up.really_set.ratio()), length("wanted", up.wanted.ratio()), verbatim("off", *apart)}}), "", apart, std::nullopt};
    }
    const ThimblePlace& place = up.thimble->nearest;
    const auto digits = static_cast<int>(place.digits.size() - std::min(place.digits.size(), place.digits.find('.') + 1));
    const bool own_unit = place.unit == unit_;  // nothing to turn into another
    std::string said = own_unit ? words_.say(Message{"setting_page.nominal_own", {length("wanted", up.wanted.ratio())}}) : words_.say(Message{"setting_page.nominal", {length("wanted", up.wanted.ratio()), length_argument("exact", up.wanted.ratio(), place.unit, digits + 1)}});
    if (from_.zero_error && from_.zero_error->counts() != 0) {
      said += " " + words_.say(Message{"setting_page.zero_error", {verbatim("master", up.master), length_argument("error", absolute(from_.zero_error->ratio()), place.unit, digits),
                                                                  word("way", from_.zero_error->counts() > 0 ? "setting_page.too_much" : "setting_page.too_little")}});
    }
    said += " " + words_.say(Message{"setting_page.set", {thimble("digits", place), verbatim("off", *apart)}});
    return {words_.number(place.digits), symbol(place.unit), said, thimble_drawn(place), apart, really()};
  }

  /// What the master is where it was really locked.
  [[nodiscard]] std::optional<std::string> really() const {
    const SettingUp& up = *from_.up;
    if (!up.locked) return std::nullopt;
    return words_.say(Message{"setting_page.really", {verbatim("master", up.master), thimble("digits", *up.locked), length_argument("really", up.really_set.ratio(), unit_, fine_decimals(unit_)),
                                                      verbatim("off", *tolerance(up.locked->off))}});
  }

  [[nodiscard]] SettingPage::Zeros zeros() const {
    return {kTimes, kApart, words_.say(Message{"setting_page.zeros", {count("times", kTimes)}}),
            {words_.say("setting_page.zero_first"), words_.say("setting_page.zero_again"), words_.say(Message{"setting_page.zero_apart", {count("apart", kApart)}})}};
  }

  [[nodiscard]] SettingPage::Sense sense() const {
    if (!from_.pressed_in) return {std::nullopt, words_.say("setting_page.sense_ask"), head_drawn()};
    const bool clockwise = *from_.pressed_in == NeedleSide::clockwise;
    const Feature touches = from_.part.feature;
    const bool smaller = size_per_press(touches) < 0;
    return {clockwise ? "clockwise" : "anticlockwise",
            words_.say(Message{"setting_page.sense_known", {verbatim("sign", needle_sign(*from_.pressed_in)), word("way", smaller ? "way.smaller" : "way.larger")}}), head_drawn()};
  }

  [[nodiscard]] static std::string drawn(const Drawing& drawing, const char* id) { return svg(drawing, {SvgPalette::page, id}); }

  /// There is a picture of a bore gauge only.
  [[nodiscard]] std::string head_drawn() const {
    return from_.part.feature == Feature::inside ? drawn(gauge_head_picture(from_.pressed_in, words_.language()), "head") : "";
  }

  /// Nothing for a thimble that is ruled otherwise.
  [[nodiscard]] std::string thimble_drawn(const ThimblePlace& place) const {
    Problems other;
    const auto master = take(know_gauge(*from_.master, catalogue().gauge_presets, place_of(*from_.master)), other);
    const auto scale = master && master->division ? thimble_scale(*master->division, place.unit) : std::nullopt;
    return scale ? drawn(thimble_picture(place, *scale, master->preset->range_from, words_.language()), "thimble") : "";
  }

  [[nodiscard]] std::optional<std::string> proof() const {
    if (!from_.up->proof) return std::nullopt;
    const NeedleProof& proof = *from_.up->proof;
    return words_.say(Message{proof.opens ? "setting_page.proof_open" : "setting_page.proof_close",
                              {verbatim("master", from_.up->master), thimble("amount", proof.amount), thimble("from", proof.from), thimble("to", proof.to),
                               verbatim("place", needle_text(proof.right, words_))}});
  }

  /// "service limit"; of a rule of thumb with its sign.
  [[nodiscard]] std::string pointer_name(const LimitPointer& pointer) const {
    const std::string key = "setting_page.role." + std::string(role_name(pointer.role));
    return pointer.rule_of_thumb ? words_.say(Message{"setting_page.pointer_thumb", {word("role", key)}}) : words_.say(Message{key, {}});
  }

  [[nodiscard]] std::string pointer_line(const LimitPointer& pointer) const {
    const std::string bound = words_.number(shop_length(pointer.bound, unit_)) + " " + symbol(unit_);
    const Argument role = verbatim("role", pointer_name(pointer));
    if (!pointer.in_travel) return words_.say(Message{"setting_page.pointer_far", {role, verbatim("bound", bound)}});
    std::vector<Argument> arguments = {verbatim("place", needle_text(pointer.at_limit, 1, words_)), role, verbatim("bound", bound)};
    if (!pointer.guarded) return words_.say(Message{"setting_page.pointer", std::move(arguments)});
    arguments.push_back(verbatim("guarded", needle_text(*pointer.guarded, 0, words_)));
    return words_.say(Message{"setting_page.pointer_guarded", std::move(arguments)});
  }

  [[nodiscard]] std::optional<SettingPage::Pointers> pointers() const {
    if (!from_.up->pressed_in || from_.up->pointers.empty()) return std::nullopt;
    SettingPage::Pointers out{"", {}};
    std::vector<std::string> names;
    for (const LimitPointer& each : from_.up->pointers) {
      out.lines.push_back(pointer_line(each));
      names.push_back(pointer_name(each) + " " + words_.number(shop_length(each.bound, unit_)));
    }
    out.picture = drawn(dial_picture(dial_of(*from_.up, names, unit_), words_.language()), "dial");
    return out;
  }

  [[nodiscard]] SettingPage::SameAsLast same_as_last() const {
    const Setting& last = from_.last->value;
    SettingPage::SameAsLast out{{}, last.set ? words_.number(last.set->text) : "", *last.master, {}};
    if (last.set) {
      out.lines.push_back(words_.say(Message{"setting_page.last_at", {verbatim("master", *last.master), verbatim("set", words_.number(last.set->text))}}));
    } else {
      out.lines.push_back(words_.say(Message{"setting_page.last_on", {verbatim("master", *last.master)}}));
    }
    if (last.wanted) out.wanted = words_.number(last.wanted->text);
    if (last.wanted) out.lines.push_back(words_.say(Message{"setting_page.last_wanted", {verbatim("wanted", words_.number(last.wanted->text))}}));
    out.lines.push_back(capital(opening_words(last, words_)));
    if (from_.up && from_.up->assembled) out.lines.push_back(capital(words_.joined_line(pieces(from_.up->assembled->best), ", ")));
    return out;
  }

  const Job& job_;
  const SettingScreens& from_;
  PageWords words_;
  UnitId unit_;
};

}  // namespace

SettingPage setting_page(const RecordedJob& recorded, const SettingScreens& screens, Language language) {
  return SettingSpeaker(recorded, screens, language).run();
}

std::string proof_sentence(const ProofFound& found, UnitId unit, Language language) {
  const PageWords words(language);
  const Argument division = decimal("division", short_length(found.division.ratio(), unit), symbol(unit));
  const Argument place = verbatim("place", needle_text(found.proof.right, words));
  const std::string key = "proof_page." + std::string(proof_outcome_name(found.outcome));
  return words.say(Message{key, {division, place, thimble("from", found.proof.from), verbatim("sign", needle_sign(found.pressed_in))}});
}

}  // namespace fettle
