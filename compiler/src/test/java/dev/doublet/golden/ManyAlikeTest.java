package dev.doublet.golden;

import static java.util.stream.Collectors.joining;
import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.CheckOptions;
import dev.doublet.report.Summary;
import dev.doublet.source.SourceFile;
import java.time.Duration;
import java.util.List;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.function.ThrowingSupplier;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * A mistake made a thousand times is told in a page or two, in seconds. The limits of time are far
 * from what is measured, and near what a square of the number would take.
 */
@Tag("slow")
class ManyAlikeTest {
  private static final int MANY = 1_000;
  private static final Duration LONG = Duration.ofSeconds(60);
  private static final int MOST_DRAWN = 30;

  /** What may be there often in a book. */
  enum Often {
    ASPECTS_OF_ONE_PICTURE(
        "twin-aspects",
        10_000,
        i -> aspect("A" + i, "normal then normal", "on one show green"),
        ""),
    ASPECTS_OF_ONE_RULE(
        "shared-rule",
        10_000,
        i -> aspect("A" + i, "normal then normal", "on one show green  rule 7"),
        ""),
    ASPECTS_OF_ONE_INDICATION(
        "shared-indication",
        10_000,
        i -> aspect("A" + i, "normal then normal", "on one show green  indicates \"Go.\""),
        ""),
    ASPECTS_OF_ONE_PICTURE_READ_AS_LIT(
        "twin-aspects",
        MANY,
        i -> aspect("A" + i, "normal then normal", "on one show green"),
        "lit"),
    ASPECTS_OF_ONE_PICTURE_AND_MANY_SPEEDS(
        "twin-aspects",
        MANY,
        i -> aspect("A" + i, "v" + i + " then v" + i * 7 % MANY, "on one show green"),
        ""),
    ASPECTS_OF_A_PICTURE_IN_COMMON(
        "twin-aspects",
        MANY,
        i -> aspect("A" + i, "normal then normal", "on one show c" + i + " or green"),
        ""),
    ASPECTS_THAT_MEET_TWO_BY_TWO(
        "twin-aspects",
        MANY,
        i ->
            aspect(
                "A" + i, "normal then normal", "on two show c" + i + " over any or any over c" + i),
        ""),
    ASPECTS_OF_ONE_LAMP_BY_NIGHT(
        "twins-by-night", 30, i -> aspect("A" + i, "normal then normal", "on arms show p" + i), ""),
    ASPECTS_WITH_PLATES(
        "twin-aspects",
        MANY,
        i ->
            aspect(
                "A" + i,
                "normal then normal",
                "on one with " + (i % 2 == 0 ? "p" : "q") + " plate show green"),
        ""),
    ASPECTS_WITH_A_PLATE_EACH(
        "twin-aspects",
        300,
        i -> aspect("A" + i, "normal then normal", "on one with x" + i + " plate show green"),
        ""),
    ASPECTS_OF_ONE_NUMBER(
        "duplicate-name",
        MANY,
        i -> aspect("A" + i, "normal then normal", "on one show green  number 7"),
        ""),
    ASPECTS_THAT_RHYTHMS_TELL_APART(
        "flash-only-difference",
        MANY,
        i -> aspect("A" + i, "normal then normal", "on one show r" + i + " green"),
        ""),
    LONE_WHITES(
        "lone-white",
        MANY,
        i -> aspect("A" + i, "normal then normal", "on one show r" + i + " white"),
        ""),
    EXPECTATIONS_THAT_FAIL(
        "failed-expectation", MANY, i -> "expect red on one means nothing\n", ""),
    IDLE_ACCEPTANCES(
        "idle-acceptance",
        MANY,
        i -> "accept two-names-one-meaning of \"Stop\" because \"of old " + i + "\"\n",
        ""),
    UNKNOWN_COLOURS(
        "unknown-name",
        MANY,
        i -> aspect("A" + i, "normal then normal", "on one show gren" + i),
        ""),
    UNKNOWN_SPEEDS("unknown-name", MANY, i -> aspect("A" + i, "w" + i, "on one show green"), ""),
    ASPECTS_OF_ONE_NAME(
        "duplicate-name", MANY, i -> aspect("A", "normal then normal", "on one show green"), ""),
    MISSPELT_WORDS(
        "syntax", MANY, i -> aspect("A" + i, "normal then normal", "on one shw green"), ""),
    FORMS_WITHOUT_STOP(
        "no-stop-on-form",
        MANY,
        i -> "form f" + i + " { top }\n" + aspect("A" + i, "normal", "on f" + i + " show green"),
        ""),
    ANNOUNCEMENTS_OF_ONE_SPEED(
        "unmet-announcement",
        MANY,
        i -> aspect("A" + i, "normal then v1 ", "on one show green"),
        ""),
    ARMS_OF_AN_UNKNOWN_COLOUR(
        "unknown-name", MANY, i -> "arm a" + i + " shows level in red, raised in gren\n", ""),
    LOOK_ALIKE_LETTERS(
        "look-alike-letters",
        MANY,
        i -> aspect("Cl\u0435ar" + i, "normal then normal", "on one show green"),
        ""),
    PATTERNS_OF_ONE_ASPECT(
        "repeated-pattern",
        1,
        i -> aspect("A", "normal", "on one show green" + " or green".repeat(150_000)),
        ""),
    UNUSED_PLATES("unused-name", MANY, i -> "plate x" + i + "\n", "");

    private final String name;
    private final int count;
    private final IntFunction<String> line;
    private final String imperfect;

    Often(String name, int count, IntFunction<String> line, String imperfect) {
      this.name = name;
      this.count = count;
      this.line = line;
      this.imperfect = imperfect;
    }

    String book() {
      boolean speeds = line.apply(1).contains("v1 ");
      boolean colours = line.apply(1).contains("c1");
      boolean plates = line.apply(1).contains("with x1 ");
      boolean arms = line.apply(1).contains("arms");
      boolean rhythms = line.apply(1).contains("r1 ");
      return """
          rulebook "Many" edition 1
          speeds in mph { normal 60 %s }
          colours { red yellow green white %s }
          form one { top }
          form two { top, bottom }
          plate p  plate q %s
          imperfect signals read as %s
          %s
          aspect "Stop" { number 0  allows stop  on one show red  on two show red over red }
          %s%s"""
          .formatted(
              speeds ? each(i -> "v" + i + " " + (i % 200 + 1)) : "",
              colours ? each(i -> "c" + i + " as green") : "",
              plates ? each(i -> "plate x" + i) : "",
              imperfect.isEmpty() ? "most restrictive" : imperfect,
              arms
                  ? "form arms { left }  arm a shows "
                      + IntStream.range(0, 30)
                          .mapToObj(i -> "p" + i + " in green")
                          .collect(joining(", "))
                  : "",
              rhythms
                  ? "rhythms { " + each(i -> "r" + i + " " + (i % 600 + 1) + " per minute") + " }\n"
                  : "",
              IntStream.range(0, count).mapToObj(line).collect(joining()));
    }

    private static String each(IntFunction<String> word) {
      return IntStream.range(0, MANY).mapToObj(word).collect(joining("  "));
    }

    private static String aspect(String name, String allows, String shows) {
      return "aspect \"" + name + "\" { allows " + allows + "  " + shows + " }\n";
    }
  }

  /** What may be there often in a layout: a signal, a controller or a bus. */
  enum OftenInLayout {
    SIGNALS_ON_ONE_LED("led-overlap", 1, i -> signal(i, "led: 1")),
    SIGNALS_OF_ONE_ADDRESS("address-clash", 1, i -> signal(i, "address: 1")),
    SIGNALS_OF_ADDRESSES_IN_PAIRS(
        "address-clash", MANY / 2, i -> signal(i, "address: " + (i / 2 + 1))),
    MISSPELT_KEYS("unknown-key", 1, i -> signal(i, "adress: " + (i + 1))),
    MISSPELT_WORDS("unknown-word", 1, i -> signal(i, "lit: alwys")),
    BOARDS_OF_ONE_NAME(
        "duplicate-name", 1, i -> "        - {board: B, sockets: 1}\n" + signal(i, "")),
    CONTROLLERS_OF_AN_UNKNOWN_BOARD("unknown-word", 1, i -> controller(i, "board: avr", "")),
    CONTROLLERS_WITHOUT_MEMORY(
        "memory-too-small", 2 * MANY, i -> controller(i, "flash: 9, ram: 9", "")),
    CHAINS_OF_AN_UNKNOWN_LED(
        "unknown-name", 1, i -> controller(i, "board: avr-16mhz", "leds: rell, ")),
    WEAK_SUPPLIES(
        "supply-too-small",
        MANY,
        i -> controller(i, "board: avr-16mhz", "supply: {volts: 5, amps: 0.001}, "));

    private final String name;
    private final int findings;
    private final IntFunction<String> line;

    OftenInLayout(String name, int findings, IntFunction<String> line) {
      this.name = name;
      this.findings = findings;
      this.line = line;
    }

    private static String signal(int i, String more) {
      return "        - {name: S" + i + ", kind: k, " + more + "}\n";
    }

    private static String controller(int i, String board, String chain) {
      return "  c%d: {%s, chains: {m: {%ssignals: [{name: S%d, kind: k}]}}}\n"
          .formatted(i, board, chain, i);
    }

    String layout() {
      String lines = IntStream.range(0, MANY).mapToObj(line).collect(joining());
      String one = "  one:\n    board: avr-16mhz\n    chains:\n      m:\n        signals:\n";
      return """
          layout: Many
          rulebook: book.aspects
          otherwise: most-restrictive
          kinds: {k: {form: one, heads: [s], by: aspect-number}}
          controllers:
          """
          + (lines.startsWith("   ") ? one : "")
          + lines;
    }
  }

  private static final String BOOK =
      """
      rulebook "Many" edition 1
      speeds in mph { normal 60 }
      colours { red green }
      head s { lamp l shows red, green }
      form one { top }
      aspect "Stop" { number 0  allows stop  on one show red }
      aspect "Clear" { number 1  allows normal then stop  on one show green }
      """;

  @ParameterizedTest
  @EnumSource
  void is_told_in_a_page_or_two(Often often) {
    String book = often.book();
    List<Diagnostic> said =
        inTime(
            () ->
                Compiler.checkRulebook(
                    "book.aspects", path -> new SourceFile(path, book), CheckOptions.ALL));
    assertThat(said).hasSizeLessThan(4 * MANY).anyMatch(d -> d.name().equals(often.name));
  }

  @ParameterizedTest
  @EnumSource
  void is_told_of_a_layout_in_a_page_or_two(OftenInLayout often) {
    String layout = often.layout();
    List<Diagnostic> said =
        inTime(
            () ->
                Compiler.checkLayout(
                    "layout.yaml",
                    path -> new SourceFile(path, path.endsWith("yaml") ? layout : BOOK),
                    CheckOptions.ALL));
    assertThat(said)
        .extracting(Diagnostic::name)
        .filteredOn(often.name::equals)
        .hasSize(often.findings);
  }

  private static List<Diagnostic> inTime(ThrowingSupplier<Compiler.Checked<?>> checking) {
    Compiler.Checked<?> checked = Assertions.assertTimeoutPreemptively(LONG, checking);
    List<Diagnostic> said = checked.diagnostics();
    String text = Summary.of(said, 1, checked.skipped(), true).text(false);
    assertThat(text.length()).isLessThan(200_000);
    said.stream()
        .map(d -> "  [" + d.name() + "]\n")
        .distinct()
        .forEach(
            name ->
                assertThat(text.split(java.util.regex.Pattern.quote(name), -1).length - 1)
                    .as(name)
                    .isLessThanOrEqualTo(3 * MOST_DRAWN));
    return said;
  }
}
