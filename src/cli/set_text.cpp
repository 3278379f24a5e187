#include "cli/set_text.h"

#include "app/limit_origin.h"
#include "cli/table.h"
#include "units/print.h"

namespace fettle {
namespace {

constexpr int kRoomDecimals = 3;

Argument shown(const char* name, const ThimblePlace& place) {
  return decimal(name, place.digits, std::string(unit_definition(place.unit).symbol));
}

Argument side_of(const NeedlePlace& place) {
  return word("side", place.side == NeedleSide::clockwise ? "side.clockwise" : "side.anticlockwise");
}

/// "76 or 77 divisions anticlockwise": as a proof asks for it.
Message between(const NeedleBetween& place) {
  if (!place.exact.side) return {"set.needle.zero", {}};
  const bool on_a_line = place.low == place.high;
  const char* straight = on_a_line ? "set.needle.on" : "set.needle.between";
  const char* turned = on_a_line ? "set.needle.turn_on" : "set.needle.turn_between";
  return {place.exact.turns > 0 ? turned : straight, {count("turns", place.exact.turns), count("low", place.low), count("high", place.high), side_of(place.exact)}};
}

/// "102.2 anticlockwise": as a pointer is labelled.
Message label(const NeedlePlace& place, int decimals) {
  if (!place.side) return {"set.needle.zero", {}};
  return {place.turns > 0 ? "set.pointer.turn" : "set.pointer.place",
          {count("turns", place.turns), decimal("divisions", place.divisions.decimal(decimals)), side_of(place)}};
}

class SettingUpText {
 public:
  SettingUpText(const SettingUp& from, UnitId unit, Language language) : from_(from), unit_(unit), language_(language) {}

  std::string run() {
    const Argument part = from_.part ? verbatim("for", *from_.part) : word("for", "kind." + from_.kind);
    out_ += sentence({"set.title", {verbatim("gauge", from_.gauge), part, length("wanted", from_.wanted)}}, language_) + "\n";
    title("set.rod.title");
    rod();
    title("set.master.title");
    master();
    title("set.zero.title");
    say({"set.zero.do", {}});
    title("set.proof.title");
    proof();
    title("set.pointers.title");
    pointers();
    return std::move(out_);
  }

 private:
  void title(const char* key) { out_ += "\n" + word_for(key, language_) + "\n"; }
  void say(const Message& message) { out_ += std::string(kTableIndent, ' ') + sentence(message, language_) + "\n"; }

  [[nodiscard]] Argument length(const char* name, Length length) const {
    return length_argument(name, length.ratio(), unit_, fine_decimals(unit_));
  }
  /// How far a contact travels: nobody sees a tenth of a micrometre there.
  [[nodiscard]] Argument room(const char* name, Length length) const {
    return length_argument(name, length.ratio(), unit_, unit_ == UnitId::inch ? kRoomDecimals + 1 : kRoomDecimals);
  }
  static Argument micrometres(const char* name, Length off) { return length_argument(name, absolute(off.ratio()), UnitId::micrometre, 1); }

  static std::vector<Message> pieces(const Assembly& assembly) {
    std::vector<Message> out = {{"set.rod.rod", {verbatim("text", assembly.rod.text)}}};
    if (assembly.extension) out.push_back({"set.rod.extension", {verbatim("text", assembly.extension->text)}});
    for (const KitPiece& each : assembly.washers) out.push_back({"set.rod.washer", {verbatim("text", each.text)}});
    if (assembly.washers.empty()) out.push_back({"set.rod.no_washer", {}});
    return out;
  }

  void rod() {
    if (!from_.assembled) {
      say({"set.rod.no_kit", {}});
      return;
    }
    const Assembly& best = from_.assembled->best;
    say({"set.rod.pieces", {list("pieces", pieces(best))}});
    say({"set.rod.stands", {length("wanted", from_.wanted), room("pressed", best.pressed_in)}});
    say({"set.rod.left", {room("larger", best.left_for_larger), room("smaller", best.left_for_smaller)}});
    if (!best.in_the_span) say({"set.rod.outside_span", {}});
    if (const auto& next = from_.assembled->next_best) {
      say({"set.rod.next", {list("pieces", pieces(*next)), room("pressed", next->pressed_in)}});
    }
  }

  void master() {
    const Length off = from_.really_set - from_.wanted;
    std::vector<Argument> arguments = {verbatim("master", from_.master), length("really", from_.really_set), length("wanted", from_.wanted),
                                       micrometres("off", off), word("way", off.counts() < 0 ? "way.under" : "way.over")};
    if (from_.thimble) arguments.push_back(shown("shown", from_.thimble->nearest));
    say({from_.thimble ? "set.master.micrometer" : "set.master.marked", arguments});
    std::string key = off.counts() == 0 ? "set.master.exact" : "set.master.off";
    if (off.counts() != 0 && from_.tolerance) {
      key = "set.master.off_tolerance";
      arguments.push_back(decimal("percent", (absolute(off.ratio()) * Ratio(100) / *from_.tolerance).decimal(0), "%"));
      arguments.push_back(length_argument("tolerance", *from_.tolerance, unit_, fine_decimals(unit_)));
    }
    say({key, arguments});
    if (!from_.thimble) return;
    say({"set.master.neighbours", {shown("below", from_.thimble->below), micrometres("below_off", from_.thimble->below.off),
                                   shown("above", from_.thimble->above), micrometres("above_off", from_.thimble->above.off)}});
  }

  void proof() {
    if (!from_.pressed_in) {
      say({"set.proof.sense", {}});
      return;
    }
    const Argument runs = word("side", *from_.pressed_in == NeedleSide::clockwise ? "side.clockwise" : "side.anticlockwise");
    if (!from_.thimble) {
      say({"set.proof.marked", {verbatim("master", from_.master), runs}});
      return;
    }
    if (!from_.proof) {
      say({"set.proof.none", {runs}});
      return;
    }
    const NeedleProof& proof = *from_.proof;
    say({proof.opens ? "set.proof.open" : "set.proof.close",
         {verbatim("master", from_.master), shown("amount", proof.amount), shown("from", proof.from), shown("to", proof.to)}});
    say({"set.proof.right", {list("place", {between(proof.right)})}});
    const Argument division = length_argument("division", from_.division.ratio(), unit_, fine_decimals(unit_));
    say({"set.proof.reversed", {list("place", {between(proof.reversed)})}});
    say({"set.proof.half", {list("place", {between(proof.half)}), division}});
    say({"set.proof.twice", {list("place", {between(proof.twice)}), division}});
    say({"set.proof.back", {shown("from", proof.from)}});
  }

  void pointers() {
    if (!from_.pressed_in) {
      say({"set.pointers.sense", {}});
      return;
    }
    if (from_.pointers.empty()) {
      say({from_.step_known ? "set.pointers.none" : "set.pointers.step_unknown", {}});
      return;
    }
    const bool guard = from_.rule.kind == RuleKind::probability;
    std::vector<std::vector<std::string>> rows = {{word_for("column.limit", language_), "", word_for("set.column.needle", language_)}};
    if (guard) rows.front().push_back(word_for("set.column.guarded", language_));
    for (const LimitPointer& each : from_.pointers) {
      const std::string bound = in_unit(each.bound, unit_, fine_decimals(unit_)) + " " + std::string(unit_definition(unit_).symbol);
      rows.push_back({each.limit + (each.rule_of_thumb ? " " + std::string(kThumbSign) : ""), std::string(each.side == LimitSide::at_most ? "≤ " : "≥ ") + with_decimal_mark(bound, language_)});
      if (!each.in_travel) continue;
      rows.back().push_back(sentence(label(each.at_limit, 1), language_));
      if (each.guarded) rows.back().push_back(sentence(label(*each.guarded, 0), language_));
    }
    out_ += columns(rows, kTableIndent);
    if (guard && from_.doubt) {
      say({"set.pointers.guard", {decimal("guard", print_fixed(1000.0 * from_.doubt->guard_mm, 1), "µm"),
                                  decimal("u", print_fixed(1000.0 * from_.doubt->standard_uncertainty_mm, 1), "µm"),
                                  decimal("level", (from_.rule.level * Ratio(100)).decimal(0), "%")}});
    }
    for (const LimitPointer& each : from_.pointers) {
      if (each.rule_of_thumb) say({"set.pointers.thumb", {verbatim("limit", each.limit)}});
    }
    for (const LimitPointer& each : from_.pointers) {
      if (!each.in_travel) say({"set.pointers.out_of_travel", {verbatim("limit", each.limit)}});
    }
    for (const LimitPointer& each : from_.pointers) {
      if (each.in_travel && each.at_limit.turns > 0) say({"set.pointers.turn", {verbatim("limit", each.limit)}});
    }
  }

  const SettingUp& from_;
  UnitId unit_;
  Language language_;
  std::string out_;
};

}  // namespace

std::string setting_up_text(const SettingUp& setting_up, UnitId unit, Language language) {
  return SettingUpText(setting_up, unit, language).run();
}

}  // namespace fettle
