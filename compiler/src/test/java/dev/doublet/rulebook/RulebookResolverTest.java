package dev.doublet.rulebook;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Severity;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What a correct rulebook becomes. */
class RulebookResolverTest {
  private static final String BOOK =
      """
      rulebook "Brackwater & Northern" edition 3 effective 1957-06-01
      use "parts/heads.aspects"

      speeds in mph { normal maximum  limited 45   restricted 15 on sight  as-instructed unranked }
      colours { red yellow, green }   # commas as you like
      rhythms { flashing 50 per minute   winking 100 per minute lit 30 percent }
      form one-head { top }
      form low dwarf { top, bottom } without stop
      plate number, L

      aspect "Clear" {
        on one-head show green
        allows normal then limited then restricted at the second signal
        rule 414A  number 9  indicates "Proceed."
        on low with number and L plates show flashing red over (dark or winking green) or any over red
      }
      aspect "Stop and Proceed" { allows stop, then restricted  on one-head show red }
      aspect "Diverging" { allows as-instructed then normal at the second signal  on one-head show yellow }
      """;
  private static final String HEADS =
      """
      colours { lunar }
      head two-yellow  { lamp upper, lower shows yellow  lamp green, other shows green red
                         figure yellow lights lower
                         figure double-yellow lights other in red, upper, lower in yellow }
      """;

  private final Map<String, String> files =
      Map.of("books/b.aspects", BOOK, "books/parts/heads.aspects", HEADS);
  private final Outcome<Rulebook> outcome = RulebookResolver.resolve("books/b.aspects", reader());
  private final Rulebook book = outcome.value().orElseThrow();

  private SourceReader reader() {
    return path -> {
      if (!files.containsKey(path)) {
        throw new SourceReader.Unreadable("there is no such file");
      }
      return new SourceFile(path, files.get(path));
    };
  }

  @Test
  void saysNothingOfACorrectBook() {
    assertThat(outcome.diagnostics()).extracting(Diagnostic::message).isEmpty();
  }

  @Test
  void keepsWhatTheFirstLineSays() {
    assertThat(book.title()).isEqualTo("Brackwater & Northern");
    assertThat(book.edition()).isEqualTo(3);
    assertThat(book.effective()).isEqualTo("1957-06-01");
    assertThat(book.unit()).isEqualTo("mph");
  }

  @Test
  void readsPermissions() {
    assertThat(book.aspects())
        .extracting(a -> a.permission().words())
        .containsExactly(
            "normal then limited then restricted at the second signal",
            "as-instructed then normal at the second signal",
            "stop, then restricted");
  }

  @Test
  void readsFactsAndPatternsOfAnAspect() {
    Aspect clear = book.aspect("Clear").orElseThrow();
    assertThat(clear.rule()).isEqualTo("414A");
    assertThat(clear.number()).isEqualTo(9);
    assertThat(clear.indication()).isEqualTo("Proceed.");
    assertThat(clear.patterns())
        .extracting(p -> p.form().name() + " " + p.plates() + " " + p.words())
        .containsExactly(
            "one-head [] green",
            "low [L, number] flashing red over (dark or winking green)",
            "low [L, number] any over red");
    assertThat(book.aspect("Diverging").orElseThrow().number()).isEqualTo(Aspect.NO_NUMBER);
  }

  @Test
  void readsFormsRhythmsAndSpeeds() {
    Form low = book.form("low").orElseThrow();
    assertThat(low.mount()).isEqualTo(Mount.DWARF);
    assertThat(low.places()).containsExactly("top", "bottom");
    assertThat(low.withoutStop()).isTrue();
    assertThat(book.form("one-head").orElseThrow().mount()).isEqualTo(Mount.IN_LINE);
    assertThat(book.rhythm("flashing").orElseThrow().litPercent()).isEqualTo(50);
    assertThat(book.rhythm("winking").orElseThrow().litPercent()).isEqualTo(30);
    assertThat(book.speeds())
        .extracting(s -> s.name() + " " + s.rank() + " " + s.figure() + " " + s.onSight())
        .containsExactly(
            "as-instructed UNRANKED 0 false",
            "limited FIGURE 45 false",
            "normal MAXIMUM 0 false",
            "restricted FIGURE 15 true");
  }

  @Test
  void readsHeadsOfUsedFiles() {
    HeadType head = book.heads().get(0);
    assertThat(head.lamps())
        .extracting(Lamp::name)
        .containsExactly("upper", "lower", "green", "other");
    assertThat(head.lights("yellow")).contains(List.of(new Lit(1, "yellow")));
    assertThat(head.lights("double-yellow"))
        .contains(List.of(new Lit(0, "yellow"), new Lit(1, "yellow"), new Lit(3, "red")));
  }

  @Test
  void anAspectLikeAnotherHasItsPatternsAndWhatThePlateMakesOfItsPermission() {
    Rulebook said =
        book(
            """
            plate DV turns slow into diverging
            plate heavy turns normal into slow
            aspect "Heavy" { as "Clear to Diverging" on two-head with heavy plate }
            aspect "Clear to Diverging" { as "Clear to Slow" with DV plate  on low show yellow }
            aspect "Clear to Slow" { allows normal then slow
              on two-head show yellow over yellow  on low show green }
            """);
    assertThat(patterns(said, "Clear to Slow"))
        .containsExactly("two-head [] yellow over yellow", "low [] green");
    assertThat(patterns(said, "Clear to Diverging"))
        .containsExactly("low [] yellow", "two-head [DV] yellow over yellow", "low [DV] green");
    assertThat(patterns(said, "Heavy")).containsExactly("two-head [DV, heavy] yellow over yellow");
    assertThat(said.aspects())
        .extracting(a -> a.name() + ": " + a.permission().words())
        .containsExactly(
            "Clear to Diverging: normal then diverging",
            "Clear to Slow: normal then slow",
            "Heavy: slow then diverging");
  }

  @Test
  void anAspectLikeAnotherMayAllowWhatItSays() {
    Rulebook said =
        book(
            """
            plate DV turns slow into diverging
            aspect "Slow" { allows slow  on low show green }
            aspect "As Told" { as "Slow" with DV plate  allows normal then slow }
            """);
    assertThat(said.aspect("As Told").orElseThrow().permission().words())
        .isEqualTo("normal then slow");
  }

  @Test
  void patternsOfALikenessPointAtItsLine() {
    Rulebook said =
        book(
            """
            plate DV turns stop, then slow into slow
            aspect "Slow" { as "Stop and Proceed" with DV plate }
            aspect "Stop and Proceed" { allows stop, then slow  on low show yellow or green }
            """);
    Aspect slow = said.aspect("Slow").orElseThrow();
    String line = "as \"Stop and Proceed\" with DV plate";
    assertThat(slow.patterns()).extracting(p -> p.span().text()).containsExactly(line, line);
    assertThat(slow.permissionSpan().text()).isEqualTo(line);
    assertThat(slow.permission().words()).isEqualTo("slow");
  }

  @Test
  void aLongChainOfLikenessesIsFollowedToItsEnd() {
    StringBuilder part = new StringBuilder("plate DV turns slow into diverging\n");
    part.append("aspect \"A0\" { allows slow  on low show green }\n");
    for (int i = 10_000; i > 0; i--) {
      String allows = i == 1 ? "" : " allows diverging";
      part.append(
          "aspect \"A" + i + "\" { as \"A" + (i - 1) + "\" with DV plate" + allows + " }\n");
    }
    assertThat(patterns(book(part.toString()), "A10000")).containsExactly("low [DV] green");
  }

  @Test
  void timesOfARhythmAreTheNearestMilliseconds() {
    // 60,000 / 90 = 666.67, of which half is 333.5; by arithmetic.
    Rhythm ninety = new Rhythm("ninety", 90, 50, false, book.span());
    assertThat(ninety.periodMillis()).isEqualTo(667);
    assertThat(ninety.litMillis()).isEqualTo(334);
  }

  @Test
  void theOrderOfCoversAndExpectationsDoesNotMatter() {
    String covers =
        """
        cover lamp-out on low because "one"
        cover plate-lost on low because "one"
        cover lamp-out on two-head because "one"
        cover lamp-out on low because "another"
        """;
    String expectations =
        """
        expect green on low means nothing
        expect yellow on low means "Slow"
        expect green on low with DV plate means "Slow"
        expect "Slow" less restrictive than "Stop"
        expect "Stop" more restrictive than "Slow"
        """;
    String rest =
        """
        plate DV turns slow into diverging
        aspect "Slow" { allows slow  on low show yellow  on low with DV plate show green }
        aspect "Stop" { allows stop }
        """;
    Rulebook one = book(covers + rest + expectations);
    Rulebook other = book(rest + reversed(expectations) + reversed(covers));
    assertThat(covers(one)).hasSize(4).isEqualTo(covers(other));
    assertThat(one.expectations().stream().map(Expectation::words))
        .containsExactlyElementsOf(other.expectations().stream().map(Expectation::words).toList())
        .contains("green on low with DV plate means \"Slow\"", "green on low means nothing");
  }

  private static List<String> covers(Rulebook book) {
    return book.failures().covers().stream()
        .map(c -> c.reason() + " " + c.faults() + " " + c.forms().stream().map(Form::name).toList())
        .toList();
  }

  private static String reversed(String lines) {
    List<String> each = new ArrayList<>(lines.lines().toList());
    Collections.reverse(each);
    return String.join("\n", each) + "\n";
  }

  @Test
  void aBookThatIsNotThereIsOneFinding() {
    Outcome<Rulebook> none = RulebookResolver.resolve("books/none.aspects", reader());
    assertThat(none.value().orElseThrow().isWhole()).isFalse();
    assertThat(none.diagnostics()).extracting(Diagnostic::name).containsExactly("missing-file");
  }

  private static Rulebook book(String part) {
    String whole =
        """
        rulebook "Brackwater & Northern"
        speeds in mph { normal 60  diverging 25  slow 15 }
        colours { yellow green }
        form two-head { top, bottom }
        form low dwarf { top }
        """
            + part;
    Outcome<Rulebook> outcome =
        RulebookResolver.resolve("b.aspects", path -> new SourceFile(path, whole));
    assertThat(outcome.diagnostics())
        .filteredOn(d -> d.severity() != Severity.NOTE)
        .extracting(Diagnostic::message)
        .isEmpty();
    return outcome.value().orElseThrow();
  }

  private static List<String> patterns(Rulebook book, String aspect) {
    return book.aspect(aspect).orElseThrow().patterns().stream()
        .map(p -> p.form().name() + " " + p.plates() + " " + p.words())
        .toList();
  }
}
