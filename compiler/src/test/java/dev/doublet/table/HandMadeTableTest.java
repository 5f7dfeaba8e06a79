package dev.doublet.table;

import static java.util.Map.entry;
import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus.Speaks;
import dev.doublet.layout.Mode;
import dev.doublet.table.TableModel.Bus;
import dev.doublet.table.TableModel.Chain;
import dev.doublet.table.TableModel.Glow;
import dev.doublet.table.TableModel.Kind;
import dev.doublet.table.TableModel.Light;
import dev.doublet.table.TableModel.Look;
import dev.doublet.table.TableModel.Rhythm;
import dev.doublet.table.TableModel.State;
import dev.doublet.table.TableModel.Unit;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/** Tables written by hand from the page on the format alone, one of each version. */
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

  static final byte[] LATER =
      hex(
          "44 42 4C 54", // DBLT
          "02", // version
          "02", // three lights with dark: two bits
          "BB 00", // 187 bytes
          "01 02", // edition 513
          "06 00", // six units
          "03 02 01 03 05 02", // three buses, two chains, a rhythm, three lights, five kinds
          "00 08 00", // at 18: DCC, eight bits, address 1 at decoder 0
          "01 00 00 02 00 00", // MQTT, OpenLCB
          "04 00 83 7C 00", // at 27: four LEDs of three channels, palettes at 124 for day and night
          "03 00 01 88 00", // three LEDs of one channel, palette at 136
          "E8 03 2C 01", // at 37: 300 of every 1000 ms
          "01 00 01 01 02 81", // at 41: colour 1; in the rhythm; colour 2, dark first
          "8A 00 63 01 00 01 96 00", // at 47: names at 150 on MQTT, keeps, rests at state 1
          "91 00 84 02 00 00 00 00", // at 55: listed events
          "91 00 04 02 00 00 01 00", // at 63: events by place
          "91 00 89 80 02 00 B2 00", // at 71: binary-coded, listed, 1 is normal, on approach
          "91 00 02 00 01 01 00 00", // at 79: one per output, one address, rests at state 1
          "01 00 00 00 83 92 06 E3", // at 87: kind 0 on LED 0, topic "123456789"
          "82 02 00 01 03 9E 00 AE 00", // at 95: kinds 1 and 3 on LED 2, lists at 158 and 174
          "02 04 00 02 00 04 00 01 00 02 01 01 00 01", // at 104: two of kind 2 on LED 4, 256 apart
          "01 06 00 04 FF 07", // at 118: kind 4 on LED 6, address 2047
          "00 C8 00 5A B4 00 00 32 00 17 2D 00", // at 124: red and yellow by day, then by night
          "FF 80", // at 136: red and yellow
          "02 82 00 07 6C 80 02", // at 138: numbers 0, 7; lights 0 3, 2 1; filament; colour 2
          // between
          "01 02 01 02 04", // at 145: numbers 1, 2; lights 0, 1
          "83 92 06 E3 01 00 00 00", // at 150: checksums of two names
          "FF FF FF FF FF FF FF FF 02 00 00 00 00 00 00 01", // at 158: two events
          "03 00 FF 07", // at 174: addresses 3 and 2047
          "02 00 00 03 01", // at 178: value 0 is state 0, 3 is state 1
          "FD DC B9 92"); // the checksum of all before

  static final byte[] EMPTY =
      hex("44 42 4C 54 01 01 16 00 00 00 00 00 00 00 00 00 00 00", "A8 B2 4E 84");

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
              new Chain(3, 1, List.of(0xFF, 0x80), List.of())),
          List.of(new Rhythm(1000, 300)),
          List.of(new Light(1, 0, false), new Light(1, 1, false), new Light(2, 1, true)),
          List.of(
              new Kind(
                  new Look(
                      2,
                      List.of(new State(0, List.of(0, 3)), new State(7, List.of(2, 1))),
                      List.of(new Glow(true, 0), new Glow(false, 2))),
                  Mode.TOPIC,
                  1,
                  0,
                  1,
                  false,
                  false,
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
                  false,
                  true,
                  true,
                  List.of(new Answer(0, 0), new Answer(3, 1)),
                  List.of()),
              kind(
                  Mode.ONE_PER_OUTPUT,
                  0,
                  1,
                  1,
                  false,
                  List.of(new Answer(1, 0), new Answer(2, 1)))),
          List.of(
              new Unit(0, 0, List.of(0xE3069283L)),
              new Unit(1, 2, List.of(-1L, 0x0100_0000_0000_0002L)),
              new Unit(3, 3, List.of(3L, 2047L)),
              new Unit(2, 4, List.of(0x0101_0200_0100_0400L)),
              new Unit(2, 5, List.of(0x0101_0200_0100_0500L)),
              new Unit(4, 6, List.of(2047L))));

  private static Kind kind(
      Mode mode, int bus, int addresses, int rest, boolean listed, List<Answer> answers) {
    return new Kind(
        LAMP, mode, bus, addresses, rest, false, false, false, listed, false, answers, List.of());
  }

  @Test
  void theDecoderReadsTheLaterOne() throws TableFault {
    assertThat(TableDecoder.decode(LATER)).isEqualTo(LATER_MODEL);
    assertThat(TableDecoder.decode(TableWriter.write(LATER_MODEL))).isEqualTo(LATER_MODEL);
  }

  /** Every byte of a table belongs to one piece; a look or a palette may be read by several. */
  @Test
  void everyPieceOfTheLaterOneIsWhereItIs() throws TableFault {
    assertThat(TableDecoder.unpack(LATER).pieces())
        .isEqualTo(
            Map.ofEntries(
                entry("header", Map.of(0, 18)),
                entry("buses", Map.of(18, 3, 21, 3, 24, 3)),
                entry("chains", Map.of(27, 5, 32, 5)),
                entry("rhythms", Map.of(37, 4)),
                entry("lights", Map.of(41, 2, 43, 2, 45, 2)),
                entry("kinds", Map.of(47, 8, 55, 8, 63, 8, 71, 8, 79, 8)),
                entry("entries", ENTRY_PIECES),
                entry("palettes", Map.of(124, 12, 136, 2)),
                entry("looks", Map.of(138, 7, 145, 5)),
                entry("names", Map.of(150, 8)),
                entry("lists", Map.of(158, 16, 174, 4)),
                entry("answers", Map.of(178, 5)),
                entry("checksum", Map.of(183, 4))));
    assertThat(ENTRY_PIECES.values().stream().mapToInt(i -> i).sum()).isEqualTo(124 - 87);
  }

  private static final Map<Integer, Integer> ENTRY_PIECES =
      new TreeMap<>(
          Map.ofEntries(
              entry(87, 3),
              entry(90, 1),
              entry(91, 4),
              entry(95, 3),
              entry(98, 1),
              entry(99, 1),
              entry(100, 2),
              entry(102, 2),
              entry(104, 3),
              entry(107, 1),
              entry(108, 8),
              entry(116, 2),
              entry(118, 3),
              entry(121, 1),
              entry(122, 2)));

  @Test
  void theLaterOneDoesWhatItSays() throws TableFault {
    TableReader reader = TableReader.open(LATER);
    assertThat(reader.leds(0, 0)).isEqualTo(hex("00C800 00C800 000000 000000"));
    assertThat(reader.leds(0, 300)).isEqualTo(hex("000000 00C800 000000 000000"));
    assertThat(reader.leds(1, 0)).isEqualTo(hex("00 00 FF"));
    reader.setNight(true);
    assertThat(reader.leds(0, 0)).isEqualTo(hex("003200 003200 000000 000000"));
    assertThat(reader.leds(1, 0)).isEqualTo(hex("00 00 FF"));
    reader.setNight(false);

    byte[] topic = "123456789".getBytes(StandardCharsets.US_ASCII);
    assertThat(reader.topic(1, topic, topic)).isEqualTo(1);
    assertThat(reader.number(0)).isZero();
    assertThat(reader.leds(0, 299)).isEqualTo(hex("000000 000000 000000 000000"));
    assertThat(reader.leds(0, 300)).isEqualTo(hex("000000 5AB400 000000 000000"));
    assertThat(reader.topic(1, topic, new byte[0])).isEqualTo(1);
    assertThat(reader.number(0)).isZero();

    assertThat(reader.event(2, 0x0100_0000_0000_0002L)).isEqualTo(1);
    assertThat(reader.event(2, 0x0101_0200_0100_0501L)).isEqualTo(1);
    assertThat(reader.event(2, 0x0101_0200_0100_0502L)).isZero();
    reader.accessory(0, 3, 1);
    reader.accessory(0, 2047, 1);
    assertThat(reader.leds(0, 0)).isEqualTo(hex("000000 000000 00C800 00C800"));
    assertThat(reader.leds(1, 0)).isEqualTo(hex("00 FF 00"));
    reader.setApproach(2, false);
    assertThat(reader.leds(0, 0)).isEqualTo(hex("000000 000000 00C800 000000"));
  }

  @Test
  void theEmptyOneIsSound() throws TableFault {
    assertThat(TableDecoder.decode(EMPTY))
        .isEqualTo(
            new TableModel(0, 0, List.of(), List.of(), List.of(), List.of(), List.of(), List.of()));
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
