package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.layout.Command;
import dev.doublet.layout.Controller;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import dev.doublet.table.Samples.Arrangement;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

class TableProofTest {

  @Test
  void everyTableDoesWhatItsLayoutSays() {
    Random random = new Random(6);
    for (int i = 0; i < 60; i++) {
      Controller controller = RandomController.of(random);
      assertThat(TableProof.firstDifference(Samples.BOOK, controller, Samples.write(controller)))
          .isEmpty();
    }
    for (Controller every : List.of(Samples.everyMode(), Samples.everyLight())) {
      assertThat(TableProof.firstDifference(Samples.BOOK, every, Samples.write(every))).isEmpty();
    }
    for (Arrangement arrangement : Arrangement.values()) {
      Controller fleet = Samples.fleet(200, arrangement);
      assertThat(TableProof.firstDifference(Samples.BOOK, fleet, Samples.write(fleet))).isEmpty();
    }
  }

  /** A layout with them has an error; random controllers have them now and then. */
  @Test
  void nothingIsLeftToWaitWhereSignalsShareSomeOfTheirAddresses() {
    List<Unit> settling =
        Samples.everyMode().units().stream()
            .filter(u -> u.kind().way() instanceof Way.BinaryCoded)
            .toList();
    Unit one = settling.get(0);
    assertThat(one.command().addresses()).containsExactly(11, 12, 13);
    for (List<Integer> addresses :
        List.of(List.of(12, 13, 14), List.of(10, 11, 12), List.of(14, 11, 15))) {
      Unit other = at(settling.get(1), addresses);
      Controller both = Samples.controller(List.of(one.chain()), List.of(one, other));
      assertThat(TableProof.firstDifference(Samples.BOOK, both, Samples.write(both))).isEmpty();
    }
  }

  private static Unit at(Unit unit, List<Integer> addresses) {
    Command command = new Command(unit.command().bus(), addresses, "", List.of());
    return new Unit(
        unit.name(),
        unit.signal(),
        unit.kind(),
        unit.chain(),
        unit.led(),
        command,
        unit.dimming(),
        List.of(),
        unit.span());
  }

  @Tag("slow")
  /** What remains lies in states, answers and colours, by day and night, that nothing calls up. */
  @Test
  void damageUnderARightChecksumIsFoundUnlessItChangesNothingThatCanBeSeen() throws TableFault {
    Random random = new Random(7);
    int found = 0;
    int all = 0;
    for (int i = 0; i < 600; i++) {
      Controller controller = RandomController.of(random);
      byte[] table = Samples.write(controller);
      TableModel model = TableDecoder.decode(table);
      table[8 + random.nextInt(table.length - 12)] = (byte) random.nextInt(256);
      Samples.seal(table);
      if (isSoundAndNot(model, table)) {
        all++;
        if (TableProof.firstDifference(Samples.BOOK, controller, table).isPresent()) {
          found++;
        } else {
          TableReader damaged = TableReader.open(table);
          sameUnderRandomCommands(new TableReader(model), damaged, controller, random);
        }
      }
    }
    assertThat(all).isGreaterThan(150);
    assertThat(found).isGreaterThan(all * 17 / 20);
  }

  private static void sameUnderRandomCommands(
      TableReader sound, TableReader damaged, Controller controller, Random random) {
    List<Unit> units = Lowering.order(controller);
    for (int i = 0; i < 1000 && !units.isEmpty(); i++) {
      int pick = random.nextInt(units.size());
      Unit unit = units.get(pick);
      List<Long> key = sound.model().units().get(pick).key();
      long near = key.get(random.nextInt(key.size())) + random.nextInt(8) - 2;
      int address = (int) near & 2047;
      int value = random.nextInt(256);
      State state = unit.kind().states().get(random.nextInt(unit.kind().states().size()));
      String payload = random.nextBoolean() ? state.name() : "" + random.nextInt(300);
      for (TableReader reader : List.of(sound, damaged)) {
        int bus = Lowering.buses(controller).indexOf(unit.command().bus());
        reader.accessory(bus, address, value & 1, 500L * i);
        reader.extended(bus, address, value, 500L * i);
        reader.event(bus, near + value, 500L * i);
        byte[] topic = unit.command().topic().getBytes(StandardCharsets.UTF_8);
        reader.topic(bus, topic, payload.getBytes(StandardCharsets.UTF_8), 500L * i);
        reader.setNight(i % 3 == 0);
        reader.setApproach(pick, i % 5 > 1, 500L * i);
      }
      assertThat(damaged.memory(true)).isEqualTo(sound.memory(true));
      int chain = unit.chain().index();
      assertThat(damaged.leds(chain, i * 37L)).isEqualTo(sound.leds(chain, i * 37L));
    }
  }

  private static boolean isSoundAndNot(TableModel model, byte[] table) {
    try {
      return !TableDecoder.decode(table).equals(model);
    } catch (TableFault fault) {
      return false;
    }
  }

  @Test
  void theFirstDifferenceIsSaidInWords() {
    Controller fleet = Samples.fleet(3, Arrangement.BLOCKS);
    Controller other = Samples.fleet(3, Arrangement.CYCLING);
    assertThat(TableProof.firstDifference(Samples.BOOK, fleet, Samples.write(other)))
        .contains("before the first command, LED 1 of chain \"main\" differs at 0 ms");
    assertThat(TableProof.firstDifference(Samples.BOOK, fleet, new byte[3]))
        .contains("the table cannot be opened: 3 bytes are too few");
  }
}
