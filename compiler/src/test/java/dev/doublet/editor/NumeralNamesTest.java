package dev.doublet.editor;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.source.Mention;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/** Numbers, and the letters that stand for them, as an editor finds and renames them. */
class NumeralNamesTest {
  private static final String BOOK =
      """
      rulebook "Brackwater & Northern"
      speeds in km/h { line maximum }
      numbers times 10 { 4 6 }
      colours { red yellow white }
      head searchlight { lamp main shows red, yellow }
      head speed shows numbers in white
      form home { speed usually dark, main }
      imperfect signals read as most restrictive
      aspect "Stop" { number 0  allows stop  on home show red }
      aspect "Slow {n}" { number 16 up  was "Crawl {n}"  indicates "At {n}0."  allows {n} then stop
        on home show {n} over yellow }
      expect {x} over yellow on home means "Slow {x}"
      expect "Slow 6" less restrictive than "Slow 4"
      expect 6 over yellow on home means "Slow 6"
      """;

  private static final String LAYOUT =
      """
      layout: Brackwater station
      rulebook: book.aspects
      buses: {dcc: {speaks: dcc}}
      controllers:
        one:
          flash: 32768
          ram: 2048
          chains:
            main:
              signals:
                - {name: B1, form: home, heads: [speed, searchlight], by: one-per-output, address: 4, aspects: [Stop, "Slow {n}"]}
                - {name: B2, form: home, heads: [speed, searchlight], by: one-per-output, address: 8, aspects: [Stop, Slow 6]}
      """;

  private static final Texts TEXTS =
      new Texts(
          Map.of(
              "book.aspects",
              new SourceFile("book.aspects", BOOK),
              "layout.yaml",
              new SourceFile("layout.yaml", LAYOUT)),
          path -> {
            throw new SourceReader.Unreadable("there is no such file");
          });
  private static final Root ROOT = Root.quick("book.aspects", TEXTS);
  private static final Root LAID = Root.quick("layout.yaml", TEXTS);
  private static final SourceFile FILE = ROOT.files().get("book.aspects");

  private static String renamed(String at, String name) {
    return renamed(List.of(ROOT), FILE, at, name);
  }

  private static String renamed(List<Root> roots, SourceFile file, String at, String name) {
    Renaming renaming = Renaming.of(roots, TEXTS, FILE, place(at), name);
    assertThat(renaming.refusal()).isEmpty();
    StringBuilder text = new StringBuilder(file.text());
    new TreeMap<>(renaming.edits())
        .descendingMap()
        .forEach(
            (span, word) -> {
              if (span.file().name().equals(file.name())) {
                text.replace(span.start(), span.end(), word);
              }
            });
    return text.toString();
  }

  private static String refused(String at, String name) {
    return Renaming.of(List.of(ROOT), TEXTS, FILE, place(at), name).refusal();
  }

  /** Behind the first character of a text that the book has once. */
  private static int place(String at) {
    assertThat(BOOK.indexOf(at)).isEqualTo(BOOK.lastIndexOf(at)).isNotNegative();
    return BOOK.indexOf(at) + 1;
  }

  private static String hover(String at) {
    return String.join("\n", Explanation.at(ROOT, FILE, place(at)).orElseThrow().parts());
  }

  private static List<String> definitions(String at) {
    Mention name = ROOT.nameAt(FILE, place(at)).orElseThrow();
    return ROOT.declarations(name).stream()
        .map(m -> m.span().from().line() + ":" + m.span().from().column())
        .toList();
  }

  private static List<String> proposals(String more) {
    SourceFile now = new SourceFile("book.aspects", BOOK + more);
    return Completion.at(ROOT, now, now.text().length()).stream()
        .filter(p -> p.sort() == Proposal.Sort.NAME)
        .map(Proposal::text)
        .toList();
  }

  @Test
  void a_letter_is_renamed_in_all_of_its_aspect_and_nowhere_else() {
    String expected =
        BOOK.replace("Slow {n}\" {", "Slow {speed}\" {")
            .replace("Crawl {n}", "Crawl {speed}")
            .replace("At {n}0", "At {speed}0")
            .replace("allows {n}", "allows {speed}")
            .replace("show {n}", "show {speed}");
    for (String at : List.of("n}\" { number", "n} then", "n} over", "n}0", "n}\"  ind")) {
      assertThat(renamed(at, "speed")).isEqualTo(expected);
    }
  }

  @Test
  void a_letter_of_an_expectation_is_its_own() {
    assertThat(renamed("x} over", "y")).isEqualTo(BOOK.replace("{x}", "{y}"));
  }

  @Test
  void a_letter_is_renamed_to_another_letter_only() {
    for (String wrong : List.of("6", "a b", "}", "")) {
      assertThat(refused("n} then", wrong)).as(wrong).isNotEmpty();
    }
  }

  @Test
  void an_aspect_of_many_numbers_is_renamed_where_one_of_them_is_named() {
    String expected = BOOK.replace("\"Slow ", "\"Gently ");
    assertThat(renamed("Slow {n}\" {", "Gently {n}")).isEqualTo(expected);
    assertThat(renamed("Slow 4", "Gently {n}")).isEqualTo(expected);
    assertThat(refused("Slow 4", "Gently 4")).contains("does not say {n}");
  }

  @Test
  void a_layout_follows_the_names_of_its_book() {
    List<Root> roots = List.of(ROOT, LAID);
    SourceFile layout = LAID.files().get("layout.yaml");
    assertThat(LAID.names().at(layout, LAYOUT.indexOf("Slow 6")).orElseThrow().name())
        .isEqualTo("Slow {n}");
    assertThat(renamed(roots, layout, "Slow {n}\" {", "Gently {n}"))
        .isEqualTo(LAYOUT.replace("Slow {n}", "Gently {n}").replace("Slow 6", "Gently 6"));
    assertThat(renamed(roots, layout, "n} over", "m"))
        .isEqualTo(LAYOUT.replace("Slow {n}", "Slow {m}"));
  }

  @Test
  void a_number_is_renamed_in_names_of_aspects_and_in_layouts_too() {
    List<Root> roots = List.of(ROOT, LAID);
    String expected =
        BOOK.replace("{ 4 6 }", "{ 4 7 }")
            .replace("Slow 6", "Slow 7")
            .replace("expect 6", "expect 7");
    assertThat(renamed(roots, FILE, "6 over yellow", "7")).isEqualTo(expected);
    assertThat(renamed(roots, LAID.files().get("layout.yaml"), "6 over yellow", "7"))
        .isEqualTo(LAYOUT.replace("Slow 6", "Slow 7"));
    assertThat(refused("6 over yellow", "4")).contains("listed twice");
    assertThat(refused("6 over yellow", "six")).isNotEmpty();
  }

  @Test
  void what_is_declared_is_found() {
    assertThat(definitions("Slow 4")).isEqualTo(definitions("Slow {x}")).containsExactly("10:8");
    assertThat(definitions("n} over")).containsExactly("10:15");
    assertThat(definitions("6 over yellow")).containsExactly("3:22");
  }

  @Test
  void numbers_are_told() {
    String numbers = "a number: 4, 6; times 10, a speed in km/h";
    assertThat(hover("n} over")).isEqualTo(numbers);
    assertThat(hover("x} over")).isEqualTo(numbers);
    assertThat(hover("Slow {n}\" {")).contains("number 16 up").contains("n: " + numbers);
    assertThat(hover("6 over yellow")).isEqualTo("a number that signals show");
  }

  @Test
  void letters_and_numbers_are_proposed_where_they_may_stand() {
    String aspect = "aspect \"Fast {m}\" { ";
    assertThat(proposals(aspect + "on home show ")).contains("{m}", "4", "6").doesNotContain("{n}");
    assertThat(proposals(aspect + "allows ")).contains("{m}").doesNotContain("{n}");
    assertThat(proposals(aspect + "on home show {")).containsExactly("m");
    assertThat(proposals("aspect \"Go\" { on home show ")).contains("4").doesNotContain("{n}");
    assertThat(proposals("expect ")).contains("{n}", "6");
  }
}
