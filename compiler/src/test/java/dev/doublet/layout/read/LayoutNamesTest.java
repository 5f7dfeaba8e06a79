package dev.doublet.layout.read;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.golden.Case;
import dev.doublet.layout.Layout;
import dev.doublet.source.Mention;
import dev.doublet.source.Mention.Kind;
import dev.doublet.source.Position;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import dev.doublet.syntax.YamlReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Where a layout writes its own names, and those of its rulebook. */
class LayoutNamesTest {
  private static final Path CASES = Path.of("src/test/resources/cases/layout");

  /** What stands under these keys is no name, however it is spelt. */
  private static final Set<String> NO_NAMES =
      Set.of(
          "layout",
          "rulebook",
          "otherwise",
          "scale",
          "eyes",
          "speaks",
          "topics",
          "by",
          "topic",
          "order",
          "family",
          "measured",
          "milliamps",
          "strength",
          "one-is",
          "low-bit",
          "payload",
          "note",
          "lit",
          "check",
          "because",
          "currency",
          "count-as-errors");

  /** Keys of which the values stand under names. */
  private static final Set<String> BY_NAME =
      Set.of("buses", "supplies", "kinds", "controllers", "chains", "colours", "head");

  private static final String BOOK =
      """
      rulebook "Brackwater & Northern"
      speeds in mph { normal maximum }
      colours { red yellow green }
      rhythms { flashing 50 per minute }
      head searchlight { lamp main shows red, green, yellow  figure both lights main in red }
      form one-head { top }
      form two-head { top, bottom }
      plate number
      aspect "Clear" { number 1  allows normal then normal  on one-head, two-head show green or green over green }
      aspect "Stop" { number 0  allows stop  on one-head show red }
      """;

  private static final String LAYOUT =
      """
      layout: "Names \\U0001F682"
      rulebook: book.aspects
      buses: {dcc: {speaks: dcc}, can: {speaks: openlcb}}
      leds: {reel: {colours: {red: [255, 0, 0]}}}
      supplies: {shed: {volts: 5, amps: 2}}
      prices: {head: {searchlight: 3}}
      accept:
      - {check: unanswered-command, of: [W1, west, main, "W3 bottom"], because: it is so}
      kinds:
        one: {form: one-head, heads: [searchlight], plates: [number], aspects: [Stop, Clear], by: aspect-number}
        two: {form: two-head, heads: [searchlight, searchlight], wired: [bottom, top], by: binary-coded, values: {0: Stop, 1: Clear}}
      controllers:
        west:
          flash: 100
          ram: 100
          chains:
            main:
              leds: reel
              supply: shed
              signals:
              - {name: W1, kind: one, bus: dcc}
              - {name: "W🚂2", form: one-head, heads: [searchlight], by: event, events: {Stop: 01.02.03.04.05.06.07.08}}
              - {name: W3, kind: two, heads: [{type: searchlight, shows: ["flashing red", both, dark], by: aspect-number}]}
              - {name: W4}
              - {name: W5, wired: [top, bottom]}
        east:
          flash: 100
          ram: 100
          chains:
            main: {signals: [{name: E1, kind: one}]}
      """;

  static List<String> layouts() {
    List<String> layouts = new ArrayList<>();
    for (String name : List.of("brackwater", "yard", "terminus", "dead-led", "mistakes")) {
      layouts.add("../examples/" + name + "/layout.yaml");
    }
    Case.pages(CASES).forEach(page -> layouts.add(page.toString()));
    return layouts;
  }

  @ParameterizedTest
  @MethodSource("layouts")
  void eachPlaceHoldsTheNameAndNothingElse(String path) {
    for (Mention mention : mentions(path)) {
      if (!mention.span().text().contains("\\")) {
        String written = mention.span().text().replaceAll("^([\"'])(.*)\\1$", "$2");
        boolean signal = mention.kind() == Kind.SIGNAL && mention.declares();
        assertThat(signal ? NameRun.names(written) : List.of(written)).contains(mention.name());
      }
      assertThat(mention.span().file().offset(mention.span().from(), Position.Counting.CODE_POINTS))
          .isEqualTo(mention.span().start());
    }
  }

  @ParameterizedTest
  @MethodSource("layouts")
  void whateverIsWrittenLikeADeclaredNameIsFoundAsOne(String path) {
    List<Mention> all = mentions(path);
    Set<String> declared =
        all.stream().filter(Mention::declares).map(Mention::name).collect(Collectors.toSet());
    Set<Integer> found =
        all.stream()
            .map(Mention::span)
            .filter(span -> LayoutResolver.isLayout(span.file().name()))
            .map(Span::start)
            .collect(Collectors.toSet());
    List<YamlNode.Scalar> missed = new ArrayList<>();
    root(path).ifPresent(node -> scalars(node, "", missed));
    missed.removeIf(s -> !declared.contains(s.text()) || found.contains(s.span().start()));
    assertThat(missed).extracting(s -> s.text() + " at " + s.span().from()).isEmpty();
  }

  @Test
  void everyKindOfNameIsFoundWhereItIsDeclaredAndUsed() {
    List<String> found = new ArrayList<>();
    for (Mention m : small(LAYOUT, BOOK).mentions().all()) {
      if (m.span().file().name().equals("layout.yaml")) {
        String owner = m.owner().isEmpty() ? "" : " of " + m.owner();
        int line = m.span().from().line();
        found.add(line + (m.declares() ? " declares " : " ") + m.kind() + " " + m.name() + owner);
      }
    }
    assertThat(found)
        .containsExactly(
            "3 declares BUS dcc",
            "3 declares BUS can",
            "4 declares LED reel",
            "4 COLOUR red",
            "5 declares SUPPLY shed",
            "6 HEAD searchlight",
            "8 SIGNAL W1",
            "8 CONTROLLER west",
            "8 CHAIN main of west",
            "8 SIGNAL W3",
            "10 declares KIND one",
            "10 FORM one-head",
            "10 HEAD searchlight",
            "10 PLATE number",
            "10 ASPECT Stop",
            "10 ASPECT Clear",
            "11 declares KIND two",
            "11 FORM two-head",
            "11 HEAD searchlight",
            "11 HEAD searchlight",
            "11 PLACE bottom of two-head",
            "11 PLACE top of two-head",
            "11 ASPECT Stop",
            "11 ASPECT Clear",
            "13 declares CONTROLLER west",
            "17 declares CHAIN main of west",
            "18 LED reel",
            "19 SUPPLY shed",
            "21 declares SIGNAL W1",
            "21 KIND one",
            "21 BUS dcc",
            "22 declares SIGNAL W🚂2",
            "22 FORM one-head",
            "22 HEAD searchlight",
            "22 ASPECT Stop",
            "23 declares SIGNAL W3",
            "23 KIND two",
            "23 HEAD searchlight",
            "23 RHYTHM flashing",
            "23 COLOUR red",
            "23 FIGURE both",
            "24 declares SIGNAL W4",
            "25 declares SIGNAL W5",
            "25 PLACE top of two-head",
            "25 PLACE bottom of two-head",
            "26 declares CONTROLLER east",
            "30 declares CHAIN main of east",
            "30 declares SIGNAL E1",
            "30 KIND one");
  }

  @Test
  void aNameOfTheBookIsOneNameInBothFiles() {
    Layout layout = small(LAYOUT, BOOK);
    for (Kind kind : List.of(Kind.ASPECT, Kind.FORM, Kind.HEAD, Kind.COLOUR, Kind.PLATE)) {
      String name =
          layout.mentions().all().stream()
              .filter(m -> m.kind() == kind && m.declares())
              .findFirst()
              .orElseThrow()
              .name();
      List<Mention> places = of(layout, kind, name);
      assertThat(places).filteredOn(Mention::declares).hasSize(1);
      assertThat(places)
          .extracting(m -> m.span().file().name())
          .contains("layout.yaml", "book.aspects");
    }
  }

  @Test
  void chainsOfTwoControllersAreTwoNames() {
    Layout layout = small(LAYOUT, BOOK);
    SourceFile file = layout.span().file();
    int west = LAYOUT.indexOf("main:");
    Mention name = layout.mentions().at(file, west).orElseThrow();
    assertThat(layout.mentions().of(name)).filteredOn(Mention::declares).containsExactly(name);
  }

  @Test
  void columnsAreCountedInBothWays() {
    Mention form =
        of(small(LAYOUT, BOOK), Kind.FORM, "one-head").stream()
            .filter(m -> m.span().from().line() == 22)
            .filter(m -> m.span().file().name().equals("layout.yaml"))
            .findFirst()
            .orElseThrow();
    String line = LAYOUT.lines().toList().get(21);
    int units = line.indexOf("one-head") + 1;
    Span span = form.span();
    assertThat(span.file().position(span.start(), Position.Counting.UTF_16).column())
        .isEqualTo(units);
    assertThat(span.from().column()).isEqualTo(units - 1);
  }

  @Test
  void namesAreFoundThoughTheBookAndTheLayoutAreBroken() {
    Layout layout =
        small(
            LAYOUT.replace("ram: 100", "rom: {").replace("by: aspect-number}", "by: nothing}"),
            BOOK.replace("form one-head { top }", "form one-head { top over }"));
    assertThat(of(layout, Kind.FORM, "one-head"))
        .filteredOn(m -> m.span().file().name().equals("layout.yaml"))
        .isNotEmpty();
    assertThat(of(layout, Kind.FORM, "one-head")).filteredOn(Mention::declares).hasSize(1);
  }

  private static List<Mention> mentions(String path) {
    return LayoutResolver.resolve(file(path), reader(path)).value().stream()
        .flatMap(l -> l.mentions().all().stream())
        .toList();
  }

  private static Optional<YamlNode> root(String path) {
    try {
      return YamlReader.read(reader(path).read(file(path))).value();
    } catch (SourceReader.Unreadable e) {
      throw new AssertionError(e);
    }
  }

  /** Every single value and key that may be a name. */
  private static void scalars(YamlNode node, String under, List<YamlNode.Scalar> found) {
    if (node instanceof YamlNode.Scalar scalar) {
      found.add(scalar);
    } else if (node instanceof YamlNode.Sequence list) {
      list.items().forEach(item -> scalars(item, under, found));
    } else if (node instanceof YamlNode.Mapping mapping) {
      for (YamlNode.Entry entry : mapping.entries()) {
        String key = entry.key().text();
        if (BY_NAME.contains(under)) {
          found.add(entry.key());
          scalars(entry.value(), "", found);
        } else if (!NO_NAMES.contains(key)) {
          scalars(entry.value(), key, found);
        }
      }
    }
  }

  private static String file(String path) {
    return path.endsWith(".md") ? Case.of(Path.of(path)).root() : path;
  }

  private static SourceReader reader(String path) {
    return path.endsWith(".md") ? Case.of(Path.of(path)).reader() : LayoutNamesTest::shipped;
  }

  private static SourceFile shipped(String path) {
    try {
      return new SourceFile(path, Files.readString(Path.of(path)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Layout small(String layout, String book) {
    Map<String, String> files = Map.of("layout.yaml", layout, "book.aspects", book);
    return LayoutResolver.resolve(
            "layout.yaml",
            path ->
                Stream.of(path)
                    .filter(files::containsKey)
                    .map(name -> new SourceFile(name, files.get(name)))
                    .findFirst()
                    .orElseThrow(() -> new SourceReader.Unreadable("there is no such file")))
        .value()
        .orElseThrow();
  }

  private static List<Mention> of(Layout layout, Kind kind, String name) {
    return layout.mentions().all().stream()
        .filter(m -> m.kind() == kind && m.name().equals(name))
        .toList();
  }
}
