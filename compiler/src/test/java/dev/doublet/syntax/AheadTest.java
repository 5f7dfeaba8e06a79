package dev.doublet.syntax;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.source.SourceFile;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What may be written next, held against the grammar by hand. */
class AheadTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "``|accept arm aspect colours count cover expect form head imperfect numbers plate rhythms rulebook speeds use||",
        "`rulebook `|||bookLine",
        "`speeds in `|km/h mph||",
        "`speeds in mph { slow `|maximum unranked||",
        "`colours { red `|as|look|",
        "`form a { `||look|",
        "`head s { lamp main shows `||look|",
        "`head s { figure q lights `||look|",
        "`expect `|any dark|look|order",
        "`aspect \"C\" { as `|||likeness",
        "`imperfect signals read as \"C\" where `||look|",
        "`imperfect signals read as \"C\" where red shows, `|else||proviso",
        "`aspect \"C\" { on one show `|any dark|look|",
        "`aspect \"C\" { on one show red } aspect \"D\" { on `||look|",
        "`aspect \"C\" { what is this } form b `|bracket dwarf in staggered||",
      })
  void words_and_the_rules_of_names_and_texts(
      String text, String words, String name, String quoted) {
    Ahead ahead = Ahead.at(new SourceFile("x", text), text.length());
    assertThat(String.join(" ", ahead.words())).isEqualTo(words == null ? "" : words);
    assertThat(ahead.name().stream().findFirst().orElse("")).isEqualTo(name == null ? "" : name);
    assertThat(ahead.text().stream().findFirst().orElse(""))
        .isEqualTo(quoted == null ? "" : quoted);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "``||false|``",
        "`lay`||false|`lay`",
        "`buses:\n  track: {speaks: dcc, f`|buses track|false|`f`",
        "`buses:\n  track: {speaks: `|buses track speaks|true|``",
        "`a:\n  b:\n  - name: W1\n    k`|a b -|false|`k`",
        "`a:\n  - {name: W1, kind: x`|a - kind|true|`x`",
        "`a: {b: [c, d`|a b -|true|`d`",
        "`a: {b: [c, d], e: {f: 1}}\ng`||false|`g`",
        "`a:\n  b:\n    - c\n    - d`|a b -|false|`d`",
        "`a: # {\n  b`|a|false|`b`",
        "`a: \"{\"\n  b`|a|false|`b`",
        "`\"a: {\": [`|a: { -|true|``",
      })
  void where_a_cursor_stands_in_yaml(String raw, String steps, boolean value, String word) {
    String text = raw.replace("\\n", "\n");
    YamlCursor cursor = YamlCursor.at(new SourceFile("x.yaml", text), text.length());
    assertThat(String.join(" ", cursor.steps())).isEqualTo(steps == null ? "" : steps);
    assertThat(cursor.value()).isEqualTo(value);
    assertThat(text.substring(cursor.start())).isEqualTo(word);
  }
}
