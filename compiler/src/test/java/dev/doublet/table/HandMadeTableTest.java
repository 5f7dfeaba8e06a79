package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

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
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A table written by hand from the page on the format alone. */
class HandMadeTableTest {
  static final byte[] TABLE =
      hex(
          "44 42 4C 54", // DBLT
          "01", // version
          "02", // three lights with dark: two bits
          "3F 00", // 63 bytes
          "07 00", // edition 7
          "02 00", // two units
          "01 01 01 02 01 02", // a bus, a chain, a rhythm, two lights, a kind, two colours
          "00 05 01", // at 18: DCC, five bits, address 1 at decoder 1
          "05 00 03 30 00", // at 21: five LEDs of three channels, palette at 48
          "B0 04 58 02", // at 26: lit 600 of every 1200 ms
          "01 00", // at 30: light 1 is colour 1
          "02 01", // light 2 is colour 2 in rhythm 1
          "36 00", // at 34: look at 54
          "00 00 01 00", // aspect-number on bus 0, one address, rests at state 0
          "00 00", // values are numbers
          "02 01 00 00 04 00", // at 42: two units of kind 0 from LED 1 and address 4
          "00 C8 00", // at 48: red, as green red blue
          "5A B4 00", // yellow
          "02 02", // at 54: two LEDs, two states
          "00 09", // numbers 0 and 9
          "61", // state 0: lights 1, 0; state 1: lights 2, 1
          "89 6D 46 01"); // the checksum of all before

  private static byte[] hex(String... pieces) {
    return HexFormat.of().parseHex(String.join("", pieces).replace(" ", ""));
  }

  private static final TableModel MODEL =
      new TableModel(
          7,
          2,
          List.of(new Bus(Speaks.DCC, 5, 1)),
          List.of(new Chain(5, 3, List.of(0, 0xC8, 0, 0x5A, 0xB4, 0), List.of())),
          List.of(new Rhythm(1200, 600)),
          List.of(new Light(1, 0, false), new Light(2, 1, false)),
          List.of(
              new Kind(
                  new Look(
                      2,
                      List.of(new State(0, List.of(1, 0)), new State(9, List.of(2, 1))),
                      List.of()),
                  Mode.ASPECT_NUMBER,
                  0,
                  1,
                  0,
                  false,
                  false,
                  false,
                  false,
                  false,
                  List.of(new Answer(0, 0), new Answer(9, 1)),
                  List.of())),
          List.of(new Unit(0, 1, List.of(4L)), new Unit(0, 3, List.of(5L))));

  @Test
  void theDecoderReadsIt() throws TableFault {
    assertThat(TableDecoder.decode(TABLE)).isEqualTo(MODEL);
  }

  @Test
  void theWriterWritesIt() throws TableFault {
    assertThat(TableWriter.write(MODEL)).isEqualTo(TABLE);
  }

  @Test
  void anExtendedPacketToUserAddressTwoShowsNumberNineOnTheSecondSignal() throws TableFault {
    TableReader reader = TableReader.open(TABLE);
    assertThat(reader.leds(0, 0)).isEqualTo(hex("000000 00C800 000000 00C800 000000"));

    assertThat(reader.packet(0, hex("81 73 09 FB"))).isEqualTo(1);

    assertThat(reader.number(0)).isZero();
    assertThat(reader.number(1)).isEqualTo(9);
    assertThat(reader.leds(0, 599)).isEqualTo(hex("000000 00C800 000000 5AB400 00C800"));
    assertThat(reader.leds(0, 600)).isEqualTo(hex("000000 00C800 000000 000000 00C800"));
    assertThat(reader.leds(0, 1200)).isEqualTo(reader.leds(0, 0));
  }

  @Test
  void everySingleBitFlipIsRefused() {
    for (int bit = 0; bit < 8 * TABLE.length; bit++) {
      byte[] flipped = TABLE.clone();
      flipped[bit / 8] ^= (byte) (1 << bit % 8);
      assertThat(isTable(flipped)).as("bit %d", bit).isFalse();
    }
  }

  private static boolean isTable(byte[] bytes) {
    try {
      TableReader.open(bytes);
      return true;
    } catch (TableFault fault) {
      return false;
    }
  }
}
