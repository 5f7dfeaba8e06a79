package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.layout.Controller;
import dev.doublet.table.TableModel.Bus;
import dev.doublet.table.TableModel.Chain;
import dev.doublet.table.TableModel.Flash;
import dev.doublet.table.TableModel.Glow;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Look;
import dev.doublet.table.TableModel.Rhythm;
import dev.doublet.table.TableModel.State;
import dev.doublet.table.TableModel.Unit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * A sound table that says one thing otherwise than its layout does is told from it, by the first
 * command or instant at which they differ.
 */
class DifferenceTest {
  private static final Controller EVERY_MODE = Samples.everyMode();
  private static final Controller EVERY_LIGHT = Samples.everyLight();

  /** Where the kinds of {@link Samples#everyMode} stand in its table. */
  private static final int PLAIN = 0;

  private static final int KEEPING = 1;
  private static final int BINARY = 3;
  private static final int OUTPUTS = 4;
  private static final int NAMED = 5;
  private static final int EVENTS = 6;
  private static final int LISTED = 7;

  @Test
  void numbers() {
    Parts parts = new Parts(EVERY_MODE);
    parts.edition = 4;
    assertThat(parts.difference()).isEqualTo("the edition is 4 and should be 3");

    parts = new Parts(EVERY_MODE);
    parts.units.remove(11);
    assertThat(parts.difference()).isEqualTo("the number of signals is 11 and should be 12");

    parts = new Parts(EVERY_MODE);
    parts.chains.add(new Chain(1, 3, Collections.nCopies(12, 0), List.of()));
    assertThat(parts.difference()).isEqualTo("the number of chains is 3 and should be 2");

    parts = new Parts(EVERY_MODE);
    parts.buses.add(new Bus(Speaks.MQTT, 0, 0));
    assertThat(parts.difference()).isEqualTo("the number of buses is 5 and should be 4");

    parts = new Parts(EVERY_MODE);
    assertThat(parts.buses.get(3)).isEqualTo(new Bus(Speaks.DCC, 8, 0));
    parts.buses.set(3, new Bus(Speaks.DCC, 8, 1));
    assertThat(parts.difference()).isEqualTo("the first decoder is 1 and should be 0");
  }

  @Test
  void whatSignalsShowBeforeTheFirstCommand() {
    Parts parts = new Parts(EVERY_MODE);
    Kind plain = parts.kinds.get(PLAIN);
    parts.kinds.set(PLAIN, kind(plain, plain.look(), 1, plain.keep(), plain.answers()));
    assertThat(parts.difference())
        .isEqualTo(
            "before the first command, B2 shows number 1 and should show \"Aspect 0\", number 0");

    parts = new Parts(EVERY_MODE);
    parts.state(PLAIN, 0, new State(9, plain.look().states().get(0).lights()));
    assertThat(parts.difference())
        .isEqualTo(
            "before the first command, B2 shows number 9 and should show \"Aspect 0\", number 0");

    parts = new Parts(EVERY_MODE);
    parts.state(PLAIN, 0, new State(0, List.of(1, 1)));
    assertThat(parts.difference())
        .isEqualTo("before the first command, LED 0 of chain \"east\" differs at 0 ms");

    parts = new Parts(EVERY_MODE);
    Unit last = parts.units.get(7);
    parts.units.set(7, new Unit(last.kind(), last.led() + 1, last.key()));
    assertThat(parts.difference())
        .isEqualTo("before the first command, LED 15 of chain \"east\" differs at 0 ms");

    parts = new Parts(EVERY_LIGHT);
    Look look = parts.kinds.get(0).look();
    parts.kinds.set(
        0,
        kind(
            parts.kinds.get(0),
            new Look(2, look.states(), List.of(new Glow(true, 0), new Glow(false, 0))),
            0,
            false,
            parts.kinds.get(0).answers()));
    assertThat(parts.difference()).isEqualTo("the lamps of B2 fade in another way");
  }

  @Test
  void whatSignalsShowOnceCalledUp() {
    Parts parts = new Parts(EVERY_MODE);
    parts.state(PLAIN, 3, new State(8, List.of(0, 0)));
    assertThat(parts.difference())
        .isEqualTo(
            "with state 3 called up everywhere, B2 shows number 8"
                + " and should show \"Aspect 3\", number 3");

    parts = new Parts(EVERY_MODE);
    parts.state(PLAIN, 3, new State(3, List.of(0, 0)));
    assertThat(parts.difference())
        .isEqualTo("with state 3 called up everywhere, LED 0 of chain \"east\" differs at 0 ms");
  }

  @Test
  void rhythms() {
    for (Rhythm wrong : List.of(new Rhythm(1200, 601), new Rhythm(1200, 599))) {
      Parts parts = new Parts(EVERY_LIGHT);
      assertThat(parts.rhythms).containsExactly(new Rhythm(1200, 600));
      parts.rhythms.set(0, wrong);
      assertThat(parts.difference())
          .isEqualTo(
              "before the first command, LED 0 of chain \"main\" differs at %d ms",
              Math.min(600, wrong.first()));
    }
    for (Rhythm wrong : List.of(new Rhythm(1201, 600), new Rhythm(1199, 600))) {
      Parts parts = new Parts(EVERY_LIGHT);
      parts.rhythms.set(0, wrong);
      assertThat(parts.difference())
          .isEqualTo(
              "before the first command, LED 0 of chain \"main\" differs at %d ms",
              Math.min(1200, wrong.period()));
    }
    Parts parts = new Parts(EVERY_LIGHT);
    int late = parts.flashing.indexOf(new Flash(1, 0, true));
    parts.flashing.set(late, new Flash(1, 0, false));
    assertThat(parts.difference())
        .isEqualTo("with state 1 called up everywhere, LED 1 of chain \"main\" differs at 0 ms");
  }

  @Test
  void nightsAndTrains() {
    Parts parts = new Parts(EVERY_LIGHT);
    Chain main = parts.chains.get(0);
    parts.chains.set(0, new Chain(5, 3, main.palette(), List.of()));
    assertThat(parts.difference())
        .isEqualTo("before the first command by night, LED 0 of chain \"main\" differs at 0 ms");

    parts = new Parts(EVERY_LIGHT);
    parts.units.set(1, new Unit(0, 3, parts.units.get(1).key()));
    assertThat(parts.difference())
        .isEqualTo("with trains at 0 of 2 signals, LED 3 of chain \"main\" differs at 0 ms");

    parts = new Parts(EVERY_LIGHT);
    parts.units.set(0, new Unit(1, 0, parts.units.get(0).key()));
    assertThat(parts.difference())
        .isEqualTo("with trains at 0 of 2 signals, LED 0 of chain \"main\" differs at 0 ms");
  }

  @Test
  void packets() {
    Parts parts = new Parts(EVERY_MODE);
    parts.kinds.set(KEEPING, bits(parts.kinds.get(KEEPING), false, false, false));
    assertThat(parts.difference())
        .isEqualTo(
            "after packet 81 73 06 F4 on bus \"track\", B4 shows number 0 and should"
                + " show \"Aspect 2\", number 2");

    parts = new Parts(EVERY_MODE);
    Kind plain = parts.kinds.get(PLAIN);
    List<Answer> more = new ArrayList<>(plain.answers());
    more.add(new Answer(255, 1));
    parts.kinds.set(PLAIN, kind(plain, plain.look(), 0, false, more));
    assertThat(parts.difference()).isEqualTo("none");

    parts = new Parts(EVERY_MODE);
    more.set(4, new Answer(31, 1));
    parts.kinds.set(PLAIN, kind(plain, plain.look(), 0, false, more));
    assertThat(parts.difference())
        .isEqualTo(
            "after packet 81 71 1F EF on bus \"track\", B2 shows number 1 and should"
                + " show \"Aspect 0\", number 0");

    parts = new Parts(EVERY_MODE);
    parts.kinds.set(PLAIN, kind(plain, plain.look(), 0, false, plain.answers().subList(0, 3)));
    assertThat(parts.difference())
        .isEqualTo(
            "after packet 81 71 03 F3 on bus \"track\", B2 shows number 0 and should"
                + " show \"Aspect 3\", number 3");

    parts = new Parts(EVERY_MODE);
    parts.units.set(0, new Unit(0, 0, List.of(3L)));
    assertThat(parts.difference())
        .isEqualTo(
            "the number of signals that take packet 81 71 00 F0 on bus \"track\" is 0"
                + " and should be 1");

    parts = new Parts(EVERY_MODE);
    parts.units.set(4, new Unit(BINARY, 9, List.of(23L, 3L, 9L)));
    assertThat(parts.difference())
        .isEqualTo(
            "the number of signals that take packet 82 F8 7A on bus \"track\" is 0 and"
                + " should be 1");

    parts = new Parts(EVERY_MODE);
    Kind outputs = parts.kinds.get(OUTPUTS);
    List<Answer> crossed =
        List.of(new Answer(0, 0), new Answer(1, 1), new Answer(2, 3), new Answer(3, 2));
    parts.kinds.set(OUTPUTS, kind(outputs, outputs.look(), 0, false, crossed));
    assertThat(parts.difference())
        .isEqualTo(
            "after packet 80 FE 7E on bus \"track\", B12 shows number 3 and should show"
                + " \"Aspect 2\", number 2");
  }

  @Test
  void numbersInBits() {
    assertThat(bits(BINARY, false, true, false))
        .isEqualTo(
            "after packet 84 F8 7C on bus \"track\", B8 shows number 2"
                + " and should show \"Aspect 0\", number 0");
    assertThat(bits(BINARY, true, true, true))
        .isEqualTo(
            "after packet 83 FC 7F on bus \"track\", B8 shows number 2"
                + " and should show \"Aspect 0\", number 0");
    // 0, 5 and 7 are the same from either end.
    assertThat(bits(BINARY, true, false, false)).isEqualTo("none");
  }

  private static String bits(int place, boolean oneIsNormal, boolean lowFirst, boolean keep) {
    Parts parts = new Parts(EVERY_MODE);
    parts.kinds.set(place, bits(parts.kinds.get(place), oneIsNormal, lowFirst, keep));
    return parts.difference();
  }

  @Test
  void topics() {
    Parts parts = new Parts(EVERY_MODE);
    Kind named = parts.kinds.get(NAMED);
    List<Integer> names = new ArrayList<>(named.names());
    names.set(3, 0);
    parts.kinds.set(NAMED, named(named, names));
    assertThat(parts.difference())
        .isEqualTo(
            "after payload \"Aspect 3\" of topic \"brackwater/home\", B14 shows number"
                + " 0 and should show \"Aspect 3\", number 3");

    parts = new Parts(EVERY_MODE);
    parts.units.set(7, new Unit(NAMED, 15, List.of(0L)));
    assertThat(parts.difference())
        .isEqualTo(
            "the number of signals that take payload \"Aspect 0\" of topic"
                + " \"brackwater/étang\" is 0 and should be 1");

    parts = new Parts(EVERY_MODE);
    parts.units.set(7, new Unit(NAMED, 15, parts.units.get(6).key()));
    assertThat(parts.difference())
        .isEqualTo(
            "the number of signals that take payload \"Aspect 0\" of topic"
                + " \"brackwater/home\" is 2 and should be 1");
  }

  @Test
  void events() {
    assertThat(firstEvent(-1))
        .isEqualTo(
            "after event 01.01.02.00.01.00.06.00, B22 shows number 1"
                + " and should show \"Aspect 0\", number 0");
    assertThat(firstEvent(1))
        .isEqualTo(
            "the number of signals that take event 01.01.02.00.01.00.06.00 is 0 and should be 1");
    Parts parts = new Parts(EVERY_MODE);
    List<Long> events = new ArrayList<>(parts.units.get(11).key());
    events.set(3, 1L);
    parts.units.set(11, new Unit(LISTED, 31, events));
    assertThat(parts.difference())
        .isEqualTo(
            "the number of signals that take event 05.01.01.01.22.60.00.09 is 0 and"
                + " should be 1");

    parts = new Parts(EVERY_MODE);
    Kind event = parts.kinds.get(EVENTS);
    List<Answer> more = new ArrayList<>(event.answers());
    more.add(new Answer(4, 1));
    parts.kinds.set(EVENTS, kind(event, event.look(), 0, false, more));
    assertThat(parts.difference())
        .isEqualTo(
            "the number of signals that take event 01.01.02.00.01.00.04.04 is 1 and"
                + " should be 0");
  }

  private static String firstEvent(long further) {
    Parts parts = new Parts(EVERY_MODE);
    long first = parts.units.get(10).key().get(0);
    parts.units.set(10, new Unit(EVENTS, 28, List.of(first + further)));
    return parts.difference();
  }

  /** What a table holds, to be changed. */
  private static final class Parts {
    private final Controller controller;
    private final int colours;
    private int edition;
    private final List<Bus> buses;
    private final List<Chain> chains;
    private final List<Rhythm> rhythms;
    private final List<Flash> flashing;
    private final List<Kind> kinds;
    private final List<Unit> units;

    private Parts(Controller controller) {
      this.controller = controller;
      TableModel model = Samples.lower(controller);
      this.colours = model.colours();
      this.edition = model.edition();
      this.buses = new ArrayList<>(model.buses());
      this.chains = new ArrayList<>(model.chains());
      this.rhythms = new ArrayList<>(model.rhythms());
      this.flashing = new ArrayList<>(model.flashing());
      this.kinds = new ArrayList<>(model.kinds());
      this.units = new ArrayList<>(model.units());
    }

    private void state(int kind, int place, State state) {
      Kind old = kinds.get(kind);
      List<State> states = new ArrayList<>(old.look().states());
      states.set(place, state);
      Look look = new Look(old.look().leds(), states, old.look().glows());
      kinds.set(kind, kind(old, look, old.rest(), old.keep(), old.answers()));
    }

    private String difference() {
      byte[] table =
          Samples.write(
              new TableModel(
                  edition, colours, buses, chains, rhythms, flashing, kinds, units, List.of()));
      return TableProof.firstDifference(Samples.BOOK, controller, table).orElse("none");
    }
  }

  private static Kind kind(Kind old, Look look, int rest, boolean keep, List<Answer> answers) {
    return kind(old, look, rest, old.oneIsNormal(), old.lowFirst(), keep, answers, old.names());
  }

  private static Kind bits(Kind old, boolean oneIsNormal, boolean lowFirst, boolean keep) {
    return kind(
        old, old.look(), old.rest(), oneIsNormal, lowFirst, keep, old.answers(), old.names());
  }

  private static Kind named(Kind old, List<Integer> names) {
    return kind(
        old,
        old.look(),
        old.rest(),
        old.oneIsNormal(),
        old.lowFirst(),
        old.keep(),
        old.answers(),
        names);
  }

  private static Kind kind(
      Kind old,
      Look look,
      int rest,
      boolean oneIsNormal,
      boolean lowFirst,
      boolean keep,
      List<Answer> answers,
      List<Integer> names) {
    return new Kind(
        look,
        old.mode(),
        old.bus(),
        old.addresses(),
        rest,
        oneIsNormal,
        lowFirst,
        old.settling(),
        keep,
        old.listed(),
        old.onApproach(),
        answers,
        names);
  }
}
