#include "cli/marks.h"

#include "units/print.h"

#include <cmath>

namespace fettle {
namespace {

/// Iron, brass and copper as 24-bit terminal colours; "not judged" stays in the terminal's own.
std::string painted(const std::string& text, VerdictWord word, bool colour) {
  if (!colour) return text;
  switch (word) {
    case VerdictWord::within: return "\x1b[38;2;120;144;160m" + text + "\x1b[0m";
    case VerdictWord::too_close: return "\x1b[38;2;196;160;60m" + text + "\x1b[0m";
    case VerdictWord::beyond: return "\x1b[38;2;214;112;60m" + text + "\x1b[0m";
    case VerdictWord::not_judged: return text;
  }
  return text;
}

std::string mark_of(VerdictWord word) {
  switch (word) {
    case VerdictWord::within: return "▣";
    case VerdictWord::too_close: return "◪";
    case VerdictWord::beyond: return "◨";
    case VerdictWord::not_judged: return "☐";
  }
  return "";
}

}  // namespace

std::string marked(VerdictWord word, Language language, bool colour) {
  return painted(mark_of(word) + " " + word_for("verdict." + std::string(verdict_word_name(word)), language), word, colour);
}

std::string marked_new(VerdictWord word, Language language) {
  return "· " + word_for("verdict.new." + std::string(verdict_word_name(word)), language);
}

std::string marked(StateWord word, Language language, bool colour) {
  const VerdictWord verdict = word_of(word);
  return painted(mark_of(verdict) + " " + word_for("state." + std::string(state_word_name(word)), language), verdict, colour);
}

std::string chance_in_words(const Chance& chance) {
  const double percent = 100.0 * chance.value;
  constexpr double kAlmost = 99.0;
  if (percent > kAlmost) return "> 99 %";
  if (percent < 100.0 - kAlmost) return "< 1 %";
  return print_fixed(percent >= 50.0 ? std::floor(percent) : std::ceil(percent), 0) + " %";
}

}  // namespace fettle
