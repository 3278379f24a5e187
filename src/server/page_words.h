#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/gauge_state.h"
#include "app/part_words.h"
#include "server/http.h"
#include "server/served.h"
#include "wire/setting_page_json.h"

namespace fettle {

// Words that every page needs, in the language of one request.

class PageWords {
 public:
  explicit PageWords(Language language) : language_(language) {}

  [[nodiscard]] Language language() const { return language_; }
  [[nodiscard]] std::string say(const Message& message) const { return sentence(message, language_); }
  [[nodiscard]] std::string say(const char* key) const { return word_for(key, language_); }
  /// With a capital at its beginning.
  [[nodiscard]] std::string title(const Message& message) const;
  [[nodiscard]] std::vector<std::string> lines(const std::vector<Message>& messages) const;
  /// All in one line; nothing where there are none.
  [[nodiscard]] std::string joined_line(const std::vector<Message>& messages, const char* between = "; ") const;
  [[nodiscard]] std::optional<std::string> line_or_none(const std::vector<Message>& messages) const;
  [[nodiscard]] std::string number(std::string digits) const { return with_decimal_mark(std::move(digits), language_); }

 private:
  Language language_;
};

/// The first letter large, also ä, ö and ü.
[[nodiscard]] std::string capital(std::string text);
/// All letters large; ß becomes SS.
[[nodiscard]] std::string shouted(const std::string& text);

/// 404 where a thing was named that is not there, else 422.
[[nodiscard]] HttpResponse page_refusal(const Problems& problems, Language language);

/// A query's word; empty is as good as none.
[[nodiscard]] std::optional<std::string> asked_for(const HttpRequest& request, const std::string& name);
[[nodiscard]] Asking asking_of(const HttpRequest& request, Served& served);

/// Where the log of the job ends.
[[nodiscard]] std::int64_t position_of(const RecordedJob& recorded);
[[nodiscard]] UnitId shown_unit(const Job& job);
/// "point", "comma"; nothing where the job does not say.
[[nodiscard]] std::optional<std::string> decimal_mark_of(const Job& job);

}  // namespace fettle
