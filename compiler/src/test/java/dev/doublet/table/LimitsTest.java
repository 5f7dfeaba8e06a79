package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.layout.Mode;
import dev.doublet.table.TableModel.Bus;
import dev.doublet.table.TableModel.Chain;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Light;
import dev.doublet.table.TableModel.Look;
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
    "buses, 127",
    "chains, 255",
    "rhythms, 127",
    "colours, 127",
    "colours in rhythms, 255",
    "kinds of signal, 255",
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

  /** Each of kind 0, with an entry for every 127 of them. */
  @ParameterizedTest
  @CsvSource({"127, 1", "128, 2", "254, 2", "255, 3"})
  void anEntryHolds127Signals(int signals, int entries) throws TableFault {
    TableModel many = model("signals", signals);
    TableDecoder.Decoded unpacked = TableDecoder.unpack(TableWriter.write(many));
    assertThat(unpacked.model()).isEqualTo(many);
    assertThat(unpacked.entries()).hasSize(entries);
    assertThat(Run.fold(many).get(0).count()).isEqualTo(signals - 127 * (entries - 1));
  }

  /** 45 bytes, and 8 for each entry: 8,186 of them are the last that fit into 65,535 bytes. */
  @Test
  void aTableIsNoLongerThanItsOffsetsReach() throws TableFault {
    assertThat(TableWriter.write(topics(8186))).hasSize(65_533);
    assertThatThrownBy(() -> TableWriter.write(topics(8187)))
        .hasMessage(
            "65,541 bytes of table, and a table holds at most 65,535; share them between more"
                + " controllers");
  }

  /** Signals on topics that stand apart, so that each takes an entry of its own. */
  private static TableModel topics(int signals) {
    return new TableModel(
        1,
        1,
        List.of(new Bus(Speaks.MQTT, 0, 0)),
        List.of(new Chain(2 * signals, 1, List.of(1), List.of())),
        List.of(),
        List.of(new Light(1, 0, false)),
        List.of(kind(Mode.TOPIC, 0, 1, 1, List.of(new Answer(0, 0)))),
        IntStream.range(0, signals).mapToObj(i -> new Unit(0, 2 * i, List.of((long) i))).toList());
  }

  private static TableModel model(String what, int count) {
    int colours = what.equals("colours") ? count : 2;
    int chains = what.equals("chains") ? count : 1;
    int leds =
        switch (what) {
          case "LEDs", "signals" -> count;
          default -> 256;
        };
    int rhythms = what.equals("rhythms") ? count : 127;
    int lights = what.equals("colours in rhythms") ? count : 1;
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
        IntStream.range(0, lights).mapToObj(i -> new Light(1 + i / 128, i % 128, false)).toList(),
        IntStream.range(0, kinds)
            .mapToObj(i -> kind(Mode.ASPECT_NUMBER, 1, lamps, states, answers(answers)))
            .toList(),
        IntStream.range(0, signals)
            .mapToObj(i -> new Unit(0, i * lamps, List.of((long) i)))
            .toList());
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
        false,
        false,
        false,
        answers.isEmpty() ? look.byNumber() : answers,
        List.of());
  }
}
