package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Command;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Dimming;
import dev.doublet.layout.Glow;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Supply;
import dev.doublet.layout.Unit;
import dev.doublet.table.TableFault.Reason;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

class LoweringTest {
  private static final Chain CHAIN =
      new Chain(
          "main",
          0,
          Samples.PIXEL,
          100,
          100,
          10,
          Supply.UNSAID,
          Cable.UNSAID,
          List.of(),
          Samples.NOWHERE);

  @Test
  void theOrderInWhichSignalsAreGivenDoesNotMatter() {
    Random random = new Random(8);
    for (int i = 0; i < 20; i++) {
      Controller controller = RandomController.of(random);
      List<Unit> units = new ArrayList<>(controller.units());
      Collections.shuffle(units, random);
      assertThat(Samples.write(Samples.controller(controller.chains(), units)))
          .isEqualTo(Samples.write(controller));
    }
  }

  @Test
  void colourChannelsAreInTheOrderSent() {
    assertThat(Samples.lower(controller(unit("S", 0, 1))).chains().get(0).palette())
        .containsSubsequence(90, 180, 0);
  }

  @Test
  void signalsThatShareAnLedAreRefused() {
    refuses(
        controller(unit("S1", 0, 1), unit("S2", 1, 2)),
        Reason.NOT_COMPLETE,
        "S1 and S2 share an LED of chain \"main\"");
  }

  @Test
  void aSignalBeyondTheEndOfItsChainIsRefused() {
    refuses(
        controller(unit("S1", 9, 1)),
        Reason.NOT_COMPLETE,
        "S1 reaches beyond the last LED of chain \"main\"");
  }

  @Test
  void aColourForWhichTheChainHasNoDriveIsRefusedOnlyWhereItIsShown() {
    Chain red =
        new Chain(
            "red",
            0,
            Samples.part("red pixel", "RGB", Map.of("red", List.of(9, 0, 0))),
            100,
            100,
            10,
            Supply.UNSAID,
            Cable.UNSAID,
            List.of(),
            Samples.NOWHERE);
    Chain main =
        new Chain(
            "main",
            1,
            Samples.PIXEL,
            100,
            100,
            10,
            Supply.UNSAID,
            Cable.UNSAID,
            List.of(),
            Samples.NOWHERE);
    Unit unit = unit("S1", 0, 1);
    Unit onMain =
        new Unit(
            "S1",
            "S1",
            unit.kind(),
            main,
            0,
            unit.command(),
            Dimming.NONE,
            List.of(),
            Samples.NOWHERE);
    Unit onRed =
        new Unit(
            "S1",
            "S1",
            unit.kind(),
            red,
            0,
            unit.command(),
            Dimming.NONE,
            List.of(),
            Samples.NOWHERE);
    assertThat(Samples.lower(Samples.controller(List.of(red, main), List.of(onMain))).chains())
        .hasSize(2);
    refuses(
        Samples.controller(List.of(red, main), List.of(onRed)),
        Reason.NOT_COMPLETE,
        "S1 shows green, and the part \"red pixel\" of chain \"red\" says no drive for it");
  }

  @Test
  void aVanePassesAColourThatNothingShowsWhereItsChainHasADriveForIt() {
    List<Glow> glows = List.of(new Glow(true, ""), new Glow(false, "blue"));
    TableModel model =
        Samples.lower(Samples.glowing(glows, 100, Samples.FOUR_CHANNEL, Samples.PIXEL));
    assertThat(model.colours()).isEqualTo(4);
    assertThat(model.kinds().stream().map(k -> k.look().glows()))
        .containsExactly(
            List.of(new TableModel.Glow(true, 0), new TableModel.Glow(false, 1)),
            List.of(new TableModel.Glow(true, 0), new TableModel.Glow(false, 0)));
    assertThat(model.chains().get(0).palette()).startsWith(0, 0, 99, 0);
    assertThat(model.chains().get(1).palette()).startsWith(0, 0, 0);
    assertThat(Samples.lower(Samples.glowing(glows, 100, Samples.PIXEL)).colours()).isEqualTo(3);
  }

  /** Before LEDs that show only red, a vane never moves from one colour to another. */
  @Test
  void aColourThatNoVanePassesTakesNoPlaceInPalettes() {
    List<Glow> glows = List.of(new Glow(true, "blue"), Glow.NONE);
    assertThat(Samples.lower(Samples.glowing(glows, 100, Samples.FOUR_CHANNEL)).colours())
        .isEqualTo(3);
  }

  @Test
  void topicsThatTheReaderCouldNotTellApartAreRefused() {
    refuses(
        controller(
            Samples.onTopic("S1", CHAIN, 0, "brackwater/gabemakir", List.of("Stop")),
            Samples.onTopic("S2", CHAIN, 1, "brackwater/turilefiv", List.of("Stop"))),
        Reason.SAME_CHECKSUM,
        "the topics \"brackwater/gabemakir\" and \"brackwater/turilefiv\" have the same checksum;"
            + " change one of them");
  }

  @Test
  void namesThatTheReaderCouldNotTellApartAreRefused() {
    refuses(
        controller(Samples.onTopic("S1", CHAIN, 0, "S1", List.of("turilefiv", "gabemakir"))),
        Reason.SAME_CHECKSUM,
        "the names \"turilefiv\" and \"gabemakir\" have the same checksum; change one of them");
  }

  @Test
  void moreThanTheFormatCanNumberIsRefusedWithBothNumbers() {
    Chain endless =
        new Chain(
            "main",
            0,
            Samples.PIXEL,
            100,
            100,
            70_000,
            Supply.UNSAID,
            Cable.UNSAID,
            List.of(),
            Samples.NOWHERE);
    TableModel model = Samples.lower(Samples.controller(List.of(endless), List.of()));
    assertThatExceptionOfType(TableFault.class)
        .isThrownBy(() -> TableWriter.write(model))
        .withMessage(
            "70,000 LEDs, and a table holds at most 65,535; share them between more controllers")
        .matches(f -> f.reason() == Reason.TOO_MUCH);
  }

  private static Unit unit(String name, int led, int address) {
    Kind kind = Samples.kind(2, 10, 0);
    Command command = new Command(Samples.DCC, List.of(address), "", List.of());
    return new Unit(
        name, name, kind, CHAIN, led, command, Dimming.NONE, List.of(), Samples.NOWHERE);
  }

  private static Controller controller(Unit... units) {
    return Samples.controller(List.of(CHAIN), List.of(units));
  }

  private static void refuses(Controller controller, Reason reason, String words) {
    assertThatExceptionOfType(TableFault.class)
        .isThrownBy(() -> Lowering.lower(Samples.BOOK, controller))
        .withMessage(words)
        .matches(f -> f.reason() == reason);
  }
}
