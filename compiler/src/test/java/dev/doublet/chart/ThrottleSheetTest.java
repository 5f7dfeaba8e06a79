package dev.doublet.chart;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.bus.EventId;
import dev.doublet.chart.Answers.Called;
import dev.doublet.chart.Answers.Heard;
import dev.doublet.chart.ThrottleSheet.Code;
import dev.doublet.chart.ThrottleSheet.Line;
import dev.doublet.golden.Case;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Way;
import dev.doublet.layout.read.LayoutResolver;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class ThrottleSheetTest {
  private static final Path CASES = Path.of("src/test/resources/cases/sheet");

  /**
   * What Letter holds at 10 points on 12, with margins of 12 mm: 279.4 mm less 24 mm is 724 points.
   */
  private static final int LINES_A_PAGE = 60;

  static List<Path> pages() {
    return Case.pages(CASES);
  }

  static Stream<Layout> layouts() {
    return Stream.of(everyWay(), ManySignals.layout(12), ManySignals.layout(219));
  }

  @ParameterizedTest
  @MethodSource("pages")
  void each_case_gives_exactly_its_sheet_in_every_format_of_text(Path page) {
    Case input = Case.of(page);
    Layout layout = LayoutResolver.resolve(input.root(), input.reader()).value().orElseThrow();
    ThrottleSheet sheet = ThrottleSheet.of(layout);
    input.verify(
        String.join(
            "\n----\n",
            ThrottleSheetText.text(sheet),
            ThrottleSheetText.markdown(sheet),
            ThrottleSheetText.csv(sheet)));
  }

  @ParameterizedTest
  @MethodSource("layouts")
  void a_line_and_its_code_together_say_what_the_answers_say(Layout layout) {
    ThrottleSheet sheet = ThrottleSheet.of(layout);
    List<Heard> heard = Answers.of(layout).heard();
    assertThat(sheet.lines()).hasSameSizeAs(heard);
    for (int i = 0; i < heard.size(); i++) {
      Line line = sheet.lines().get(i);
      Code code =
          sheet.codes().stream().filter(c -> c.letter().equals(line.code())).findFirst().get();
      assertThat(line.name()).isEqualTo(heard.get(i).unit().name());
      assertThat(code.rows()).hasSameSizeAs(heard.get(i).called());
      for (int row = 0; row < code.rows().size(); row++) {
        Called called = heard.get(i).called().get(row);
        assertThat(code.rows().get(row).shows()).isEqualTo(called.state().name());
        assertThat(followed(heard.get(i).unit().kind().way(), line, code.rows().get(row)))
            .as("%s %s", line, code)
            .isEqualTo(sent(called, heard.get(i).unit().kind().way()));
      }
    }
  }

  @Test
  void a_code_stands_there_once_whatever_the_number_of_its_signals() {
    ThrottleSheet sheet = ThrottleSheet.of(ManySignals.layout(219));
    assertThat(sheet.codes()).hasSize(6).doesNotHaveDuplicates();
    assertThat(sheet.lines()).hasSize(219);
  }

  @Test
  void twelve_signals_are_one_page_of_text_and_219_at_most_six() {
    assertThat(lines(layout(Path.of("src/test/resources/cases/layout/twelve-signals.md"))))
        .isLessThanOrEqualTo(LINES_A_PAGE);
    assertThat(lines(ManySignals.layout(219))).isLessThanOrEqualTo(6 * LINES_A_PAGE);
    assertThat(AnswersText.of(Answers.of(ManySignals.layout(219))).lines().count())
        .as("what people carried before")
        .isGreaterThan(2_000);
  }

  @Test
  void text_is_no_wider_than_a_sheet_of_paper() {
    assertThat(ThrottleSheetText.text(ThrottleSheet.of(ManySignals.layout(219))).lines())
        .allMatch(line -> line.length() <= 90);
  }

  private static long lines(Layout layout) {
    return ThrottleSheetText.text(ThrottleSheet.of(layout)).lines().count();
  }

  private static Layout everyWay() {
    return layout(CASES.resolve("every-way.md"));
  }

  private static Layout layout(Path page) {
    Case input = Case.of(page);
    return LayoutResolver.resolve(input.root(), input.reader()).value().orElseThrow();
  }

  /** What somebody sends who has nothing but the sheet. */
  private static List<String> followed(Way way, Line line, ThrottleSheet.Row row) {
    List<String> cells = row.sent();
    if (way instanceof Way.Topic) {
      return List.of(cells.get(0));
    }
    if (way instanceof Way.Event) {
      String cell = cells.get(0);
      if (!cell.startsWith("the first")) {
        return List.of(cell);
      }
      int places = cell.equals("the first") ? 0 : Integer.parseInt(cell.substring(12));
      return List.of(EventId.parse(line.at()).get().plus(places).get().toString());
    }
    List<Integer> addresses = addresses(line.at());
    if (way instanceof Way.AspectNumber) {
      return List.of(addresses.get(0) + " " + cells.get(0));
    }
    if (way instanceof Way.OnePerOutput) {
      int ordinal = Integer.parseInt(cells.get(1).replaceAll("[a-z]", ""));
      return List.of(addresses.get(ordinal - 1) + " " + cells.get(2));
    }
    return IntStream.range(0, addresses.size())
        .mapToObj(i -> addresses.get(i) + " " + cells.get(i + 1))
        .toList();
  }

  private static List<String> sent(Called called, Way way) {
    return called.sent().stream()
        .map(
            s ->
                way instanceof Way.Topic || way instanceof Way.Event
                    ? s.what()
                    : s.address()
                        + " "
                        + (way instanceof Way.AspectNumber ? called.value() : s.what()))
        .toList();
  }

  private static List<Integer> addresses(String words) {
    Matcher run = Pattern.compile("(\\d+) to (\\d+)").matcher(words);
    if (run.matches()) {
      return IntStream.rangeClosed(Integer.parseInt(run.group(1)), Integer.parseInt(run.group(2)))
          .boxed()
          .toList();
    }
    List<Integer> addresses = new ArrayList<>();
    for (String one : words.split(", ")) {
      addresses.add(Integer.parseInt(one));
    }
    return addresses;
  }
}
