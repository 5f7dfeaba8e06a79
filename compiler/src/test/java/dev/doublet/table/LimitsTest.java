package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.table.TableModel.Bus;
import dev.doublet.table.TableModel.Chain;
import dev.doublet.table.TableModel.Flash;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Look;
import dev.doublet.table.TableModel.Mode;
import dev.doublet.table.TableModel.Rhythm;
import dev.doublet.table.TableModel.State;
import dev.doublet.table.TableModel.Unit;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** As much of everything as a table holds, and one more. */
class LimitsTest {

  @ParameterizedTest(name = "{1} {0}")
  @CsvSource({
    "buses, 255",
    "chains, 255",
    "rhythms, 16",
    "colours and flashing colours, 255",
    "kinds of signal, 128",
    "signals, 8192",
    "LEDs, 65535",
    "LEDs on one signal, 255",
    "aspects on one signal, 127",
    "answers of one signal, 255"
  })
  void theMostIsHeldAndOneMoreIsRefused(String what, int most) throws TableFault {
    TableModel full = model(what, most);
    assertThat(TableDecoder.decode(TableWriter.write(full))).isEqualTo(full);
    assertThatThrownBy(() -> TableWriter.write(model(what, most + 1)))
        .isInstanceOf(TableFault.class)
        .hasMessage(
            "%,d %s, and a table holds at most %,d; share them between more controllers",
            most + 1, what, most);
  }

  /** A signal takes 7 bytes of index and 1 of places; 127 of these share 2 more. */
  @Test
  void aTableIsNoLongerThanItsOffsetsReach() throws TableFault {
    int length = TableWriter.write(topics(7000)).length;
    int most = 7000 + 8 * (65_535 - length) / 65;
    assertThat(TableWriter.write(topics(most)).length).isBetween(65_400, 65_535);
    assertThatThrownBy(() -> TableWriter.write(topics(most + 20)))
        .hasMessageEndingWith(
            " bytes of table, and a table holds at most 65,535; share them between more"
                + " controllers");
  }

  /** Signals on topics, each behind a dark LED. */
  private static TableModel topics(int signals) {
    return new TableModel(
        1,
        1,
        List.of(new Bus(Speaks.MQTT, 0, 0)),
        List.of(new Chain(2 * signals, 1, List.of(1), List.of())),
        List.of(),
        List.of(),
        List.of(kind(Mode.TOPIC, 0, 1, 1, List.of(new Answer(0, 0)))),
        IntStream.range(0, signals).mapToObj(i -> new Unit(0, 2 * i, List.of((long) i))).toList(),
        List.of());
  }

  private static TableModel model(String what, int count) {
    int colours = 128;
    int chains = what.equals("chains") ? count : 1;
    int leds =
        switch (what) {
          case "LEDs" -> count;
          case "signals" -> 2 * count;
          default -> 256;
        };
    int rhythms = what.equals("rhythms") ? count : 16;
    int flashing = what.equals("colours and flashing colours") ? count - colours : 1;
    int kinds = what.equals("kinds of signal") ? count : 1;
    int lamps = what.equals("LEDs on one signal") ? count : 1;
    int states = what.equals("aspects on one signal") ? count : 2;
    int answers = what.equals("answers of one signal") ? count : 0;
    int signals = what.equals("signals") ? count : 1;
    List<Integer> palette = Collections.nCopies(colours, 7);
    return new TableModel(
        1,
        colours,
        Collections.nCopies(what.equals("buses") ? count : 1, new Bus(Speaks.DCC, 8, 0)),
        Stream.concat(
                Stream.of(new Chain(leds, 1, palette, List.of())),
                IntStream.range(1, chains).mapToObj(i -> new Chain(0, 1, palette, List.of())))
            .toList(),
        Collections.nCopies(rhythms, new Rhythm(1000, 500)),
        IntStream.range(0, flashing).mapToObj(i -> new Flash(1 + i / 16, i % 16, false)).toList(),
        IntStream.range(0, kinds)
            .mapToObj(i -> kind(Mode.ASPECT_NUMBER, 1, lamps, states, answers(answers)))
            .toList(),
        IntStream.range(0, signals)
            .mapToObj(i -> new Unit(0, i * lamps, List.of((long) i % 2048)))
            .toList(),
        List.of());
  }

  private static List<Answer> answers(int count) {
    return IntStream.range(0, count).mapToObj(i -> new Answer(i, 0)).toList();
  }

  private static Kind kind(Mode mode, int addresses, int lamps, int states, List<Answer> answers) {
    List<State> shown =
        IntStream.range(0, states)
            .mapToObj(i -> new State(i, Collections.nCopies(lamps, i % 2)))
            .toList();
    Look look = new Look(lamps, shown, List.of());
    return new Kind(
        look,
        mode,
        0,
        addresses,
        0,
        false,
        false,
        0,
        false,
        false,
        false,
        answers.isEmpty() ? List.of(new Answer(0, 0), new Answer(1, 1)) : answers,
        List.of());
  }
}
