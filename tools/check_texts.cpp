#include <algorithm>

#include "checks.h"
#include "source_text.h"
#include "text_keys.h"

namespace fettle::house {
namespace {

constexpr std::string_view kErrors = "docs/ERRORS.md";

bool is_key_character(char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '-' || c == '.'; }

/// "room.word", perhaps with more parts: what a key or a problem code looks like.
bool looks_like_key(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), is_key_character) && text.front() >= 'a' && text.front() <= 'z' &&
         text.find('.') != std::string_view::npos && text.back() != '.' && text.find("..") == std::string_view::npos;
}

bool is_file_name(std::string_view text) {
  const auto ending = text.substr(text.rfind('.') + 1);
  return ending == "toml" || ending == "csv" || ending == "txt" || ending == "json" || ending == "md" || ending == "svg";
}

/// starts_with("entry.trade") speaks of many keys, of none in particular.
bool is_beginning(std::string_view code, const Literal& literal) { return code.substr(0, literal.at).ends_with("starts_with("); }

std::string first_part(std::string_view key) { return std::string(key.substr(0, key.find('.'))); }

struct Seen {
  std::string path;
  int line;
};
using Raised = std::map<std::string, Seen, std::less<>>;

/// Codes in `// raises: a.b c.d` comments: for those that are put together from pieces.
void add_announced(const std::string& path, std::string_view text, Raised& out) {
  constexpr std::string_view kMarker = "// raises:";
  int line = 0;
  for (const std::string_view each : lines_of(text)) {
    ++line;
    const auto at = each.find(kMarker);
    if (at == std::string_view::npos) continue;
    for (const std::string_view code : words_of(each.substr(at + kMarker.size()))) out.emplace(std::string(code), Seen{path, line});
  }
}

/// Whether `word` stands in `text` with no key character beside it.
bool names(std::string_view text, std::string_view word) {
  for (auto at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
    const auto end = at + word.size();
    const bool open = at == 0 || !is_key_character(text[at - 1]);
    // A full stop may end a sentence of a case file; a further part may not follow.
    const bool shut = end == text.size() || !is_key_character(text[end]) ||
                      (text[end] == '.' && (end + 1 == text.size() || !is_key_character(text[end + 1])));
    if (open && shut) return true;
  }
  return false;
}

std::string escaped(std::string_view pattern) {
  std::string out;
  for (const char c : pattern) {
    if (c == '|') out += '\\';
    out += c;
  }
  return out;
}

std::string pattern_of(const Sentences& sentences, const std::string& key) {
  const auto found = sentences.find(key);
  return found == sentences.end() ? std::string() : found->second.pattern;
}

class TextCheck {
 public:
  explicit TextCheck(const SourceTree& tree)
      : tree_(tree), english_(read_sentences(tree, "en", findings_)), german_(read_sentences(tree, "de", findings_)) {}

  Findings run() && {
    compare(english_, german_, "de");
    compare(german_, english_, "en");
    compare_arguments();
    const Raised raised = find_raised();
    look_at_codes(raised);
    look_at_tests();
    look_at_document();
    return std::move(findings_);
  }

 private:
  void refuse(std::string_view path, int line, std::string what) {
    findings_.push_back({std::string(path), line, std::move(what), Weight::refusal});
  }

  void compare(const Sentences& here, const Sentences& there, std::string_view language) {
    for (const auto& [key, sentence] : here) {
      if (there.find(key) == there.end()) {
        refuse(sentence.path, sentence.line, key + " is missing in src/text/" + std::string(language) + ". Add it there.");
      }
    }
  }

  void compare_arguments() {
    for (const auto& [key, sentence] : english_) {
      const auto other = german_.find(key);
      if (other == german_.end() || arguments_in(sentence.pattern) == arguments_in(other->second.pattern)) continue;
      refuse(other->second.path, other->second.line, key + " uses other {arguments} than " + sentence.path + " does. Use the same.");
    }
  }

  [[nodiscard]] bool known(const std::string& key) const {
    const std::string problem = "problem." + key;
    return english_.count(key) + english_.count(problem) + english_.count(problem + ".do") > 0;
  }

  /// Every literal under src that looks like a key of one of the rooms or of the texts.
  [[nodiscard]] Raised find_raised() const {
    std::set<std::string> beginnings;
    for (const auto& [key, sentence] : english_) beginnings.insert(first_part(key));
    for (const std::string& code : problem_codes(english_)) beginnings.insert(first_part(code));
    for (const auto& [path, text] : tree_) {
      if (is_cpp(path) && !room_of(path).empty()) beginnings.emplace(room_of(path));
    }
    Raised out;
    for (const auto& [path, text] : tree_) {
      if (!path.starts_with("src/") || !is_cpp(path) || is_test(path)) continue;
      add_announced(path, text, out);
      const std::string code = blank_comments(text);
      for (const Literal& literal : string_literals(code)) {
        if (!looks_like_key(literal.text) || is_file_name(literal.text) || is_beginning(code, literal)) continue;
        if (beginnings.count(first_part(literal.text)) == 0) continue;
        out.emplace(literal.text, Seen{path, literal.line});
      }
      add_made(path, code, out);
    }
    return out;
  }

  /// Problem{"..."} and Message{"..."} count even where no key begins like theirs.
  static void add_made(const std::string& path, std::string_view code, Raised& out) {
    for (const Literal& literal : string_literals(code)) {
      const std::string_view before = code.substr(0, literal.at);
      if (!before.ends_with("Problem{") && !before.ends_with("Message{")) continue;
      if (looks_like_key(literal.text)) out.emplace(literal.text, Seen{path, literal.line});  // one ending in a point is a piece
    }
  }

  void look_at_codes(const Raised& raised) {
    for (const auto& [key, seen] : raised) {
      if (!known(key)) {
        refuse(seen.path, seen.line,
               "\"" + key + "\" is neither a key nor a problem. Add " + key + " or problem." + key + " and its .do to the texts.");
      }
    }
    for (const std::string& code : problem_codes(english_)) {
      const auto what = english_.find("problem." + code);
      const auto act = english_.find("problem." + code + ".do");
      const Sentence& place = what != english_.end() ? what->second : act->second;
      if (what == english_.end()) refuse(place.path, place.line, "problem." + code + " is missing. Say what is wrong.");
      if (act == english_.end()) refuse(place.path, place.line, "problem." + code + ".do is missing. Say what to do.");
      if (raised.find(code) == raised.end()) {
        refuse(place.path, place.line, code + " is raised nowhere under src. Take its keys out, or announce it with // raises:.");
      }
    }
  }

  void look_at_tests() {
    std::string tests;
    for (const auto& [path, text] : tree_) {
      if (is_test(path)) tests += text + "\n";
    }
    for (const std::string& code : problem_codes(english_)) {
      const auto sentence = english_.lower_bound("problem." + code);
      if (!names(tests, code)) {
        refuse(sentence->second.path, sentence->second.line, code + " is raised by no test. Add a test that names it.");
      }
    }
  }

  void look_at_document() {
    const std::string wanted = errors_document(tree_);
    const auto document = tree_.find(kErrors);
    if (document != tree_.end() && document->second == wanted) return;
    std::string differs;
    const std::string present = document == tree_.end() ? std::string() : document->second;
    const auto old_lines = lines_of(present);
    for (const std::string_view row : lines_of(wanted)) {
      if (std::find(old_lines.begin(), old_lines.end(), row) == old_lines.end() && differs.empty()) differs = row;
    }
    refuse(kErrors, 0, "does not say what the texts say" + (differs.empty() ? std::string() : " (first: " + differs.substr(0, 60) + ")") +
                           ". Write it anew: check_texts <root> --write.");
  }

  const SourceTree& tree_;
  Findings findings_;
  Sentences english_;
  Sentences german_;
};

}  // namespace

Findings check_texts(const SourceTree& tree) { return TextCheck(tree).run(); }

std::string errors_document(const SourceTree& tree) {
  Findings ignored;
  const Sentences english = read_sentences(tree, "en", ignored);
  std::string out =
      "# Problem codes\n\n"
      "Every problem the program can tell a person about. `{words}` are filled in; `{n|one|other}` chooses a form by the number n.\n"
      "Written by `check_texts --write` from src/text/en; do not edit by hand.\n\n"
      "| code | what is wrong | what to do |\n|---|---|---|\n";
  for (const std::string& code : problem_codes(english)) {
    out += "| `" + code + "` | " + escaped(pattern_of(english, "problem." + code)) + " | " +
           escaped(pattern_of(english, "problem." + code + ".do")) + " |\n";
  }
  return out;
}

}  // namespace fettle::house
