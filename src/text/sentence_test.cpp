#include "text/sentence.h"

#include <gtest/gtest.h>

#include "base/assertion.h"
#include "text/text_file.h"

namespace fettle {
namespace {

TEST(Sentence, FillsArgumentsInBothLanguages) {
  const Problem problem{"document.too_large", {"job.toml", 3, 4}, {count("most", 4)}};
  EXPECT_EQ(sentence(problem, Language::english),
            "job.toml:3:4: The file is larger than 4 MiB. Split it, or take out what does not belong to the job.");
  EXPECT_EQ(sentence(problem, Language::german),
            "job.toml:3:4: Die Datei ist größer als 4 MiB. Teilen Sie sie, oder nehmen Sie heraus, was nicht zum Auftrag gehört.");
}

TEST(Sentence, FiguresGetTheDecimalMarkOfTheLanguage) {
  EXPECT_EQ(with_decimal_mark("84.0978", Language::english), "84.0978");
  EXPECT_EQ(with_decimal_mark("-84.0978", Language::german), "-84,0978");
}

TEST(Sentence, SeveralFiguresGetItToo) {
  const Message message{"proof.figure", {figures("text", "84.000…84.020 mm = 3.3071…3.3079 in")}};
  EXPECT_EQ(sentence(message, Language::english), "84.000…84.020 mm = 3.3071…3.3079 in");
  EXPECT_EQ(sentence(message, Language::german), "84,000…84,020 mm = 3,3071…3,3079 in");
}

TEST(Sentence, UnknownKeyIsSeenNotHidden) { EXPECT_EQ(word_for("no.such.key", Language::german), "[no.such.key]"); }

TEST(Sentence, EveryKeyExistsInBothLanguages) { EXPECT_EQ(all_keys(Language::english), all_keys(Language::german)); }

TEST(TextFile, RefusesAKeyGivenTwice) {
  TextTable table;
  read_text_file("# comment\n\na = one\nb = two\\nlines\n", "x.txt", table);
  EXPECT_EQ(table.at("b"), "two\nlines");
  EXPECT_THROW(read_text_file("a = again\n", "x.txt", table), InternalError);
  EXPECT_THROW(read_text_file("no equals sign\n", "x.txt", table), InternalError);
}

}  // namespace
}  // namespace fettle
