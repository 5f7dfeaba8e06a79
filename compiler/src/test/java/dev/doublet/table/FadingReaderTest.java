package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.doublet.colour.Filament;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Glow;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Filament lamps that glow, and searchlights whose vanes swing, frame by frame. */
class FadingReaderTest {
  private static final Controller CONTROLLER = Samples.everyGlow();
  private static final Controller UNSHOWN =
      Samples.glowing(
          List.of(new Glow(true, ""), new Glow(false, "blue")),
          50,
          Samples.FOUR_CHANNEL,
          Samples.PIXEL);
  private static final byte[] TABLE = Samples.write(CONTROLLER);
  private static final int RED = 0;
  private static final int LED_2 = 4;
  private static final String RED_BYTES = "ff000000";
  private static final String YELLOW_BYTES = "96500001";
  private static final String GREEN_BYTES = "00ff1e00";

  private TableReader reader;
  private FadingReader fading;

  @BeforeEach
  void openTheTable() throws TableFault {
    reader = TableReader.open(TABLE);
    fading = new FadingReader(reader);
    fading.leds(0, 0);
  }

  @Test
  void aLampComesOnAndGoesOutWithinOneIn255OfAFilamentAtEveryStep() {
    reader.extended(0, 4, 1, 5000);
    for (int ms = 0; ms <= 2000; ms += 4) {
      assertThat((double) red(5000 + ms)).isCloseTo(255 * Filament.rise(ms), within(1.0));
    }
    reader.extended(0, 4, 0, 9000);
    for (int ms = 0; ms <= 2000; ms += 4) {
      assertThat((double) red(9000 + ms)).isCloseTo(255 * Filament.fall(ms), within(1.0));
    }
  }

  @Test
  void eachFlashOfAFilamentRisesAndFalls() {
    reader.extended(0, 4, 2, 600);
    fading.leds(0, 1200);
    for (int ms = 0; ms < 1200; ms++) {
      double exact = ms < 600 ? Filament.rise(ms) : Filament.fall(ms - 600);
      assertThat((double) red(12_000 + ms)).isCloseTo(255 * exact, within(1.0));
    }
  }

  /** Dark for the first 300 of every 1000 ms: it cools from 700 ms of light. Full is 180. */
  @Test
  void aFlashThatStartsDarkFallsAndThenRises() throws TableFault {
    byte[] table = HandMadeTableTest.LATER.clone();
    table[183] = 4; // lights 0 4, 4 1
    Samples.seal(table);
    FadingReader lamp = new FadingReader(TableReader.open(table));
    for (int ms = 0; ms < 1000; ms++) {
      double lit = ms < 300 ? Filament.fall(ms) * Filament.rise(700) : Filament.rise(ms - 300);
      assertThat((double) (lamp.leds(0, 1000 + ms)[1] & 0xFF)).isCloseTo(180 * lit, within(1.5));
    }
  }

  @Test
  void aSignalThatIsToldThatNoTrainComesFadesOutAndBackIn() throws TableFault {
    TableReader waiting = TableReader.open(Samples.write(Samples.everyLight()));
    FadingReader lamps = new FadingReader(waiting);
    assertThat(lamps.leds(0, 0)[10] & 0xFF).isPositive();
    waiting.setApproach(1, false, 600);
    assertThat(lamps.leds(0, 1200)[10]).isZero();
    assertThat(lamps.leds(0, 1200)[1]).isNotZero();
    waiting.setApproach(1, true, 1800);
    assertThat(lamps.leds(0, 2400)[10]).isNotZero();
  }

  @Test
  void aSteadyLampThatBeginsToFlashWhileTheFlashIsLitLosesNoMoreThanItsFilamentCools() {
    reader.extended(0, 4, 1, 2000);
    fading.leds(0, 2600);
    fading.leds(0, 4000);
    reader.extended(0, 4, 2, 4810);
    assertThat(red(4810)).isEqualTo(255);
    assertThat(red(5390)).isEqualTo(255);
  }

  @Test
  void fromGreenToYellowTheVanePassesRed() {
    assertThat(second(1000)).isEqualTo(GREEN_BYTES);
    reader.extended(0, 4, 1, 2000);
    assertThat(second(2000)).isEqualTo(GREEN_BYTES);
    assertThat(second(2099)).isEqualTo(GREEN_BYTES);
    assertThat(second(2100)).isEqualTo(RED_BYTES);
    assertThat(second(2199)).isEqualTo(RED_BYTES);
    assertThat(second(2200)).isEqualTo(YELLOW_BYTES);
  }

  @Test
  void fromYellowToRedTheVanePassesNothing() {
    reader.extended(0, 4, 1, 1000);
    second(1000);
    second(2000);
    reader.extended(0, 4, 2, 3000);
    assertThat(second(3000)).isEqualTo(YELLOW_BYTES);
    assertThat(second(3100)).isEqualTo(RED_BYTES);
    assertThat(second(3200)).isEqualTo(RED_BYTES);
  }

  @Test
  void aMiddleColourThatNoAspectShowsIsPassedWhereTheLedCanBeDrivenForIt() throws TableFault {
    byte[] table = Samples.write(UNSHOWN);
    reader = TableReader.open(table);
    fading = new FadingReader(reader);
    for (int chain = 0; chain < 2; chain++) {
      fading.leds(chain, 1000);
      reader.extended(0, 4 + chain, 1, 2000);
      fading.leds(chain, 2000);
    }
    assertThat(second(2099)).isEqualTo(GREEN_BYTES);
    assertThat(second(2100)).isEqualTo("00006300");
    reader.setNight(true);
    assertThat(second(2199)).isEqualTo("00003200");
    reader.setNight(false);
    assertThat(second(2200)).isEqualTo(YELLOW_BYTES);
    assertThat(HexFormat.of().formatHex(fading.leds(1, 2000), 3, 6)).isEqualTo("5ab400");
  }

  @Test
  void theProofSeesAnotherColourInTheMiddleOfAVaneByDayAndNight() {
    byte[] sound = Samples.write(UNSHOWN);
    assertThat(TableProof.firstDifference(Samples.BOOK, UNSHOWN, sound)).isEmpty();
    String hex = HexFormat.of().formatHex(sound);
    for (String blue : List.of("00006300", "00003200")) {
      assertThat(hex).containsOnlyOnce(blue);
      byte[] table = sound.clone();
      table[hex.indexOf(blue) / 2 + 2]++;
      Samples.seal(table);
      assertThat(TableProof.firstDifference(Samples.BOOK, UNSHOWN, table).orElseThrow())
          .contains("fade in another way");
    }
  }

  @Test
  void aStateThatIsReplacedBeforeTheNextFrameIsNeverLit() {
    reader.extended(0, 4, 1, 900);
    reader.extended(0, 4, 0, 1000);
    for (int ms = 0; ms < 600; ms++) {
      assertThat(red(1000 + ms)).isZero();
      assertThat(second(1000 + ms)).isEqualTo(GREEN_BYTES);
    }
  }

  @Test
  void aFadeJustBegunIsLedOnToTheNextStateFromWhereItBegan() {
    reader.extended(0, 4, 1, 1000);
    assertThat(red(1000)).isZero();
    reader.extended(0, 4, 2, 1050);
    assertThat(second(1100)).isEqualTo(RED_BYTES);
  }

  @Test
  void withoutFadesTheSameTableSwitchesAtOnce() {
    reader.extended(0, 4, 1, 0);
    assertThat(HexFormat.of().formatHex(reader.leds(0, 0))).isEqualTo(RED_BYTES + YELLOW_BYTES);
  }

  @Test
  void theProofSeesALampThatFadesInAnotherWay() {
    assertThat(TableProof.firstDifference(Samples.BOOK, CONTROLLER, TABLE)).isEmpty();
    byte[] table = TABLE.clone();
    table[table.length - 6] = 0;
    Samples.seal(table);
    assertThat(TableProof.firstDifference(Samples.BOOK, CONTROLLER, table).orElseThrow())
        .contains("fade in another way");
  }

  @Test
  void aUnitNeedsTwoBytesAndTwoMoreWhereALampFadesAndOneWhereOneSettles() {
    assertThat(TableNeeds.of(CONTROLLER, TABLE).state()).isEqualTo(4);
    assertThat(TableNeeds.of(Samples.everyLight(), TABLE).state()).isEqualTo(2 * 2);
    byte[] settling = Samples.write(Samples.everyMode());
    assertThat(TableNeeds.of(Samples.everyMode(), settling).state()).isEqualTo(12 * 3);
  }

  private int red(long millis) {
    return fading.leds(0, millis)[RED] & 0xFF;
  }

  private String second(long millis) {
    return HexFormat.of().formatHex(fading.leds(0, millis), LED_2, 2 * LED_2);
  }
}
