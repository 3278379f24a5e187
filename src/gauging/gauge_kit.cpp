#include "gauging/gauge_kit.h"

#include <algorithm>
#include <cstdlib>

#include "base/assertion.h"

namespace fettle {
namespace {

/// The usable range of a two-point gauge begins with the contact pressed in by so much: JIS B 7515-1982 as summarised on the page seen.
constexpr std::int64_t kUsualLeastPressed = Length::kCountsPerMillimetre / 10;

using Washers = std::vector<const KitPiece*>;

/// Washers that lie on each other, longest first; of equal sets only one.
struct Stack {
  Washers washers;
  std::int64_t counts = 0;
};

std::vector<const KitPiece*> longest_first(const std::vector<KitPiece>& pieces) {
  std::vector<const KitPiece*> out;
  for (const KitPiece& each : pieces) out.push_back(&each);
  std::stable_sort(out.begin(), out.end(), [](const auto* a, const auto* b) {
    return a->length != b->length ? a->length > b->length : a->text < b->text;
  });
  return out;
}

std::vector<Stack> stacks_of(const std::vector<KitPiece>& washers) {
  const auto sorted = longest_first(washers);
  std::vector<Stack> out;
  for (std::size_t set = 0; set < (std::size_t{1} << sorted.size()); ++set) {
    Stack stack;
    bool repeats = false;  // of equal washers the first ones are taken: a set that skips one of them is another's twin
    for (std::size_t i = 0; i < sorted.size(); ++i) {
      const bool in = (set >> i & 1U) != 0;
      const bool twin_left_out = i > 0 && sorted[i]->length == sorted[i - 1]->length && (set >> (i - 1) & 1U) == 0;
      repeats = repeats || (in && twin_left_out);
      if (!in) continue;
      stack.washers.push_back(sorted[i]);
      stack.counts += sorted[i]->length.counts();
    }
    if (!repeats) out.push_back(std::move(stack));
  }
  return out;
}

struct Candidate {
  const KitPiece* rod;
  const KitPiece* extension;  ///< may be none
  const Stack* stack;
  std::int64_t twice_reach;   ///< counts: half of an odd travel stays exact
};

/// How good a candidate is for a wanted size; the smaller the better. Products stay below 2^63: lengths are below 10 m.
class Ranking {
 public:
  Ranking(const KnownKit& kit, Length wanted) : kit_(kit), wanted_(wanted.counts()) {}

  [[nodiscard]] std::int64_t twice_pressed(const Candidate& each) const { return each.twice_reach - 2 * wanted_; }
  [[nodiscard]] bool within_travel(const Candidate& each) const {
    const std::int64_t pressed = twice_pressed(each);
    return pressed >= 2 * kit_.least_pressed.counts() && pressed <= 2 * kit_.travel.counts();
  }
  [[nodiscard]] bool in_the_span(const Candidate& each) const {
    const std::int64_t pressed = twice_pressed(each);
    return within_travel(each) && 3 * pressed >= 2 * kit_.travel.counts() && pressed <= kit_.travel.counts();
  }
  /// From the middle of the span, five twelfths of the travel; in 24ths of a count.
  [[nodiscard]] std::int64_t from_middle(const Candidate& each) const {
    return std::abs(12 * twice_pressed(each) - 10 * kit_.travel.counts());
  }
  [[nodiscard]] bool better(const Candidate& a, const Candidate& b) const {
    const bool a_in = in_the_span(a);
    if (a_in != in_the_span(b)) return a_in;
    const std::size_t a_washers = a.stack->washers.size();
    const std::size_t b_washers = b.stack->washers.size();
    if (a_in && a_washers != b_washers) return a_washers < b_washers;
    if (from_middle(a) != from_middle(b)) return from_middle(a) < from_middle(b);
    if (a_washers != b_washers) return a_washers < b_washers;
    if (length_of(a.extension) != length_of(b.extension)) return length_of(a.extension) < length_of(b.extension);
    if (a.rod->length != b.rod->length) return a.rod->length > b.rod->length;
    return longer(a.stack->washers, b.stack->washers);
  }

 private:
  static std::int64_t length_of(const KitPiece* piece) { return piece == nullptr ? 0 : piece->length.counts(); }
  static bool longer(const Washers& a, const Washers& b) {
    return std::lexicographical_compare(b.begin(), b.end(), a.begin(), a.end(),
                                        [](const auto* x, const auto* y) { return x->length < y->length; });
  }

  const KnownKit& kit_;
  std::int64_t wanted_;
};

/// Of pieces with one length the first by its text.
std::vector<const KitPiece*> unlike(const std::vector<KitPiece>& pieces) {
  auto out = longest_first(pieces);
  out.erase(std::unique(out.begin(), out.end(), [](const auto* a, const auto* b) { return a->length == b->length; }), out.end());
  return out;
}

std::vector<Candidate> candidates_of(const KnownKit& kit, const std::vector<Stack>& stacks) {
  std::vector<const KitPiece*> extensions = unlike(kit.extensions);
  extensions.insert(extensions.begin(), nullptr);
  const std::int64_t twice_more = kit.rods_reach == RodsReach::middle_of_travel ? kit.travel.counts() : 0;
  std::vector<Candidate> out;
  for (const KitPiece* rod : unlike(kit.rods)) {
    for (const KitPiece* extension : extensions) {
      const std::int64_t bare = rod->length.counts() + (extension == nullptr ? 0 : extension->length.counts());
      for (const Stack& stack : stacks) out.push_back({rod, extension, &stack, 2 * (bare + stack.counts) + twice_more});
    }
  }
  return out;
}

Assembly assembly_of(const Candidate& chosen, const KnownKit& kit, Length wanted, bool in_the_span) {
  // Half a count is 0.05 nm: shown figures drop it, the choice has been made with it.
  const Length reach = Length::counts(chosen.twice_reach / 2);
  Assembly out{*chosen.rod, std::nullopt, {}, reach, reach - wanted, reach - wanted - kit.least_pressed,
               kit.travel - (reach - wanted), in_the_span};
  if (chosen.extension != nullptr) out.extension = *chosen.extension;
  for (const KitPiece* washer : chosen.stack->washers) out.washers.push_back(*washer);
  return out;
}

/// What is the matter where no assembly reaches the size, and what would help.
Problem out_of_reach(const KnownKit& kit, const std::vector<Candidate>& all, Length wanted, const std::string& gauge, UnitId shown) {
  const auto said = [&](const char* name, Length length) {
    return length_argument(name, length.ratio(), shown, fine_decimals(shown));
  };
  std::optional<std::int64_t> below;  // greatest reach whose sizes all lie below the wanted one
  std::optional<std::int64_t> above;  // least reach whose sizes all lie above
  for (const Candidate& each : all) {
    const std::int64_t reach = each.twice_reach / 2;
    if (reach - kit.least_pressed.counts() < wanted.counts()) {
      if (!below || reach > *below) below = reach;
    } else if (!above || reach < *above) {
      above = reach;
    }
  }
  const Length third = Length::counts(kit.travel.counts() / 3);
  const Length half = Length::counts(kit.travel.counts() / 2);
  const Length more = kit.rods_reach == RodsReach::middle_of_travel ? half : Length();
  Problem problem{"", {},
                  {verbatim("gauge", gauge), said("wanted", wanted), said("rod_from", wanted + third - more),
                   said("rod_to", wanted + half - more)}};
  if (below) {
    problem.arguments.push_back(said("below", Length::counts(*below) - kit.least_pressed));
    problem.arguments.push_back(said("washer_from", wanted + third - Length::counts(*below)));
    problem.arguments.push_back(said("washer_to", wanted + half - Length::counts(*below)));
  }
  if (above) problem.arguments.push_back(said("above", Length::counts(*above) - kit.travel));
  problem.code = below && above ? "gauging.kit_gap" : below ? "gauging.kit_too_short" : "gauging.kit_too_long";
  return problem;
}

struct KitCheck {
  const std::string& gauge;
  const Place& place;
  Problems problems;

  void add(std::string code, std::vector<Argument> more = {}) {
    more.insert(more.begin(), verbatim("gauge", gauge));
    problems.push_back({std::move(code), place, std::move(more)});
  }
  Length positive(const TypedQuantity& typed) {
    const Length length = exact_length(typed.quantity).value_or(Length());
    if (length.counts() <= 0) add("gauging.kit_not_positive", {verbatim("text", typed.text)});
    return length;
  }
  std::vector<KitPiece> pieces(const std::vector<TypedQuantity>& typed, std::size_t most) {
    std::vector<KitPiece> out;
    for (const TypedQuantity& each : typed) out.push_back({each.text, positive(each)});
    if (out.size() > most) add("gauging.kit_too_many", {count("pieces", static_cast<std::int64_t>(out.size())),
                                                        count("most", static_cast<std::int64_t>(most))});
    return out;
  }
};

}  // namespace

Result<KnownKit> know_kit(const GaugeKit& kit, const std::string& gauge, const Place& place) {
  KitCheck check{gauge, place, {}};
  KnownKit known{check.pieces(kit.rods, kMostRods), check.pieces(kit.washers, kMostWashers),
                 check.pieces(kit.extensions, kMostExtensions), kit.rods_reach, check.positive(kit.travel),
                 Length::counts(kUsualLeastPressed), exact_length(kit.range_from), exact_length(kit.range_to)};
  if (kit.rods.empty()) check.add("gauging.kit_no_rods");
  if (const auto least = exact_length(kit.least_pressed)) {
    if (least->counts() < 0) check.add("gauging.kit_not_positive", {verbatim("text", kit.least_pressed->text)});
    known.least_pressed = *least;
  }
  if (known.travel.counts() > 0 && known.least_pressed + known.least_pressed >= known.travel) {
    check.add("gauging.kit_least_pressed", {length_argument("least", known.least_pressed.ratio(), UnitId::millimetre, 2),
                                            verbatim("travel", kit.travel.text)});
  }
  if (known.range_from && known.range_to && *known.range_from >= *known.range_to) check.add("gauging.kit_range");
  if (!check.problems.empty()) return std::move(check.problems);
  return known;
}

Result<Assembled> assemble(const KnownKit& kit, Length wanted, const std::string& gauge, UnitId shown) {
  FETTLE_ASSERT(kit.rods.size() <= kMostRods && kit.washers.size() <= kMostWashers && kit.extensions.size() <= kMostExtensions,
                gauge);
  if ((kit.range_from && wanted < *kit.range_from) || (kit.range_to && wanted > *kit.range_to)) {
    return Problem{"gauging.kit_outside_range", {},
                   {verbatim("gauge", gauge), length_argument("wanted", wanted.ratio(), shown, fine_decimals(shown))}};
  }
  const std::vector<Stack> stacks = stacks_of(kit.washers);
  const std::vector<Candidate> all = candidates_of(kit, stacks);
  const Ranking ranking(kit, wanted);
  const Candidate* best = nullptr;
  const Candidate* next = nullptr;
  for (const Candidate& each : all) {
    if (!ranking.within_travel(each)) continue;
    if (best == nullptr || ranking.better(each, *best)) {
      next = best;
      best = &each;
    } else if (next == nullptr || ranking.better(each, *next)) {
      next = &each;
    }
  }
  if (best == nullptr) return out_of_reach(kit, all, wanted, gauge, shown);
  Assembled out{assembly_of(*best, kit, wanted, ranking.in_the_span(*best)), std::nullopt};
  if (next != nullptr) out.next_best = assembly_of(*next, kit, wanted, ranking.in_the_span(*next));
  return out;
}

}  // namespace fettle
