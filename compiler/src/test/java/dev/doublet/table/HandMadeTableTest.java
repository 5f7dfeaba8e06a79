package dev.doublet.table;

import static java.util.Map.entry;
import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.table.TableModel.Bus;
import dev.doublet.table.TableModel.Chain;
import dev.doublet.table.TableModel.Flash;
import dev.doublet.table.TableModel.Glow;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Look;
import dev.doublet.table.TableModel.Mode;
import dev.doublet.table.TableModel.Part;
import dev.doublet.table.TableModel.Rhythm;
import dev.doublet.table.TableModel.State;
import dev.doublet.table.TableModel.Unit;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/** Tables written by hand from the page on the format alone. */
class HandMadeTableTest {
  static final byte[] TABLE =
      hex(
          "44 42 4C 54",
          "03", // version
          "00", // needs nothing
          "5C 00", // 92 bytes
          "07 00", // edition 7
          "02 00", // two units
          "01 01 01 01 02 01", // a bus, a chain, a rhythm, a flashing light, two colours, a kind
          "29 00 32 00 36 00 38 00 43 00", // sections at 41, 50, 54, 56 and 67
          "00 00", // no cycles
          "00 05 04 00 05 00", // at 30: DCC, address 1 at decoder 1, five bits, addresses 4 to 5
          "43 00 01 00 01", // index at 67: one record, which is looked at
          "05 00 03 48 00 4E 00 00 00", // at 41: five LEDs of three channels, palette at 72, places
          // at 78, from unit 0
          "B0 04 58 02", // at 50: lit 600 of every 1200 ms
          "02 00", // at 54: colour 2 in rhythm 0
          "02 02 54 00 00 00", // at 56: two LEDs, two states, pictures at 84, values are numbers
          "00 01 00 00 00", // aspect-number, one address, rests at state 0, on bus 0, never settles
          "04 08 00 00 00", // at 67: two units from address 4 and unit 0, of kind 0
          "00 C8 00", // at 72: red, as green red blue
          "5A B4 00", // yellow
          "02 00 01 00", // at 78: two units of kind 0 behind one dark LED
          "00 09", // at 82: numbers 0 and 9
          "01 00 03 01", // state 0: lights 1, 0; state 1: lights 3, 1
          "83 99 BC DE"); // the checksum of all before

  static final byte[] LATER =
      hex(
          "44 42 4C 54",
          "03", // version
          "0F", // some kind settles, some look glows, there are topics and events
          "16 01", // 278 bytes
          "01 02", // edition 513
          "06 00", // six units
          "03 02 01 02 02 05", // three buses, two chains, a rhythm, two flashing lights, two
          // colours, five kinds
          "3F 00 51 00 55 00 59 00 90 00", // sections at 63, 81, 85, 89 and 144
          "03 00", // three bytes of cycles
          "80 08 03 00 FF 07", // at 30: DCC, address 1 at decoder 0, eight bits, addresses 3 to
          // 2047
          "D2 00 03 00 02", // index at 210: three records, of which two are looked at
          "01 00 00 00 00 00 E1 00 01 00 00", // at 41: MQTT, a record at 225
          "02 00 FF 01 00 00 E8 00 03 00 00", // at 52: OpenLCB, reach 511, three records at 232
          "04 00 83 93 00 A1 00 00 00", // at 63: four LEDs of three channels, palettes at 147 for
          // day and night
          "05 00 01 9F 00 A8 00 03 00", // five LEDs of one channel, palette at 159, places at 168,
          // from unit 3
          "E8 03 2C 01", // at 81: 300 of every 1000 ms
          "01 00 02 80", // at 85: colour 1; colour 2, dark first
          "02 02 B5 00 BF 00 63 00 01 01 80", // at 89: names at 191 on MQTT, keeps, rests at state
          // 1, glows
          "01 02 BD 00 00 00 04 00 00 02 00", // at 100: listed events
          "01 02 BD 00 CA 00 04 00 00 02 00", // at 111: events by the answers at 202
          "01 02 BD 00 C7 00 89 02 00 00 13", // at 122: binary-coded, 1 is normal, on approach,
          // settles after 19 steps
          "01 82 BD 00 CD 00 02 01 01 00 00", // at 133: one per output, its answers name states,
          // rests at state 1
          "01 03 80", // at 144: kinds 1, 3, 1, 3 and so on
          "00 C8 00 5A B4 00 00 32 00 17 2D 00", // at 147: red and yellow by day, then by night
          "FF 80", // at 159: red and yellow
          "01 00 00 02 80 00 00", // at 161: one of kind 0, two of the cycle
          "82 02 00 01 80 01 00 01 04 00 00", // at 168: two of kind 2, the second behind a dark
          // LED; a dark LED; one of kind 4
          "00 07 00 04 03 01 80 02", // at 179: numbers 0, 7; lights 0 4, 3 1; filament; colour 2
          // between
          "01 02 00 01", // at 187: numbers 1, 2; lights 0, 1
          "83 92 06 E3 01 00 00 00", // at 191: checksums of two names
          "02 00 03", // at 199: value 0 is state 0, 3 is state 1
          "02 00 01", // at 202: 0 is 0, 1 is 1
          "02 00 01 01 00", // at 205: 0 is state 1, 1 is state 0
          "03 00 02 80 03", // at 210: address 3 is the first of unit 2, kind 3
          "FF 0F 02 80 03", // address 2047 is its second
          "FF 07 05 00 04", // and the one of unit 5, kind 4
          "83 92 06 E3 00 00 00", // at 225: topic "123456789" of unit 0, kind 0
          "02 00 00 00 00 00 00 01 01 00 00 01 01 00", // at 232: an event that is state 1 of unit
          // 1, kind 1
          "00 04 00 01 00 02 01 01 00 01 02 02 03 00", // two units of kind 2 from unit 3, 256 apart
          "FF FF FF FF FF FF FF FF 00 00 00 01 01 00", // an event that is state 0 of unit 1
          "ED 70 3A 84"); // the checksum of all before

  /**
   * A signal of two lamps behind a numeral of two: its aspect of numbers 16 and 17 shows the second
   * lamp, and the one or the other of the numeral.
   */
  static final byte[] NUMERAL =
      hex(
          "44 42 4C 54 03 40 63 00 01 00 01 00 01 01 00 00 03 01", // needs numerals; 99 bytes
          "29 00 32 00 32 00 32 00 3D 00 00 00", // sections
          "00 08 04 00 04 00 5A 00 01 00 01", // at 30: DCC, 8 bits, address 4, one record
          "04 00 01 3D 00 40 00 00 00", // at 41: a chain of 4 LEDs of one channel
          "04 03 47 00 00 00 00 01 80 00 00", // at 50: 4 LEDs, 3 states, rests at 0; a numeral
          "11 22 33", // at 61: the palette
          "01 00 00 00", // at 64: one unit
          "00 10 11", // at 68: numbers 0, 16, 17
          "00 02 02 03", // at 71: LEDs 0 and 1; two rows, three figures
          "00 01 01", // at 75: the rows of the states
          "00 01 00 00 00 02", // at 78: figure 0 is of state 0; lights of the other LEDs
          "00 00 03 00 00 03", // at 84: dark, the first, the second
          "04 00 00 00 00", // at 90: address 4 is unit 0, kind 0
          "AE 9A 0E 65"); // the checksum of all before

  static final byte[] EMPTY =
      hex(
          "44 42 4C 54 03 00 22 00 00 00 00 00 00 00 00 00 00 00",
          "1E 00 1E 00 1E 00 1E 00 1E 00 00 00", // sections that hold nothing
          "30 4D 2F F7"); // the checksum of all before

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
          List.of(new Flash(2, 0, false)),
          List.of(
              new Kind(
                  new Look(
                      2,
                      List.of(new State(0, List.of(1, 0)), new State(9, List.of(3, 1))),
                      List.of()),
                  Mode.ASPECT_NUMBER,
                  0,
                  1,
                  0,
                  false,
                  false,
                  0,
                  false,
                  false,
                  false,
                  List.of(new Answer(0, 0), new Answer(9, 1)),
                  List.of())),
          List.of(new Unit(0, 1, List.of(4L)), new Unit(0, 3, List.of(5L))),
          List.of());

  private static final Look LAMP =
      new Look(1, List.of(new State(1, List.of(0)), new State(2, List.of(1))), List.of());

  private static final TableModel LATER_MODEL =
      new TableModel(
          513,
          2,
          List.of(
              new Bus(Speaks.DCC, 8, 0), new Bus(Speaks.MQTT, 0, 0), new Bus(Speaks.OPENLCB, 0, 0)),
          List.of(
              new Chain(
                  4, 3, List.of(0, 0xC8, 0, 0x5A, 0xB4, 0), List.of(0, 0x32, 0, 0x17, 0x2D, 0)),
              new Chain(5, 1, List.of(0xFF, 0x80), List.of())),
          List.of(new Rhythm(1000, 300)),
          List.of(new Flash(1, 0, false), new Flash(2, 0, true)),
          List.of(
              new Kind(
                  new Look(
                      2,
                      List.of(new State(0, List.of(0, 4)), new State(7, List.of(3, 1))),
                      List.of(new Glow(true, 0), new Glow(false, 2))),
                  Mode.TOPIC,
                  1,
                  0,
                  1,
                  false,
                  false,
                  0,
                  true,
                  false,
                  false,
                  List.of(),
                  List.of(0xE3069283, 1)),
              kind(Mode.EVENT, 2, 0, 0, true, List.of()),
              kind(Mode.EVENT, 2, 0, 0, false, List.of(new Answer(0, 0), new Answer(1, 1))),
              new Kind(
                  LAMP,
                  Mode.BINARY_CODED,
                  0,
                  2,
                  0,
                  true,
                  false,
                  19,
                  false,
                  false,
                  true,
                  List.of(new Answer(0, 0), new Answer(3, 1)),
                  List.of()),
              kind(
                  Mode.ONE_PER_OUTPUT,
                  0,
                  1,
                  1,
                  false,
                  List.of(new Answer(0, 1), new Answer(1, 0)))),
          List.of(
              new Unit(0, 0, List.of(0xE3069283L)),
              new Unit(1, 2, List.of(-1L, 0x0100_0000_0000_0002L)),
              new Unit(3, 3, List.of(3L, 2047L)),
              new Unit(2, 4, List.of(0x0101_0200_0100_0400L)),
              new Unit(2, 6, List.of(0x0101_0200_0100_0500L)),
              new Unit(4, 8, List.of(2047L))),
          List.of());

  private static Kind kind(
      Mode mode, int bus, int addresses, int rest, boolean listed, List<Answer> answers) {
    return new Kind(
        LAMP, mode, bus, addresses, rest, false, false, 0, false, listed, false, answers,
        List.of());
  }

  private static final TableModel NUMERAL_MODEL =
      new TableModel(
          1,
          3,
          List.of(new Bus(Speaks.DCC, 8, 1)),
          List.of(new Chain(4, 1, List.of(0x11, 0x22, 0x33), List.of())),
          List.of(),
          List.of(),
          List.of(
              new Kind(
                  new Look(
                          4,
                          List.of(
                              new State(0, List.of(0, 0, 1, 0)),
                              new State(16, List.of(3, 0, 0, 2)),
                              new State(17, List.of(0, 3, 0, 2))),
                          List.of())
                      .with(new Part(0, 2)),
                  Mode.ASPECT_NUMBER,
                  0,
                  1,
                  0,
                  false,
                  false,
                  0,
                  false,
                  false,
                  false,
                  List.of(new Answer(0, 0), new Answer(16, 1), new Answer(17, 2)),
                  List.of())),
          List.of(new Unit(0, 0, List.of(4L))),
          List.of());

  @Test
  void theDecoderReadsTheOneWithANumeral() throws TableFault {
    assertThat(TableDecoder.decode(NUMERAL)).isEqualTo(NUMERAL_MODEL);
    assertThat(TableWriter.write(NUMERAL_MODEL)).hasSameSizeAs(NUMERAL);
    assertThat(TableDecoder.decode(TableWriter.write(NUMERAL_MODEL))).isEqualTo(NUMERAL_MODEL);
    assertThat(TableDecoder.unpack(NUMERAL).pieces().found())
        .containsEntry("looks", new TreeMap<>(Map.of(68, 22)));
  }

  @Test
  void theOneWithANumeralDoesWhatItSays() throws TableFault {
    TableReader reader = TableReader.open(NUMERAL);
    assertThat(reader.leds(0, 0)).isEqualTo(hex("00 00 11 00"));
    reader.extended(0, 4, 16, 0);
    assertThat(reader.leds(0, 0)).isEqualTo(hex("33 00 00 22"));
    reader.extended(0, 4, 17, 0);
    assertThat(reader.leds(0, 0)).isEqualTo(hex("00 33 00 22"));
    assertThat(reader.number(0, 0)).isEqualTo(17);
  }

  @Test
  void theDecoderReadsTheLaterOne() throws TableFault {
    assertThat(TableDecoder.decode(LATER)).isEqualTo(LATER_MODEL);
    assertThat(TableDecoder.decode(TableWriter.write(LATER_MODEL))).isEqualTo(LATER_MODEL);
  }

  /** Every byte of a table belongs to one piece; a look or a palette may be read by several. */
  @Test
  void everyPieceOfTheLaterOneIsWhereItIs() throws TableFault {
    assertThat(TableDecoder.unpack(LATER).pieces().found())
        .isEqualTo(
            Map.ofEntries(
                entry("header", Map.of(0, 30)),
                entry("buses", Map.of(30, 33)),
                entry("chains", Map.of(63, 18)),
                entry("rhythms", Map.of(81, 4)),
                entry("flashing", Map.of(85, 4)),
                entry("kinds", Map.of(89, 55)),
                entry("cycles", Map.of(144, 3)),
                entry("palettes", Map.of(147, 12, 159, 2)),
                entry("places", Map.of(161, 7, 168, 11)),
                entry("looks", Map.of(179, 8, 187, 4)),
                entry("names", Map.of(191, 8)),
                entry("answers", Map.of(199, 3, 202, 3, 205, 5)),
                entry("indices", Map.of(210, 15, 225, 7, 232, 42)),
                entry("checksum", Map.of(274, 4))));
  }

  @Test
  void theLaterOneDoesWhatItSays() throws TableFault {
    TableReader reader = TableReader.open(LATER);
    assertThat(reader.leds(0, 0)).isEqualTo(hex("00C800 00C800 000000 000000"));
    assertThat(reader.leds(0, 300)).isEqualTo(hex("000000 00C800 000000 000000"));
    assertThat(reader.leds(1, 0)).isEqualTo(hex("00 00 00 00 FF"));
    reader.setNight(true);
    assertThat(reader.leds(0, 0)).isEqualTo(hex("003200 003200 000000 000000"));
    assertThat(reader.leds(1, 0)).isEqualTo(hex("00 00 00 00 FF"));
    reader.setNight(false);

    byte[] topic = "123456789".getBytes(StandardCharsets.US_ASCII);
    byte[] spaced = " 123456789\r\n".getBytes(StandardCharsets.US_ASCII);
    assertThat(reader.topic(1, spaced, topic, 0)).isZero();
    assertThat(reader.topic(1, topic, spaced, 0)).isEqualTo(1);
    assertThat(reader.number(0, 0)).isZero();
    assertThat(reader.leds(0, 299)).isEqualTo(hex("000000 000000 000000 000000"));
    assertThat(reader.leds(0, 300)).isEqualTo(hex("000000 5AB400 000000 000000"));
    assertThat(reader.topic(1, topic, new byte[0], 0)).isEqualTo(1);
    assertThat(reader.number(0, 0)).isZero();

    assertThat(reader.event(2, 0x0100_0000_0000_0002L, 0)).isEqualTo(1);
    assertThat(reader.event(2, 0x0101_0200_0100_0501L, 0)).isEqualTo(1);
    assertThat(reader.event(2, 0x0101_0200_0100_0502L, 0)).isZero();
    reader.accessory(0, 3, 1, 1000);
    reader.accessory(0, 2047, 0, 1000);
    assertThat(reader.leds(1, 1000)).isEqualTo(hex("00 00 FF 00 FF"));
    reader.accessory(0, 2047, 1, 1100);
    assertThat(reader.leds(1, 1100)).isEqualTo(hex("00 00 FF 00 00"));
    assertThat(reader.leds(0, 1399)).isEqualTo(hex("000000 5AB400 00C800 000000"));
    assertThat(reader.leds(0, 1424)).isEqualTo(hex("000000 5AB400 00C800 00C800"));
    reader.setApproach(2, false, 2000);
    assertThat(reader.leds(0, 2000)).isEqualTo(hex("000000 000000 00C800 000000"));
  }

  @Test
  void theEmptyOneIsSound() throws TableFault {
    assertThat(TableDecoder.decode(EMPTY))
        .isEqualTo(
            new TableModel(
                0, 0, List.of(), List.of(), List.of(), List.of(), List.of(), List.of(), List.of()));
  }

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

    assertThat(reader.packet(0, hex("81 73 09 FB"), 0)).isEqualTo(1);

    assertThat(reader.number(0, 0)).isZero();
    assertThat(reader.number(1, 0)).isEqualTo(9);
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
