#include "base/toml_text.h"

#include <gtest/gtest.h>

#include "base/document.h"

namespace fettle {
namespace {

TEST(TomlText, EveryTextComesBackAsItWas) {
  for (const std::string& text :
       {std::string("plain"), std::string("a \"quote\" and a \\ backslash"), std::string("'''"), std::string("\"\"\""), std::string("\\u0041"),
        std::string("line\nline\r\nline\ttab"), std::string("\x01\x07\x08\x0C\x1B\x1F\x7F"), std::string("# no comment"), std::string("[table]"),
        std::string("Ø 84 µm \u2028 \u00A0 \uFEFF \U0001F527"), std::string("= ] } ,"), std::string(" blanks ")}) {
    TomlText toml;
    toml.text("key", text);
    toml.list("list", {text, text});
    toml.tables("tables", {{toml_key(text) + " = " + toml_text(text)}});
    toml.comment(text);
    const auto read = read_document(toml.all(), "f");
    ASSERT_TRUE(read.ok()) << toml.all();
    EXPECT_EQ(*read.value().find("key")->text(), text);
    EXPECT_EQ(*read.value().find("list")->array()->at(1).text(), text);
    EXPECT_EQ(*read.value().find("tables")->array()->at(0).find(text)->text(), text);
  }
}

TEST(TomlText, AnyThreePiecesInARowComeBack) {
  const std::vector<std::string> pieces = {"\"", "\\", "\n", "\r", "\t", "'", "#", "[", "]", "{", "}", ",", "=", ".", " ", "u0041", "n", "\x01", "\x1F", "\x7F", "µ", "\u2028"};
  TomlText toml;
  std::vector<std::string> texts;
  for (const std::string& a : pieces) {
    for (const std::string& b : pieces) {
      for (const std::string& c : pieces) texts.push_back(a + b + c);
    }
  }
  toml.list("texts", texts);
  for (std::size_t i = 0; i < texts.size(); i += pieces.size()) toml.comment(texts[i]);
  const auto read = read_document(toml.all(), "f");
  ASSERT_TRUE(read.ok());
  const auto& list = *read.value().find("texts")->array();
  ASSERT_EQ(list.size(), texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i) EXPECT_EQ(*list[i].text(), texts[i]);
}

TEST(TomlText, LooksAsAPersonWouldWriteIt) {
  TomlText toml;
  toml.comment("On top,\nin one line.");
  toml.table("[[part]]");
  toml.text("id", "bore-1");
  toml.text("remark", "");
  toml.text_if("material", std::nullopt);
  toml.list("banks", {});
  toml.truth("accepted", true);
  toml.whole("cylinders", 12);
  toml.tables("station", {{"id = \"top\"", "counted = false"}});
  toml.table_on_a_line("members", {toml_key("bore") + " = \"b\"", toml_key("the piston") + " = \"p\""});
  EXPECT_EQ(toml.all(),
            "# On top,?in one line.\n\n[[part]]\nid = \"bore-1\"\naccepted = true\ncylinders = 12\n"
            "station = [\n  { id = \"top\", counted = false },\n]\nmembers = { bore = \"b\", \"the piston\" = \"p\" }\n");
}

}  // namespace
}  // namespace fettle
