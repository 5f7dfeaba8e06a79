package dev.doublet.page;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.bench.GeneratedBook;
import dev.doublet.colour.Chromaticity;
import dev.doublet.facts.CheckOptions;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Lit;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.Sequence;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.source.Span;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

class AspectChartTest {
  private static final Path RULEBOOKS = Path.of("../rulebooks");
  private static final java.util.regex.Pattern ENDS =
      java.util.regex.Pattern.compile(" (\\d+)H255");

  static Stream<Path> books() throws IOException {
    try (Stream<Path> files = Files.list(RULEBOOKS)) {
      return files
          .filter(file -> file.toString().endsWith(".aspects"))
          .filter(AspectChartTest::hasAspects)
          .sorted()
          .toList()
          .stream();
    }
  }

  @ParameterizedTest
  @MethodSource("books")
  void every_pattern_of_every_book_lights_as_many_lamps_as_its_heads_do(Path file)
      throws Exception {
    Rulebook book = book(file);
    Makes makes = Makes.of(book);
    Inks inks = Inks.of(book);
    for (Aspect aspect : book.aspects()) {
      for (Pattern pattern : aspect.patterns()) {
        SignalPicture shown = SignalPicture.of(makes, pattern);
        Document svg = xml(PictureDrawing.alone(shown, inks, Flashing.of(book)));

        assertThat(drawn(svg, "lit")).as(shown.describe()).isEqualTo(lit(shown));
        assertThat(drawn(svg, "ring")).as(shown.describe()).isEqualTo(flashing(shown));
        assertThat(svg.getElementsByTagName("title").item(0).getTextContent())
            .isEqualTo(shown.describe());
      }
    }
  }

  @ParameterizedTest
  @MethodSource("books")
  void a_chart_tells_every_aspect_with_a_picture_and_words_for_each_pattern(Path file) {
    Rulebook book = book(file);
    String html = AspectChart.html(book, List.of());
    String markdown = AspectChart.markdown(book);
    int patterns = book.aspects().stream().mapToInt(aspect -> aspect.patterns().size()).sum();

    assertThat(html.split("<figure>", -1)).hasSize(patterns + 1);
    for (Aspect aspect : book.aspects()) {
      assertThat(html).contains("<h3>" + Xml.text(aspect.name()) + "</h3>");
      assertThat(html).contains(Xml.text("Allows " + aspect.permission().words()));
      assertThat(markdown)
          .contains("## " + aspect.name().replace("&", "&amp;").replaceAll("([{}])", "\\\\$1"));
    }
  }

  @Test
  void an_arm_is_drawn_at_an_angle_of_its_own_for_each_position() throws Exception {
    Rulebook book =
        parsed(
            "rulebook \"b\" edition 1\nspeeds in mph { slow 15 }\ncolours { red yellow green }\n"
                + "arm a shows level in red, inclined in yellow, upright in green\n"
                + "form post { top }\n"
                + "aspect \"A\" { allows stop on post show level or inclined or upright }\n");
    List<String> angles = new java.util.ArrayList<>();
    for (Pattern pattern : book.aspects().get(0).patterns()) {
      SignalPicture shown = SignalPicture.of(Makes.of(book), pattern);
      Document svg = xml(PictureDrawing.alone(shown, Inks.of(book), Flashing.of(book)));
      Element bar = (Element) svg.getElementsByTagName("rect").item(0);
      angles.add(bar.getAttribute("transform").replaceAll("rotate\\((\\d+) .*", "$1"));
      assertThat(drawn(svg, "lit")).isEqualTo(1);
    }

    assertThat(angles).containsExactly("", "45", "90");
  }

  @Test
  void nothing_on_a_page_flashes_more_than_three_times_in_any_second() {
    Span nowhere = nowhere();
    List<Rhythm> rhythms =
        IntStream.rangeClosed(1, 600)
            .mapToObj(rate -> new Rhythm("r" + rate, rate, 50, false, nowhere))
            .toList();

    for (Rhythm rhythm : rhythms) {
      // Flashes that begin in a second, wherever it begins, are at most 1 + floor(999 / period).
      assertThat(1 + 999 / Flashing.playedMillis(rhythm)).isLessThanOrEqualTo(3);
      assertThat(Flashing.isSlowed(rhythm)).isEqualTo(rhythm.perMinute() > 150);
    }
  }

  @Test
  void names_that_are_tags_do_no_harm() throws Exception {
    String name = "<script>alert(1)</script>\u202e|[x](http://y)";
    Rulebook book =
        parsed(
            "rulebook \"<b>\" edition 1\nspeeds in mph { slow 15 }\ncolours { red }\n"
                + "head one { lamp a shows red }\nform post { top }\naspect \""
                + name
                + "\" { allows stop on post show red }\n");
    String html = AspectChart.html(book, List.of(new Gap(List.of(name), "<i>gap</i>")));

    assertThat(html).doesNotContain("<script").doesNotContain("<b>").doesNotContain("<i>");
    assertThat(html).doesNotContain("\u202e").contains("&lt;U+202E&gt;");
    assertThat(AspectChart.markdown(book)).doesNotContain("<script").doesNotContain("[x](");
    xml(PictureDrawing.alone(first(book), Inks.of(book), Flashing.of(book)));
  }

  @Test
  void gaps_are_drawn_red_with_their_words_once() throws Exception {
    Rulebook book = book(RULEBOOKS.resolve("brackwater.aspects"));
    String drawn =
        SequenceDrawing.of(
            book,
            List.of(new Gap(List.of("Clear", "Stop"), "nothing leads from one to the other")));

    Document svg = xml(drawn);
    List<Element> gaps =
        elements(svg, "g").stream().filter(g -> g.getAttribute("class").equals("gap")).toList();
    assertThat(gaps).hasSize(2);
    assertThat(gaps.get(0).getTextContent()).contains("Clear", "nothing leads from");
    assertThat(gaps.get(1).getTextContent()).contains("Stop", "nothing leads from");
    assertThat(
            elements(svg, "text").stream()
                .filter(t -> t.getAttribute("class").equals("why"))
                .toList())
        .hasSize(1);
    assertThat(nodes(svg)).hasSize(book.aspects().size());
  }

  /** Lanes lead from each aspect to those, and those alone, that it announces. */
  @ParameterizedTest
  @MethodSource("books")
  void arrows_of_the_sequence_lead_where_the_book_says(Path file) throws Exception {
    Rulebook book = book(file);
    Sequence sequence = Sequence.of(book);
    Document svg = xml(SequenceDrawing.of(book, List.of()));
    List<Element> nodes = nodes(svg);
    // Of an aspect of many numbers one node stands for all.
    List<String> order =
        sequence.leastRestrictiveFirst().stream().map(Aspect::family).distinct().toList();
    Map<String, String> lanes = new java.util.HashMap<>();
    elements(svg, "path").stream()
        .filter(path -> path.hasAttribute("id"))
        .forEach(path -> lanes.put("#" + path.getAttribute("id"), path.getAttribute("d")));

    assertThat(nodes).hasSize(order.size());
    for (int i = 0; i < order.size(); i++) {
      NodeList used = nodes.get(i).getElementsByTagName("use");
      List<String> ahead =
          book.aspect(order.get(i)).orElseThrow().each().stream()
              .flatMap(a -> sequence.announced(a).stream())
              .map(Aspect::family)
              .distinct()
              .toList();
      assertThat(used.getLength()).isEqualTo(ahead.isEmpty() ? 0 : 1);
      if (!ahead.isEmpty()) {
        String path = lanes.get(((Element) used.item(0)).getAttribute("href"));
        // Where it ends: lines are 30 high, and arrows end 6 below their middles.
        List<Integer> ends =
            ENDS.matcher(path)
                .results()
                .map(end -> (Integer.parseInt(end.group(1)) - 21) / 30)
                .toList();
        assertThat(ends).isEqualTo(ahead.stream().map(order::indexOf).sorted().toList());
      }
    }
  }

  private static List<Element> nodes(Document svg) {
    return elements(svg, "g").stream().filter(g -> g.hasAttribute("tabindex")).toList();
  }

  @Test
  void discs_follow_the_lamps_and_a_dark_head_is_black() {
    Rulebook book = book(RULEBOOKS.resolve("brackwater.aspects"));
    Aspect aspect = book.aspect("Approach Limited").orElseThrow();
    Form form = book.form("three-head").orElseThrow();
    SignalPicture shown = SignalPicture.of(Makes.of(book), aspect.patternsOn(form).get(0));

    assertThat(Disc.of(shown, Inks.of(book))).isEqualTo("\ud83d\udfe1 \ud83d\udfe2 \ud83d\udd34");
  }

  @Test
  void a_colour_that_no_head_of_the_book_shows_is_a_disc_of_it() {
    Rulebook book =
        parsed(
            """
            rulebook "No heads"
            colours { red }
            form home { upper usually dark, lower }
            aspect "Stop" { allows stop  on home show red }
            imperfect signals read as most restrictive
            """);

    assertThat(AspectChart.markdown(book))
        .contains("| home | \u26ab \ud83d\udd34 | dark over red |");
  }

  /** Regions of different signal colours lie apart, whoever published them (CIE 1931 diagram). */
  @Test
  void no_light_lies_in_regions_of_two_signal_colours_but_for_whites() {
    for (int x = 0; x <= 740; x += 5) {
      for (int y = 0; y <= 840; y += 5) {
        var discs = Disc.regions(new Chromaticity(x / 1000.0, y / 1000.0));
        assertThat(discs.size()).as("%d, %d: %s", x, y, discs).isLessThan(2);
      }
    }
  }

  @Test
  void numbers_light_up_in_one_window_and_none_in_it_is_seen_dark() throws Exception {
    Rulebook book = book(RULEBOOKS.resolve("germany-ks.aspects"));
    Aspect family = book.aspect("Ks 1 at {n}, then {v}").orElseThrow();
    Form form = book.form("main").orElseThrow();
    Document svg = xml(AspectChart.svg(book, family, form).orElseThrow());
    List<Element> numbers = elements(svg, "text");

    assertThat(numbers).extracting(Element::getTextContent).containsExactly("3", "3");
    // White above for here, yellow below for the next signal, as the heads of those names shine.
    assertThat(numbers)
        .extracting(number -> number.getAttribute("fill"))
        .containsExactly(hex(book, "white"), hex(book, "yellow"));
    assertThat(drawn(svg, "dark")).as("lamps of the main head").isEqualTo(3);
    assertThat(AspectChart.html(book, List.of()))
        .contains("{n} and {v} are each one of 3, 4, 5, 6, 7, 8, 9, 10 and 12; drawn is 3<");
  }

  @Test
  void several_plates_are_plates() {
    Rulebook book = book(RULEBOOKS.resolve("brackwater.aspects"));
    String html = AspectChart.html(book, List.of());

    assertThat(html).contains("one-head with grade and number plates");
    assertThat(html)
        .contains("one-head with number plate</strong>")
        .doesNotContain("and number plate<");
  }

  @Test
  void long_names_are_cut_where_they_are_drawn_and_whole_where_they_are_told() throws Exception {
    String name = "x".repeat(300);
    Rulebook book =
        parsed(
            "rulebook \"r\" edition 1\nspeeds in mph { slow 15 }\ncolours { red }\n"
                + "head one { lamp a shows red }\nform post { top }\nplate "
                + name
                + "\naspect \""
                + name
                + "\" { allows stop on post with "
                + name
                + " plate show red }\n");
    Document svg = xml(PictureDrawing.alone(first(book), Inks.of(book), Flashing.of(book)));

    assertThat(Double.parseDouble(svg.getDocumentElement().getAttribute("width"))).isLessThan(110);
    assertThat(svg.getElementsByTagName("text").item(0).getTextContent())
        .isEqualTo("xxxxxxxxxxxxx\u2026");
    assertThat(svg.getElementsByTagName("title").item(0).getTextContent()).contains(name);
    assertThat(AspectChart.html(book, List.of())).contains("<h3>" + name, "post with " + name);
  }

  @Test
  void a_chart_of_five_hundred_aspects_is_small() {
    Rulebook book = parsed(GeneratedBook.of(500));
    assertThat(AspectChart.html(book, List.of()).length()).isLessThan(600_000);
    assertThat(AspectChart.markdown(book).length()).isLessThan(200_000);
  }

  /** The pictures that the README shows are those that are drawn. */
  @ParameterizedTest
  @CsvSource({
    "../rulebooks/brackwater.aspects, Approach Limited, three-head, approach-limited.svg",
    "../examples/mistakes/branch.aspects, Approach Medium, two-head, twins.svg"
  })
  void the_pictures_of_the_readme_are_drawn_anew(
      Path path, String aspect, String form, String picture) throws IOException {
    Rulebook book = book(path);
    Path file = RULEBOOKS.resolve("pictures").resolve(picture);
    String drawn =
        AspectChart.svg(book, book.aspect(aspect).orElseThrow(), book.form(form).orElseThrow())
            .orElseThrow();
    if (Boolean.getBoolean("doublet.update") && System.getenv("CI") == null) {
      Files.writeString(file, drawn);
    }
    assertThat(file).hasContent(drawn);
  }

  private static Span nowhere() {
    return book(RULEBOOKS.resolve("brackwater.aspects")).span();
  }

  private static String hex(Rulebook book, String colour) {
    return Inks.of(book).of(colour).orElseThrow().screen().hex();
  }

  private static SignalPicture first(Rulebook book) {
    return SignalPicture.of(Makes.of(book), book.aspects().get(0).patterns().get(0));
  }

  private static int lit(SignalPicture shown) {
    return IntStream.range(0, shown.displays().size()).map(i -> lamps(shown, i).size()).sum();
  }

  private static int flashing(SignalPicture shown) {
    return IntStream.range(0, shown.displays().size())
        .filter(i -> !shown.displays().get(i).rhythm().isEmpty())
        .map(i -> lamps(shown, i).size())
        .sum();
  }

  private static List<Lit> lamps(SignalPicture shown, int place) {
    Display display = shown.displays().get(place);
    return shown.heads().get(place).flatMap(head -> head.lights(display.look())).orElse(List.of());
  }

  private static long drawn(Document svg, String sort) {
    return elements(svg, "*").stream()
        .filter(one -> List.of(one.getAttribute("class").split(" ")).contains(sort))
        .count();
  }

  private static List<Element> elements(Document svg, String tag) {
    NodeList found = svg.getElementsByTagName(tag);
    List<Element> elements = new ArrayList<>();
    for (int i = 0; i < found.getLength(); i++) {
      elements.add((Element) found.item(i));
    }
    return elements;
  }

  private static Document xml(String text) throws Exception {
    DocumentBuilder builder = DocumentBuilderFactory.newInstance().newDocumentBuilder();
    return builder.parse(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
  }

  private static boolean hasAspects(Path file) {
    try {
      return Files.readString(file).contains("\nrulebook ");
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static Rulebook book(Path file) {
    return checked(file.toString(), path -> text(path));
  }

  private static Rulebook parsed(String text) {
    return checked("it.aspects", path -> new SourceFile(path, text));
  }

  private static Rulebook checked(String path, SourceReader reader) {
    return Compiler.checkRulebook(path, reader, CheckOptions.ALL).value().orElseThrow();
  }

  private static SourceFile text(String path) {
    try {
      return new SourceFile(path, Files.readString(Path.of(path)));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }
}
