package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.layout.Controller;
import dev.doublet.table.TableFault.Reason;
import java.util.HexFormat;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

/** Light that behaves: lamps that take turns, nights, and signals that wait for trains. */
class LightTest {
  private static final Controller CONTROLLER = Samples.everyLight();
  private static final byte[] TABLE = Samples.write(CONTROLLER);

  @Test
  void twoLampsOfWhichOneStartsDarkTakeTurns() throws TableFault {
    TableReader reader = TableReader.open(TABLE);
    reader.extended(0, 4, 1, 0);
    LongStream.range(0, 2400)
        .forEach(
            millis -> {
              byte[] leds = reader.leds(0, millis);
              assertThat(leds[1] != 0)
                  .as("first lamp at %d", millis)
                  .isEqualTo(millis % 1200 < 600);
              assertThat(leds[4] != 0).as("second lamp at %d", millis).isEqualTo(leds[1] == 0);
            });
  }

  @Test
  void lampsThatTakeTurnsShareOneRhythm() {
    assertThat(Samples.lower(CONTROLLER).rhythms())
        .containsExactly(new TableModel.Rhythm(1200, 600));
  }

  @Test
  void byNightAColourIsAsBrightAsTheChainSaysByNight() throws TableFault {
    TableReader reader = TableReader.open(TABLE);
    assertThat(hex(reader.leds(0, 0))).startsWith("00a000");
    reader.setNight(true);
    assertThat(hex(reader.leds(0, 0))).startsWith("002800");
    reader.setNight(false);
    assertThat(hex(reader.leds(0, 0))).startsWith("00a000");
  }

  @Test
  void aSignalThatWaitsForTrainsIsLitUntilItIsToldThatNoneComes() throws TableFault {
    TableReader reader = TableReader.open(TABLE);
    assertThat(hex(reader.leds(0, 0))).isEqualTo("00a00000a00000000000a00000a000");
    reader.setApproach(1, false, 0);
    assertThat(hex(reader.leds(0, 0))).isEqualTo("00a00000a000000000000000000000");
    assertThat(reader.extended(0, 5, 1, 0)).isEqualTo(1);
    assertThat(reader.number(1, 0)).isEqualTo(1);
    assertThat(hex(reader.leds(0, 0))).isEqualTo("00a00000a000000000000000000000");
    reader.setApproach(1, true, 0);
    assertThat(hex(reader.leds(0, 0))).isEqualTo("00a00000a00000000000a000000000");
  }

  @Test
  void aSignalThatWaitsForNoTrainIsNeverDarkened() throws TableFault {
    TableReader reader = TableReader.open(TABLE);
    String before = hex(reader.leds(0, 0));
    reader.setApproach(0, false, 0);
    assertThat(hex(reader.leds(0, 0))).isEqualTo(before);
  }

  @Test
  void theProofSeesATableThatIsWrongOnlyByNightOrOnlyWithoutTrains() throws TableFault {
    assertThat(TableProof.firstDifference(Samples.BOOK, CONTROLLER, TABLE)).isEmpty();
    byte[] table = TABLE.clone();
    int night = indexOf(table, "00a000002800") + 4;
    table[night]++;
    Samples.seal(table);
    assertThat(TableProof.firstDifference(Samples.BOOK, CONTROLLER, table).orElseThrow())
        .contains("by night");

    int kinds = TABLE[24] & 0xFF;
    byte[] patient = TABLE.clone();
    patient[kinds + 6] ^= (byte) 0x80;
    Samples.seal(patient);
    assertThat(TableProof.firstDifference(Samples.BOOK, CONTROLLER, patient).orElseThrow())
        .contains("trains");
  }

  @Test
  void otherVersionsAreRefused() {
    for (int version : new int[] {0, 1, 2, 4, 255}) {
      byte[] other = TABLE.clone();
      other[4] = (byte) version;
      Samples.seal(other);
      assertThat(reasonOf(other)).isEqualTo(Reason.OTHER_VERSION);
    }
  }

  private static Reason reasonOf(byte[] table) {
    try {
      TableReader.open(table);
      throw new AssertionError("it opens");
    } catch (TableFault fault) {
      return fault.reason();
    }
  }

  private static int indexOf(byte[] table, String hex) {
    return hex(table).indexOf(hex) / 2;
  }

  private static String hex(byte[] bytes) {
    return HexFormat.of().formatHex(bytes);
  }
}
