#include "verdict/verdict.h"

namespace fettle {

VerdictWord word_of(StateWord word) {
  switch (word) {
    case StateWord::as_new:
    case StateWord::serviceable: return VerdictWord::within;
    case StateWord::beyond: return VerdictWord::beyond;
    case StateWord::too_close: return VerdictWord::too_close;
    case StateWord::not_judged: return VerdictWord::not_judged;
  }
  return VerdictWord::not_judged;
}

std::string_view verdict_word_name(VerdictWord word) {
  switch (word) {
    case VerdictWord::within: return "within";
    case VerdictWord::beyond: return "beyond";
    case VerdictWord::too_close: return "too-close";
    case VerdictWord::not_judged: return "not-judged";
  }
  return "";
}

std::string_view state_word_name(StateWord word) {
  switch (word) {
    case StateWord::as_new: return "as-new";
    case StateWord::serviceable: return "serviceable";
    case StateWord::beyond: return "beyond";
    case StateWord::too_close: return "too-close";
    case StateWord::not_judged: return "not-judged";
  }
  return "";
}

}  // namespace fettle
