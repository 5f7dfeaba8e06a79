package dev.doublet.chart;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.bus.EventId;
import dev.doublet.chart.Answers.Called;
import dev.doublet.chart.Answers.Heard;
import dev.doublet.chart.Answers.Sent;
import dev.doublet.golden.Case;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.table.Lowering;
import dev.doublet.table.TableFault;
import dev.doublet.table.TableReader;
import dev.doublet.table.TableWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** What the list says is what a controller does. */
class AnswersTest {
  private static final Path CASES = Path.of("src/test/resources/cases/layout");

  @Test
  void every_row_sent_to_a_controller_with_the_table_shows_what_the_row_says() throws TableFault {
    Layout layout = everyMode();
    Answers answers = Answers.of(layout);
    for (Controller controller : layout.controllers()) {
      TableReader reader = reader(layout, controller);
      List<Unit> units = Lowering.order(controller);
      long now = 0;
      for (Heard heard : answers.heard()) {
        int unit = units.indexOf(heard.unit());
        for (Called called : heard.called()) {
          now += 1000;
          send(reader, controller, heard.unit(), called, now);
          reader.number(unit, now + 500);
          assertThat(heard.unit().kind().states().get(reader.state(unit)).name())
              .as("%s at %s", heard.unit().name(), called.sent())
              .isEqualTo(called.state().name());
        }
      }
    }
    assertThat(answers.heard())
        .<Class<?>>extracting(h -> h.unit().kind().way().getClass())
        .contains(ways(Way.class).toArray(Class<?>[]::new));
  }

  /** The records of a sealed type, however deep. */
  private static Stream<Class<?>> ways(Class<?> type) {
    return type.isInterface()
        ? Arrays.stream(type.getPermittedSubclasses()).flatMap(AnswersTest::ways)
        : Stream.of(type);
  }

  @Test
  void values_listed_as_calling_up_nothing_bring_a_controller_to_what_is_said() throws TableFault {
    Layout layout = everyMode();
    Controller controller = layout.controllers().get(0);
    TableReader reader = reader(layout, controller);
    Heard heard = Answers.of(layout).ofSignal("A1").heard().get(0);
    assertThat(heard.unanswered()).isEqualTo("1, 3, 5 to 8, 10 to 255");
    int unit = Lowering.order(controller).indexOf(heard.unit());
    int bus = Lowering.buses(controller).indexOf(heard.unit().command().bus());
    int binary = heard.called().get(0).sent().get(0).binary();
    for (int value : List.of(1, 3, 5, 8, 10, 255)) {
      send(reader, controller, heard.unit(), heard.called().get(3), 0);
      reader.extended(bus, binary, value, 0);
      assertThat(heard.unit().kind().states().get(reader.state(unit)).name())
          .isEqualTo(heard.then());
    }
  }

  @Test
  void each_mode_has_its_own_heading_and_columns() {
    Answers answers = Answers.of(everyMode());
    assertThat(AnswersText.of(answers.ofSignal("B2")))
        .isEqualTo(
            """
            B2 on controller west, binary-coded on bus dcc, basic address 40 (inside 39), 30 (inside 29)
              Stop until each address has been set once
              value  send                    packet              shows        picture  allows
              0      40 normal, 30 normal    89 FF 76, 87 FB 7C  Stop         red      stop
              1      40 normal, 30 reverse   89 FF 76, 87 FA 7D  Restricting  lunar    restricted then restricted
              2      40 reverse, 30 normal   89 FE 77, 87 FB 7C  Approach     yellow   medium then stop
              3      40 reverse, 30 reverse  89 FE 77, 87 FA 7D  Clear        green    normal then normal
              thrown by hand, value 2: 30, then 40
            """);
    assertThat(AnswersText.of(answers.ofSignal("T2")))
        .isEqualTo(
            """
            T2 on controller west, topic on bus house, topic branch/T2
              Stop until the first command
              send  shows        picture  allows
              0     Stop         red      stop
              2     Restricting  lunar    restricted then restricted
              4     Approach     yellow   medium then stop
              9     Clear        green    normal then normal
              any other payload calls up nothing: it shows Stop
            """);
    assertThat(AnswersText.of(answers.ofSignal("E3"))).contains("  05.01.01.01.22.60.00.F8  Stop ");
    assertThat(AnswersText.of(answers.ofSignal("E3"))).endsWith("nothing: it stays as it is\n");
  }

  @Test
  void of_arms_it_is_told_where_they_stand_and_what_is_seen_of_them_by_night() {
    Answers answers = Answers.of(layout(Path.of("src/test/resources/cases/chart/motors.md")));
    assertThat(AnswersText.of(answers.ofSignal("S1")))
        .isEqualTo(
            """
            S1 on controller box, aspect-number on bus dcc, extended address 1 (inside 4)
              Stop until the first command
              servo 0 moves home in at most 1000 ms, motor 5 moves distant
              value  packet       shows    picture                      by night           arms                                            allows
              0      81 71 00 F0  Stop     level over fishtail-level    red over yellow    servo 0 at 1000 µs, motor 5 at fishtail-level   stop
              1      81 71 01 F1  Caution  raised over fishtail-level   green over yellow  servo 0 at 2000 µs, motor 5 at fishtail-level   normal then stop
              2      81 71 02 F2  Clear    raised over fishtail-raised  green over green   servo 0 at 2000 µs, motor 5 at fishtail-raised  normal then normal
              values 3 to 31 call up nothing: it shows Stop
            """);
    assertThat(AnswersCsv.of(answers))
        .contains(
            ",red over yellow,\"motor 6 at level, motor 7 at fishtail-level\"\n",
            "nothing,Stop,,,,,,,\n");
  }

  @Test
  void csv_has_as_many_cells_in_every_row_and_quotes_what_needs_it() {
    String csv = AnswersCsv.of(Answers.of(everyMode()).ofSignal("A1"));
    assertThat(csv)
        .startsWith("controller,signal,by,bus,address,inside,output,packet,topic,payload,event,")
        .contains(
            "west,A1,aspect-number,dcc,5,4,,81 71 09 F9,,,,9,something,Clear,,green,normal then normal,,,,\n")
        .contains(
            "west,A1,aspect-number,dcc,,,,,,,,\"1, 3, 5 to 8, 10 to 255\",nothing,Stop,,,,,,,\n");
    assertThat(Csv.row(List.of("a", "b,c", "say \"d\"", "e\nf", "")))
        .isEqualTo("a,\"b,c\",\"say \"\"d\"\"\",\"e\nf\",\n");
  }

  private static Layout everyMode() {
    return layout(CASES.resolve("modes.md"));
  }

  private static Layout layout(Path page) {
    Case input = Case.of(page);
    return LayoutResolver.resolve(input.root(), input.reader()).value().orElseThrow();
  }

  private static TableReader reader(Layout layout, Controller controller) throws TableFault {
    return TableReader.open(TableWriter.write(Lowering.lower(layout.rulebook(), controller)));
  }

  private static void send(
      TableReader reader, Controller controller, Unit unit, Called called, long now) {
    int bus = Lowering.buses(controller).indexOf(unit.command().bus());
    for (Sent sent : called.sent()) {
      switch (unit.command().bus().speaks()) {
        case MQTT -> reader.topic(bus, utf8(unit.command().topic()), utf8(sent.what()), now);
        case OPENLCB -> reader.event(bus, EventId.parse(sent.what()).orElseThrow().bits(), now);
        case DCC ->
            reader.packet(bus, HexFormat.of().parseHex(sent.packet().replace(" ", "")), now);
      }
    }
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
