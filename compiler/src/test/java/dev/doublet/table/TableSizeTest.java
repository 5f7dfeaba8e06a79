package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.dataformat.cbor.databind.CBORMapper;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Command;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Dimming;
import dev.doublet.layout.Kind;
import dev.doublet.layout.State;
import dev.doublet.layout.Supply;
import dev.doublet.layout.Unit;
import dev.doublet.table.Samples.Arrangement;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

class TableSizeTest {

  private static final int BLOCKS_200 = 799;
  private static final int CYCLING_200 = 876;

  @Test
  void twoHundredSignalsOfEightKindsTakeFewBytesWhetherKindsComeInBlocksOrCycle() {
    assertThat(size(200, Arrangement.BLOCKS)).isEqualTo(BLOCKS_200).isLessThanOrEqualTo(1536);
    assertThat(size(200, Arrangement.CYCLING)).isEqualTo(CYCLING_200).isLessThanOrEqualTo(1536);
  }

  @Test
  void aFurtherSignalOfAKnownKindTakesEightBytesAlone() {
    assertThat(withOneMore(3, 3) - withoutMore()).isEqualTo(8);
  }

  @Test
  void aFurtherSignalThatContinuesARunTakesNothing() {
    assertThat(withOneMore(0, 0) - withoutMore()).isZero();
    int cycling = size(199, Arrangement.CYCLING);
    assertThat(size(200, Arrangement.CYCLING) - cycling).isZero();
  }

  /** Four colours of three bytes are a palette. */
  @Test
  void brightnessTakesAByteASignalAndAPaletteForEachFurtherLevelOnItsChain() {
    Random random = new Random(1);
    for (int levels = 1; levels <= 30; levels++) {
      int signals = 8 * (1 + random.nextInt(20));
      Controller plain = Samples.fleet(signals, Arrangement.values()[levels % 2]);
      List<Unit> units = new ArrayList<>();
      TreeSet<Integer> found = new TreeSet<>();
      for (Unit unit : plain.units()) {
        int percent = 100 - random.nextInt(levels);
        found.add(percent);
        units.add(dimmed(unit, new Dimming(percent, List.of())));
      }
      int more =
          Samples.write(Samples.controller(plain.chains(), units)).length
              - Samples.write(plain).length;
      assertThat(more).isEqualTo(found.size() == 1 ? 0 : signals + 12 * (found.size() - 1));
    }
  }

  /**
   * Red, yellow and green of so many percent are in the palette as well: the look stays as it is.
   */
  @Test
  void aDimmedLampOfAKindTakesNoMoreThanAPalette() {
    Controller plain = Samples.fleet(16, Arrangement.BLOCKS);
    List<Unit> units =
        plain.units().stream()
            .map(
                u -> {
                  List<Integer> lamps = new ArrayList<>(Collections.nCopies(u.kind().leds(), 100));
                  lamps.set(0, 60);
                  return dimmed(u, new Dimming(100, lamps));
                })
            .toList();
    int more =
        Samples.write(Samples.controller(plain.chains(), units)).length
            - Samples.write(plain).length;
    assertThat(more).isBetween(1, 2 * 16 + 12);
  }

  private static Unit dimmed(Unit unit, Dimming dimming) {
    return new Unit(
        unit.name(),
        unit.signal(),
        unit.kind(),
        unit.chain(),
        unit.led(),
        unit.command(),
        dimming,
        List.of(),
        unit.span());
  }

  @Test
  void theSameContentTakesAtLeastEightTimesAsManyBytesInCbor() throws IOException {
    Controller blocks = Samples.fleet(200, Arrangement.BLOCKS);
    Controller cycling = Samples.fleet(200, Arrangement.CYCLING);
    assertThat(cbor(natural(blocks))).isEqualTo(268_174).isGreaterThan(8 * BLOCKS_200);
    assertThat(cbor(natural(cycling))).isEqualTo(268_233).isGreaterThan(8 * CYCLING_200);
    assertThat(cbor(shared(blocks))).isEqualTo(16_869).isGreaterThan(8 * BLOCKS_200);
    assertThat(cbor(shared(cycling))).isEqualTo(16_928).isGreaterThan(8 * CYCLING_200);
  }

  private static int size(int signals, Arrangement arrangement) {
    return Samples.write(Samples.fleet(signals, arrangement)).length;
  }

  private static int withoutMore() {
    return Samples.write(fiveOfOneKind(List.of())).length;
  }

  private static int withOneMore(int ledGap, int addressGap) {
    return Samples.write(fiveOfOneKind(List.of(ledGap, addressGap))).length;
  }

  /** Five signals in a run, and perhaps a sixth so many LEDs and addresses further on. */
  private static Controller fiveOfOneKind(List<Integer> gapsOfSixth) {
    Kind kind = Samples.kind(2, 10, 0);
    Chain chain =
        new Chain(
            "main",
            0,
            Samples.PIXEL,
            100,
            100,
            50,
            Supply.UNSAID,
            Cable.UNSAID,
            List.of(),
            Samples.NOWHERE);
    List<Unit> units = new ArrayList<>();
    for (int i = 0; i < (gapsOfSixth.isEmpty() ? 5 : 6); i++) {
      int ledGap = i == 5 ? gapsOfSixth.get(0) : 0;
      int addressGap = i == 5 ? gapsOfSixth.get(1) : 0;
      Command command = new Command(Samples.DCC, List.of(1 + i + addressGap), "", List.of());
      units.add(
          new Unit(
              "S" + i,
              "S",
              kind,
              chain,
              2 * i + ledGap,
              command,
              Dimming.NONE,
              List.of(),
              Samples.NOWHERE));
    }
    return Samples.controller(List.of(chain), units);
  }

  private static int cbor(Object content) throws IOException {
    return new CBORMapper().writeValueAsBytes(content).length;
  }

  /** Each signal with its own aspects, as one would write them down. */
  private static Object natural(Controller controller) {
    List<Object> signals = new ArrayList<>();
    for (Unit unit : controller.units()) {
      Map<String, Object> signal = place(unit);
      signal.putAll(kind(unit.kind()));
      signals.add(signal);
    }
    return Map.of("drive", Samples.PIXEL.drive(), "signals", signals);
  }

  /** Kinds written once, and named by signals. */
  private static Object shared(Controller controller) {
    List<Kind> kinds = controller.units().stream().map(Unit::kind).distinct().toList();
    List<Object> signals = new ArrayList<>();
    for (Unit unit : controller.units()) {
      Map<String, Object> signal = place(unit);
      signal.put("kind", kinds.indexOf(unit.kind()));
      signals.add(signal);
    }
    return Map.of(
        "drive",
        Samples.PIXEL.drive(),
        "kinds",
        kinds.stream().map(TableSizeTest::kind).toList(),
        "signals",
        signals);
  }

  private static Map<String, Object> place(Unit unit) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("chain", unit.chain().index());
    map.put("led", unit.led());
    map.put("address", unit.command().addresses().get(0));
    return map;
  }

  private static Map<String, Object> kind(Kind kind) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("mode", kind.way().word());
    map.put("rest", kind.rest());
    map.put("aspects", kind.states().stream().map(TableSizeTest::state).toList());
    map.put("answers", kind.answers().stream().map(Answer::state).toList());
    return map;
  }

  private static Map<String, Object> state(State state) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("number", state.number());
    map.put("lamps", state.lit());
    return map;
  }
}
