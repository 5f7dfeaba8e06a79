package dev.doublet.layout.read;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.golden.Case;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Signal;
import dev.doublet.layout.State;
import dev.doublet.source.Position;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the resolver makes of layouts too long, too odd or too many for a golden case. */
class LayoutResolverTest {
  private static final String BOOK =
      """
      rulebook "Brackwater & Northern" edition 3
      speeds in mph { normal 60  medium 30  restricted 15 on sight }
      colours { red yellow green lunar violet }
      rhythms { flashing 50 per minute }
      head searchlight { lamp main shows red, yellow, green, lunar }
      head odd { lamp main shows red, violet }
      form one-head { top }
      form two-head { top, bottom }
      aspect "Clear" { number 3  allows normal then normal  on one-head show green }
      aspect "Approach" { number 2  allows medium then stop  on one-head show yellow }
      aspect "Restricting" { allows restricted then restricted  on two-head show red over lunar }
      aspect "Limit" { number 1 allows restricted then stop  on one-head show violet }
      aspect "Stop" { number 0  allows stop  on one-head show red  on two-head show red over red }
      """;

  private static final String HEAD =
      """
      layout: Test
      rulebook: book.aspects
      buses: {dcc: {speaks: dcc}, house: {speaks: mqtt, topics: bnr}, can: {speaks: openlcb}}
      kinds:
        one: {form: one-head, heads: [searchlight], by: aspect-number}
        two: {form: two-head, heads: [searchlight, searchlight]}
      controllers:
        west:
          flash: 100
          ram: 100
          chains:
            main:
              signals:
      """;

  @Test
  void twelveSignalsFitInThirtyLines() {
    Case small = Case.of(Path.of("src/test/resources/cases/layout/twelve-signals.md"));
    Layout layout = LayoutResolver.resolve(small.root(), small.reader()).value().orElseThrow();
    assertThat(layout.controllers().get(0).units()).hasSize(12);
    assertThat(small.files().get("layout.yaml").lines()).hasSizeLessThanOrEqualTo(30);
  }

  @Test
  void equalKindsAndBuildsAreTheSameObjects() {
    List<Signal> signals =
        signals(
            """
            - {name: W1, kind: one}
            - {name: W2, kind: one, by: aspect-number}
            - {name: W3, form: one-head, heads: [searchlight], by: aspect-number}
            - {name: W4, kind: one, aspects: [Stop, Clear]}
            """);
    Signal first = signals.get(0);
    assertThat(signals.get(1).units().get(0).kind()).isSameAs(first.units().get(0).kind());
    assertThat(signals.get(2).units().get(0).kind()).isSameAs(first.units().get(0).kind());
    assertThat(signals.get(3).units().get(0).kind()).isNotEqualTo(first.units().get(0).kind());
    assertThat(signals.get(1).build()).isSameAs(first.build());
    assertThat(signals.get(2).build()).isSameAs(first.build());
  }

  @Test
  void aspectsThatCannotBeShownStayInTheBuildOnly() {
    Signal signal =
        signals(
                """
                - {name: W1, kind: two, by: binary-coded, aspects: [Clear, Restricting, Stop]}
                """)
            .get(0);
    assertThat(signal.build().aspects()).hasSize(3);
    assertThat(signal.build().asked()).isTrue();
    Kind kind = signal.units().get(0).kind();
    assertThat(kind.stateNames()).containsExactly("Restricting", "Stop");
    assertThat(kind.rest()).isEqualTo(1);
    assertThat(kind.answers()).containsExactly(new Answer(1, 0), new Answer(2, 1));
    assertThat(kind.states()).extracting(State::number).containsExactly(1, 2);
  }

  @Test
  void aWrongKindUsedAHundredTimesIsOneMessage() {
    String many =
        IntStream.range(0, 100)
            .mapToObj(i -> "- {name: W%d, kind: oen}\n".formatted(i))
            .collect(Collectors.joining());
    Diagnostic only = only(many);
    assertThat(only.name()).isEqualTo("unknown-name");
    assertThat(only.message()).isEqualTo("no kind is called \"oen\"");
    assertThat(only.facts().get(0).value()).isEqualTo("100 times");
    assertThat(only.fixes().get(0).edits().get(0).replacement()).isEqualTo("one");
  }

  @Test
  void aMistakeInAKindIsOneMessageHoweverManySignalsAreOfIt() {
    String head = HEAD.replace("heads: [searchlight], by", "heads: [serchlight], by");
    Outcome<Layout> outcome =
        resolve(head + "          - {name: A, kind: one}\n          - {name: B}\n");
    assertThat(outcome.diagnostics())
        .filteredOn(Diagnostic::isFinding)
        .extracting(Diagnostic::name)
        .containsExactly("unknown-name");
  }

  /** Each line is one signal after W0, which is of kind one at address 1 and LED 1. */
  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "{name: W0}                              | duplicate-name | two signals are called \"W0\"",
        "{name: A, led: 1}                       | led-overlap | signals \"W0\" and \"A\" both hang on LED 1",
        "{name: A, address: 0}                   | out-of-range | \"address\" cannot be 0",
        "{name: A, address: 2049}                | out-of-range | \"address\" cannot be 2049",
        "{name: A, address: -1}                  | out-of-range | \"address\" cannot be -1",
        "{name: A, kind: two, by: binary-coded, address: 2048, bits: 2} | out-of-range | bus \"dcc\" would need address 2049",
        "{name: A, led: 0}                       | out-of-range | \"led\" cannot be 0",
        "{name: A, led: 65535, kind: two, by: binary-coded} | far-led | LED 65535 lies 65533 LEDs beyond the signal before",
        "{name: A, kind: two, by: aspect-number} | missing-key | aspect \"Restricting\" has no number to call it up by",
        "{name: A, kind: two, by: topic, payload: number} | missing-key | aspect \"Restricting\" has no number to call it up by",
        "{name: A, kind: two}                    | missing-key | this does not say what it is commanded by",
        "{name: A, kind: one, by: event}         | missing-key | nothing says which events call up this signal's aspects",
        "{name: A, kind: one, by: event, first-event: 1.2.3} | malformed-value | \"first-event\" cannot be \"1.2.3\"",
        "{name: A, by: event, first-event: FF.FF.FF.FF.FF.FF.FF.FE} | out-of-range | there are no events so far after FF.FF.FF.FF.FF.FF.FF.FE",
        "{name: A, by: event, events: {Stop: 01.02.03.04.05.06.07.08, Claer: 01.02.03.04.05.06.07.09}} | unknown-name | no aspect is called \"Claer\"",
        "{name: A, by: event, aspects: [Stop, Clear], events: {Stop: 01.02.03.04.05.06.07.08}} | missing-key | no event calls up \"Clear\"",
        "{name: A, by: topic, topic: bnr/+}      | malformed-value | \"bnr/+\" is no topic: \"+\" stands for other topics, and names none",
        "{name: A#, by: topic}                   | malformed-value | \"bnr/A#\" is no topic: \"#\" stands for other topics, and names none",
        "{name: A, bus: house}                   | command-keys | bus \"house\" speaks mqtt, but aspect-number needs one that speaks dcc",
        "{name: A, bus: hose}                    | unknown-name | no bus is called \"hose\"",
        "{name: A, topic: x}                     | command-keys | \"topic\" does not go with by: aspect-number",
        "{name: A, by: topic, address: 3}        | command-keys | \"address\" does not go with by: topic",
        "{name: A, by: binary-coded, address: 3, addresses: [4, 5]} | command-keys | \"address\" and \"addresses\" both say where it listens",
        "{name: A, by: binary-coded, addresses: [4, 5], bits: 3} | wrong-count | 3 bits cannot travel on 2 addresses",
        "{name: A, by: binary-coded, addresses: [4, 4096]} | out-of-range | \"addresses\" cannot be 4096",
        "{name: A, by: binary-coded, bits: 5}    | out-of-range | \"bits\" cannot be 5",
        "{name: A, by: binary-coded, values: {16: Stop}} | out-of-range | \"values\" cannot be 16, as binary-coded carries 0 to 15",
        "{name: A, by: binary-coded, values: {0: Stopp}} | unknown-name | no aspect is called \"Stopp\"",
        "{name: A, by: binary-coded, aspects: [Stop], values: {0: Clear}} | unknown-name | no aspect of this signal is called \"Clear\"",
        "{name: A, aspects: []}                  | empty-value | \"aspects\" lists nothing",
        "{name: A, aspects: [Stop, Stop]}        | duplicate-name | \"aspects\" lists \"Stop\" twice",
        "{name: A, aspects: Stop}                | wrong-type | \"aspects\" takes a list of aspects, not a single value",
        "{name: A, address: [3]}                 | wrong-type | \"address\" takes a whole number from 1 to 2048, not a list",
        "{name: A, address: }                    | wrong-type | \"address\" takes a whole number from 1 to 2048, not nothing",
        "{name: A, values: {9: Stop}}            | contradiction | \"Stop\" is value 9 here, and number 0 in the rulebook",
        "{name: A, heads: [{type: searchlight, shows: [red], by: aspect-number}]} | command-keys | \"by\" stands beside heads that are commanded by themselves",
        "{name: A, form: two-head, heads: [searchlight, {type: searchlight, shows: [red], by: aspect-number}]} | command-keys | this head is commanded by itself, but another head of its signal is not",
        "{name: A, form: one-head, heads: [{type: searchlight, shows: [blue], by: aspect-number}]} | unknown-name | no display of head searchlight is called \"blue\"",
        "{name: A, form: one-head, heads: [{type: searchlight, shows: [], by: aspect-number}]} | empty-value | \"shows\" lists nothing",
        "{name: A, form: one-head, heads: [{shows: [red], by: aspect-number}]} | missing-key | this head has no \"type\"",
        "{name: A, form: one-head, heads: [{type: searchlight, shows: [red]}]} | missing-key | this head has no \"by\"",
        "{name: A, form: one-head, heads: [{type: searchlight, shows: [red], by: event, events: {rad: 01.02.03.04.05.06.07.08}}]} | unknown-name | no display of this head is called \"rad\"",
        "{name: A, wired: [bottom]}              | unknown-name | no place of form one-head is called \"bottom\"",
        "{name: A, plates: [number]}             | unknown-name | no plate is called \"number\"",
        "{name: A, heads: [odd]}                 | missing-key | LEDs of kind \"rgb\" are not told how to show \"violet\"",
        "{gap: 0}                                | out-of-range | \"gap\" cannot be 0",
        "{gap: 2, name: A}                       | unknown-key | a gap has no key \"name\"",
        "W1                                      | wrong-type | \"signals\" takes signals such as {name: W1}, not a single value"
      })
  void oneMistakeGivesOneMessage(String signal, String name, String message) {
    Diagnostic only = only("- {name: W0, kind: one}\n- " + signal + "\n");
    assertThat(only.message()).isEqualTo(message);
    assertThat(only.name()).isEqualTo(name);
    assertThat(only.help()).isNotEmpty();
  }

  @Test
  void signalsThatFollowAnOverlapDoNotRepeatIt() {
    Diagnostic only =
        only(
            """
            - {name: W0, kind: one}
            - {name: W1}
            - {name: W2}
            - {name: W3, led: 1}
            - {name: W4}
            - {name: W5}
            """);
    assertThat(only.message()).isEqualTo("signals \"W0\" and \"W3\" both hang on LED 1");
    assertThat(only.related()).hasSize(1);
  }

  @Test
  void aMissingRulebookIsSaidWhereItIsNamed() {
    Outcome<Layout> outcome =
        LayoutResolver.resolve(
            "club/west/layout.yaml",
            reader(Map.of("club/west/layout.yaml", "layout: A\nrulebook: ../books/b.aspects\n")));
    assertThat(outcome.diagnostics())
        .extracting(Diagnostic::message)
        .contains("club/books/b.aspects cannot be read: there is no such file");
    Diagnostic missing = outcome.diagnostics().get(1);
    assertThat(missing.name()).isEqualTo("missing-file");
    assertThat(missing.primary().span().from()).isEqualTo(new Position(2, 11));
  }

  @Test
  void aMissingLayoutIsOneMessage() {
    Outcome<Layout> outcome = LayoutResolver.resolve("nowhere.yaml", reader(Map.of()));
    assertThat(outcome.diagnostics()).extracting(Diagnostic::name).containsExactly("missing-file");
  }

  @Test
  void whatIsSaidOfTheRulebookIsPassedOn() {
    Outcome<Layout> outcome =
        LayoutResolver.resolve(
            "layout.yaml",
            reader(
                Map.of(
                    "layout.yaml",
                    HEAD + "          - {name: W1, kind: one}\n",
                    "book.aspects",
                    BOOK.replace("show green", "show gren"))));
    assertThat(outcome.diagnostics())
        .extracting(d -> d.primary().span().file().name())
        .containsExactly("book.aspects");
    Layout read = outcome.value().orElseThrow();
    assertThat(read.rulebook().isWhole()).isFalse();
    assertThat(read.controllers().get(0).signals()).extracting(Signal::name).containsExactly("W1");
  }

  @ParameterizedTest
  @CsvSource({
    "layout.yaml,              book.aspects,             book.aspects",
    "a/b/layout.yaml,          ../../r/book.aspects,     r/book.aspects",
    "a/layout.yaml,            ./book.aspects,           a/book.aspects",
    "layout.yaml,              ../book.aspects,          ../book.aspects",
    "../a/layout.yaml,         ../../book.aspects,       ../../book.aspects",
    "/a/b/layout.yaml,         ../book.aspects,          /a/book.aspects",
    "layout.yaml,              .,                        .",
    "a/layout.yaml,            ..,                       .",
    "a/layout.yaml,            /r/book.aspects,          /r/book.aspects"
  })
  void aPathIsReadFromTheFolderOfTheLayout(String layout, String book, String expected) {
    assertThat(SourceReader.beside(layout, book)).isEqualTo(expected);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "''                  | yaml-syntax",
        "%                   | yaml-syntax",
        "just words          | wrong-type",
        "[a, list]           | wrong-type",
        "a: &a [*a, *a]      | yaml-anchors",
        "layout: [1, 2       | yaml-syntax"
      })
  void whatIsNoLayoutAtAllIsRefused(String text, String name) {
    assertThat(resolve(text).diagnostics()).extracting(Diagnostic::name).contains(name);
  }

  @Test
  void aFileThatIsNotTextIsRefused() {
    assertThat(resolve("\0\1\2").diagnostics().get(0).message())
        .isEqualTo("layout.yaml is not a text: it holds the character U+0000");
  }

  @Test
  void oneLineOfTenMegabytesIsRefused() {
    assertThat(only("- {name: " + "W".repeat(10_000_000) + ", kind: one}\n").message())
        .isEqualTo("this line is longer than 1000000 characters");
  }

  @Tag("slow")
  @Test
  void twentyThousandSignalsShareTheirKinds() {
    StringBuilder many = new StringBuilder();
    for (int i = 0; i < 20_000; i++) {
      many.append("- {name: W%d, kind: one, address: %d}\n".formatted(i, i % 2_000 + 1));
    }
    List<Signal> signals = signals(many.toString());
    assertThat(signals.stream().map(s -> System.identityHashCode(s.build())).distinct()).hasSize(1);
    assertThat(signals.get(19_999).units().get(0).led()).isEqualTo(19_999);
  }

  private static List<Signal> signals(String signals) {
    Outcome<Layout> outcome = resolve(HEAD + signals.indent(10));
    assertThat(outcome.diagnostics()).filteredOn(Diagnostic::isFinding).isEmpty();
    return outcome.value().orElseThrow().controllers().get(0).signals();
  }

  private static Diagnostic only(String signals) {
    List<Diagnostic> all =
        resolve(HEAD + signals.indent(10)).diagnostics().stream()
            .filter(Diagnostic::isFinding)
            .toList();
    assertThat(all).hasSize(1);
    return all.get(0);
  }

  private static Outcome<Layout> resolve(String text) {
    return LayoutResolver.resolve(
        "layout.yaml", reader(Map.of("layout.yaml", text, "book.aspects", BOOK)));
  }

  private static SourceReader reader(Map<String, String> files) {
    return path -> {
      if (!files.containsKey(path)) {
        throw new SourceReader.Unreadable("there is no such file");
      }
      return new SourceFile(path, files.get(path));
    };
  }
}
